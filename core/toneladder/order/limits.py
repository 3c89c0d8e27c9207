"""What a second grain may be: its bounds, said in sentences."""

from collections.abc import Iterator
from itertools import pairwise

from toneladder.order.values import SecondGrain
from toneladder.records import bounds
from toneladder.tones.values import MOST_TONES
from toneladder.wording import say

GRAIN_BITE_S = (5.0, 86_400.0)


def second_grain_faults(second: SecondGrain) -> Iterator[str]:
    """Every decision about the second grain that is out of bounds, a sentence each."""
    most = MOST_TONES - 1
    yield from bounds(say("The number of tones in the second grain"), second.darkest, 1, most)
    for bite in second.bites_s:
        yield from bounds(say("A bite in the second grain"), bite, *GRAIN_BITE_S, unit=" s")
    if second.bites_s and len(second.bites_s) != second.darkest:
        yield say(
            "There are {bites} bites for {tones} tones in the second grain; give one for each.",
            bites=len(second.bites_s),
            tones=second.darkest,
        )
    if any(after < before for before, after in pairwise(second.bites_s)):
        yield say("Total bites in the second grain must not fall from lighter to darker tones.")
