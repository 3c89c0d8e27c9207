"""What the decisions about soft passages may be: their bounds, said in sentences."""

from collections.abc import Iterator

from toneladder.borders.values import Soft
from toneladder.records import bounds
from toneladder.wording import say

STEEPEST = (0.5, 50.0)
SHORTEST_MM = (1.0, 500.0)
MOST_REMEDIES = 2000
MOST_STEPS = 11
_SHARE = (-10.0, 10.0)


def soft_faults(soft: Soft) -> Iterator[str]:
    """Every decision about soft passages that is out of bounds, a sentence each."""
    yield from bounds(say("What a soft passage changes in a millimetre"), soft.steepest, *STEEPEST)
    shortest = say("The shortest soft passage")
    yield from bounds(shortest, soft.shortest_mm, *SHORTEST_MM, unit=" mm")
    yield from bounds(say("The number of remedies"), len(soft.remedies), 0, MOST_REMEDIES)
    for chosen in soft.remedies:
        yield from bounds(say("The step of a remedy"), chosen.step, 1, MOST_STEPS)
        for share in (chosen.x, chosen.y):
            yield from bounds(say("The place of a remedy"), share, *_SHARE)
