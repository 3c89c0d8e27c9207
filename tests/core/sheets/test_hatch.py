"""Tones in black alone cover as much as their number says."""

from itertools import pairwise

import numpy as np
import pytest
from PIL import Image, ImageDraw

from toneladder.boxes import Box
from toneladder.sheets.hatch import coverage_hatch, stripes, tone_hatch
from toneladder.sheets.marks import Ink, Path

FIELD = Box(3.0, 2.0, 24.0, 12.0)
DOTS_PER_MM = 100
TONES = [(tone, count) for count in range(2, 13) for tone in range(count)]


def drawn(paths: tuple[Path, ...], field: Box = FIELD) -> np.ndarray:
    """Black (True) where an independent library fills the areas, and around the field."""
    around = 1.0
    width, height = (
        round((side + 2 * around) * DOTS_PER_MM) for side in (field.width, field.height)
    )
    image = Image.new("1", (width, height), 0)
    pen = ImageDraw.Draw(image)
    for path in paths:
        for area in path.lines:
            points = [
                ((x - field.x + around) * DOTS_PER_MM, (y - field.y + around) * DOTS_PER_MM)
                for x, y in area
            ]
            pen.polygon(points, fill=int(path.fill is Ink.BLACK))
    return np.asarray(image)


def inside(black: np.ndarray) -> np.ndarray:
    return black[DOTS_PER_MM:-DOTS_PER_MM, DOTS_PER_MM:-DOTS_PER_MM]


@pytest.mark.parametrize(("tone", "count"), TONES)
def test_a_tone_covers_its_share_of_the_field(tone: int, count: int) -> None:
    measured = inside(drawn(tone_hatch(FIELD, tone, count))).mean()
    assert measured == pytest.approx(tone / (count - 1), abs=0.02)


@pytest.mark.parametrize("count", range(2, 13))
def test_a_darker_tone_covers_more(count: int) -> None:
    shares = [inside(drawn(tone_hatch(FIELD, tone, count))).mean() for tone in range(count)]
    assert all(darker > lighter + 0.04 for lighter, darker in pairwise(shares))


@pytest.mark.parametrize("coverage", [0.09, 0.3, 0.5, 0.7, 0.85])
def test_no_hatch_leaves_its_field(coverage: float) -> None:
    black = drawn(coverage_hatch(FIELD, coverage))
    edge = DOTS_PER_MM - 2
    assert not black[:edge].any()
    assert not black[-edge:].any()
    assert not black[:, :edge].any()
    assert not black[:, -edge:].any()


def test_lines_rise_to_the_right_or_fall_as_asked() -> None:
    rising = inside(drawn((stripes(FIELD, 0.5, 4.0, rising=True),)))
    falling = inside(drawn((stripes(FIELD, 0.5, 4.0, rising=False),)))
    shift = 200
    # going right by 2 mm, a rising line has gone up by 2 mm
    along_rising = (rising[:-shift, shift:] == rising[shift:, :-shift]).mean()
    along_falling = (falling[shift:, shift:] == falling[:-shift, :-shift]).mean()
    assert along_rising > 0.98
    assert along_falling > 0.98
    assert (rising[shift:, shift:] == rising[:-shift, :-shift]).mean() < 0.9


def test_white_dots_are_large_enough_for_a_copier() -> None:
    # common practice, no source: a dot of 0.4 mm stays open in a photocopy
    black, dots = coverage_hatch(FIELD, 0.9)
    assert (black.fill, dots.fill) == (Ink.BLACK, Ink.WHITE)
    widths = [max(x for x, _ in dot) - min(x for x, _ in dot) for dot in dots.lines]
    assert np.median(widths) > 0.4
