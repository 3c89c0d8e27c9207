"""What is said when a bite strayed from the plan: how far, what it changes, what was put right."""

from toneladder.order.values import Order
from toneladder.quantities import write_bite, write_darkness
from toneladder.wording import say

STRAYED_S = 1.0


def strayed(bitten_s: float, bite_s: float) -> tuple[str, ...]:
    """How far a step ran over its bite or fell short of it, all its dips together."""
    over = bitten_s - bite_s
    if over >= STRAYED_S:
        return (say("{time} over.", time=write_bite(over)),)
    if over <= -STRAYED_S:
        return (say("{time} short.", time=write_bite(-over)),)
    return ()


def changed_bites(before: Order, now: Order, step: int, *, finished: bool) -> tuple[str, ...]:
    """What a new order changes: the tone just made, the next bite, and whether there are more."""
    lines = []
    if finished:
        was, prints = (write_darkness(order.tones[step].lightness) for order in (before, now))
        if was != prints:
            lines.append(
                say("Tone {tone} prints {now}, not {was}.", tone=step, now=prints, was=was)
            )
    first = step + 1 if finished else step
    old = {s.step: s.bite_s for s in before.steps if s.step >= first}
    new = {s.step: s.bite_s for s in now.steps if s.step >= first}
    changed = [n for n in new if write_bite(new[n]) != write_bite(old.get(n, 0.0))]
    if changed:
        bite = write_bite(new[changed[0]])
        lines.append(say("Step {step} now bites {bite}.", step=changed[0], bite=bite))
    if len(changed) > 1:
        lines.append(say("Later bites change too."))
    gone = [str(n) for n in old if n not in new]
    if gone:
        lines.append(say("No bite is left for step {steps}.", steps=", ".join(gone)))
    return tuple(lines)


def clocks_remark(apart_s: float) -> str:
    """The clocks disagreed about a bite, and nobody said which is right."""
    return say(
        "The clocks disagreed by {time}; the longer bite is counted.",
        time=write_bite(abs(apart_s)),
    )
