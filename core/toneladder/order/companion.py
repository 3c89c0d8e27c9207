"""The companion strip: grained beside the plate, bitten and pulled the day before it.

What is done, and how long it takes, is common practice, no source; the minutes are assumptions.
"""

from collections.abc import Iterator

from toneladder.bite.values import Conditions
from toneladder.order.values import Companion, Task
from toneladder.quantities import write_bite
from toneladder.strip.planning import USUAL_PATCHES, StripPlan, doubling_strip
from toneladder.wording import say

GRAIN_MIN, COVER_MIN, PULL_MIN = 60.0, 15.0, 45.0


def companion_of(conditions: Conditions, patches: int = USUAL_PATCHES) -> Companion:
    """The companion strip of a plate that no strip stands for.

    Parameters
    ----------
    conditions : Conditions
        Metal, bath and ground of the plate.
    patches : int, 3..16
        The unbitten one included.

    Raises
    ------
    StripError
        Too few or too many patches.
    RefusedPairError
        If metal and mordant must not meet.
    """
    return companion_with(doubling_strip(conditions, patches))


def companion_with(strip: StripPlan) -> Companion:
    """The companion strip that has these patches."""
    return Companion(strip.bites_s, strip.stays_s, tuple(_tasks(strip)), how_to_step())


def how_to_step() -> tuple[str, ...]:
    """How a strip gets its patches in one go, a sentence each."""
    return (
        say("Cover the back, the edges and the first patch: it is never bitten."),
        say("Put the whole strip into the plate's own tank, held as the plate will be."),
        say(
            "After each stay the same lifts and rinses as the plate: what they bite is in the"
            " strip too. Blot, lay tape over the next patch, press its edge down; never rub."
        ),
        say(
            "Without tape: hang it back one patch higher each time, so that the next stays above"
            " the bath. The edges are softer then."
        ),
    )


def _tasks(strip: StripPlan) -> Iterator[Task]:
    yield Task(say("Grain the plate and the strip together, side by side."), GRAIN_MIN)
    yield Task(say("Cover the plate, and put it away from dust."), COVER_MIN)
    yield Task(
        say(
            "Bite the strip: {n} patches, {bath} in the bath.",
            n=len(strip.bites_s),
            bath=write_bite(strip.bath_s),
        ),
        strip.work_min,
    )
    yield Task(say("Take grain and tape off; ink, wipe, pull two or three."), PULL_MIN)
    yield Task(
        say("Let the pulls dry overnight. Tomorrow read the strip, then bite the plate."), 0.0
    )
