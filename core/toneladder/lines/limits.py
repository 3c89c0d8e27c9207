"""What lines may be: their bounds, said in sentences."""

from collections.abc import Iterator
from itertools import pairwise

from toneladder.lines.values import MOST_DEPTHS, Lines
from toneladder.records import bounds
from toneladder.wording import say

WIDEST_MM = (0.1, 3.0)
CONTRAST = (3.0, 90.0)
LINE_BITE_S = (5.0, 86_400.0)


def line_faults(lines: Lines) -> Iterator[str]:
    """Every decision about lines that is out of bounds, a sentence each."""
    yield from bounds(say("The widest line"), lines.widest_mm, *WIDEST_MM, unit=" mm")
    yield from bounds(say("The contrast of a line"), lines.contrast, *CONTRAST)
    yield from bounds(say("The number of line depths"), lines.depths, 1, MOST_DEPTHS)
    for bite in lines.bites_s:
        yield from bounds(say("A line bite"), bite, *LINE_BITE_S, unit=" s")
    if lines.bites_s and len(lines.bites_s) != lines.depths:
        yield say(
            "There are {bites} line bites for {depths} line depths; give one for each.",
            bites=len(lines.bites_s),
            depths=lines.depths,
        )
    if any(after <= before for before, after in pairwise(lines.bites_s)):
        yield say("Total bites of lines must rise from the finest to the heaviest.")
