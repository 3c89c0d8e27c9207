"""What a stage at the tank calls its bites and what it makes: tones, or lines of some depth."""

from collections.abc import Sequence

from toneladder.order.line_steps import depth_words
from toneladder.order.values import Order, Step
from toneladder.tank.values import Facts, Stage
from toneladder.wording import say, say_number


def listed(names: Sequence[object]) -> str:
    """Names as people list them; four numbers and more that follow one another as a range.

    >>> listed((3, 4, 5))
    '3, 4 and 5'
    >>> listed((0, 1, 2, 3))
    '0 to 3'
    """
    match names:
        case (int(low), _, _, *_, int(high)) if list(names) == list(range(low, high + 1)):
            return say("{low} to {high}", low=low, high=high)
    *first, last = map(str, names)
    return say("{some} and {last}", some=", ".join(first), last=last) if first else last


def bite_number(planned: Order, step: int) -> int:
    """Which bite of its stage a step is, counted from 1."""
    return max(sum(one.step <= step for one in planned.steps), 1)


def bite_name(facts: Facts, planned: Order, step: int) -> str:
    """What the bite of a step is called within a sentence; ``planned`` is the first order."""
    match facts.stage:
        case Stage.LINES:
            return say("line bite {n}", n=bite_number(planned, step))
        case Stage.SECOND:
            return say("bite {n} in the second grain", n=bite_number(planned, step))
        case Stage.TONES:
            return say("step {step}", step=step)


def made_names(facts: Facts, planned: Order, numbers: Sequence[int]) -> str:
    """*tone 3*, *tones 3 and 4*, *the finest lines*: what was made, or is to be."""
    if facts.stage is Stage.LINES:
        depths = len(planned.tones) - 1
        return listed([depth_words(depth, depths) for depth in numbers])
    return say_number("tone {tones}", "tones {tones}", len(numbers), tones=listed(numbers))


def to_stop_out(facts: Facts, planned: Order, step: Step) -> str:
    """What a step stops out, as within a sentence."""
    if not step.stop_out:
        return say("none")
    return made_names(facts, planned, step.stop_out)


def bitten_before(stage: Stage, day: str = "") -> str:
    """That a stage was bitten before, and what biting it again is for; ``day`` if it is known."""
    when = say("on {day}", day=day) if day else say("already")
    bitten = {
        Stage.LINES: say("The lines of this plate were bitten {when}.", when=when),
        Stage.TONES: say("This plate was bitten {when}.", when=when),
        Stage.SECOND: say("The second grain of this plate was bitten {when}.", when=when),
    }[stage]
    return say(
        "{bitten} Bite it again from the first step? That is for a fresh ground or grain. Its"
        " record keeps both.",
        bitten=bitten,
    )


def stage_name(stage: Stage) -> str:
    """What the stage is called on a button."""
    return {
        Stage.LINES: say("Lines first"),
        Stage.TONES: say("The tones"),
        Stage.SECOND: say("Second grain"),
    }[stage]
