"""What is said when a bite strayed from the plan: how far, what it changes, what was put right."""

from collections.abc import Iterator

from toneladder.order.values import Order, Tone
from toneladder.quantities import write_bite, write_tone
from toneladder.tank.naming import bite_name, listed, made_names
from toneladder.tank.values import Facts
from toneladder.wording import begins, say

STRAYED_S = 1.0


def strayed(bitten_s: float, bite_s: float) -> tuple[str, ...]:
    """How far a step ran over its bite or fell short of it, all its dips together."""
    over = bitten_s - bite_s
    if over >= STRAYED_S:
        return (say("{time} over.", time=write_bite(over)),)
    if over <= -STRAYED_S:
        return (say("{time} short.", time=write_bite(-over)),)
    return ()


def changed_bites(
    facts: Facts, planned: Order, before: Order, now: Order, done: int
) -> tuple[str, ...]:
    """What a new order changes: what was just made, the next bite, and whether there are more.

    ``planned`` is the first order, ``done`` the last step whose bite is over.
    """
    lines: list[str] = []
    if done >= planned.steps[0].step and done in {s.step for s in before.steps}:
        lines += _made(facts, planned, before.tones[done], now.tones[done])
    old = {s.step: s.bite_s for s in before.steps if s.step > done}
    new = {s.step: s.bite_s for s in now.steps if s.step > done}
    changed = [n for n in new if write_bite(new[n]) != write_bite(old.get(n, 0.0))]
    if changed:
        name = begins(bite_name(facts, planned, changed[0]))
        bite = write_bite(new[changed[0]])
        lines.append(say("{step} now bites {bite}.", step=name, bite=bite))
    if len(changed) > 1:
        lines.append(say("Later bites change too."))
    gone = [bite_name(facts, planned, n) for n in old if n not in new]
    if gone:
        lines.append(say("No bite is left for {steps}.", steps=listed(gone)))
    return tuple(lines)


def _made(facts: Facts, planned: Order, was: Tone, made: Tone) -> Iterator[str]:
    if facts.curve is None:
        old, new = write_bite(was.total_bite_s), write_bite(made.total_bite_s)
        if old != new:
            names = begins(made_names(facts, planned, (made.tone,)))
            yield say("{made}: {now}, not {was}.", made=names, now=new, was=old)
        return
    old, new = write_tone(was.lightness), write_tone(made.lightness)
    if old != new:
        yield say("Tone {tone} prints {now}, not {was}.", tone=made.tone, now=new, was=old)


def clocks_remark(apart_s: float) -> str:
    """The clocks disagreed about a bite, and nobody said which is right."""
    return say(
        "The clocks disagreed by {time}; the longer bite is counted.",
        time=write_bite(abs(apart_s)),
    )
