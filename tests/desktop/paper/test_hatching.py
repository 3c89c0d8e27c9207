"""Tones in black alone on the screen."""

from itertools import pairwise

import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtCore import QPoint

from toneladder.tones.values import FEWEST_TONES, MOST_TONES
from toneladder_desktop.paper.hatching import BLACK, Hatch, hatched
from toneladder_desktop.paper.sampling import indexed, values_of

pytestmark = pytest.mark.usefixtures("qapp")


def drawn(tone: int, count: int, line_px: int, at: QPoint | None = None) -> NDArray[np.uint8]:
    plain = indexed(np.full((240, 300), 7, dtype=np.uint8))
    numbers = (0,) * 7 + (tone,)
    return values_of(hatched(plain, at or QPoint(0, 0), Hatch(numbers, count), line_px))


@pytest.mark.parametrize("line_px", [3, 4])
@pytest.mark.parametrize("count", range(FEWEST_TONES, MOST_TONES + 1))
def test_every_tone_has_about_its_share_of_black_and_more_than_the_one_before(
    count: int, line_px: int
) -> None:
    black = [float((drawn(tone, count, line_px) == BLACK).mean()) for tone in range(count)]
    assert (black[0], black[-1]) == (0.0, 1.0)
    for tone, share in enumerate(black):
        assert share == pytest.approx(tone / (count - 1), abs=0.065)  # whole pixels
    assert all(darker - lighter > 0.4 / (count - 1) for lighter, darker in pairwise(black))


def test_light_tones_are_lines_that_rise_and_middle_ones_are_crossed() -> None:
    lines, crossed = drawn(1, 6, 3), drawn(2, 6, 3)
    assert np.array_equal(lines[1:, :-1], lines[:-1, 1:])
    assert not np.array_equal(crossed[1:, :-1], crossed[:-1, 1:])
    down = {tuple(row) for row in crossed.tolist()}
    assert len(down) < len(crossed) / 4  # it repeats


def test_the_hatch_lies_still_on_the_plate() -> None:
    moved = drawn(3, 8, 3, QPoint(11, 5))
    assert np.array_equal(drawn(3, 8, 3)[5:, 11:], moved[:-5, :-11])


def test_tones_beside_each_other_keep_their_own_hatch() -> None:
    values = np.zeros((60, 80), dtype=np.uint8)
    values[:, 40:] = 1
    both = values_of(hatched(indexed(values), QPoint(0, 0), Hatch((1, 4), 6), 3))
    assert np.array_equal(both[:, :40], drawn(1, 6, 3)[:60, :40])
    assert np.array_equal(both[:, 40:], drawn(4, 6, 3)[:60, 40:80])
