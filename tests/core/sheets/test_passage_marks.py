"""Soft passages on a map: mirrored, numbered where there is room, one remedy said once."""

from itertools import combinations

import numpy as np
import pytest

from toneladder.borders.remedies import Passage
from toneladder.borders.values import Remedy
from toneladder.boxes import Box
from toneladder.sheets.marks import Path, Text
from toneladder.sheets.passage_marks import passage_key, passage_marks

PLATE = Box(0.0, 0.0, 100.0, 80.0)


def passage(number: int, y: float, remedy: Remedy = Remedy.CRAYON) -> Passage:
    x = np.arange(10.0, 60.0, 0.5)
    run = np.stack([x, np.full_like(x, y)], axis=1)
    return Passage(number, 2, run, 50.0, 1.0, 70.0, remedy, remedy, (0.5, 0.5))


def fields(passages: list[Passage], shown: Box = PLATE) -> list[Box]:
    """The fields round the numbers."""
    found = [
        mark.lines[0]
        for mark in passage_marks(passages, PLATE.width, shown)
        if isinstance(mark, Path) and mark.closed
    ]
    return [Box(*at[0], at[2][0] - at[0][0], at[2][1] - at[0][1]) for at in found]


def test_the_number_stands_on_the_open_metal() -> None:
    # walked to the right with y down, what lies on the right hand, darker and open, is below
    (field,) = fields([passage(1, 40.0)])
    assert field.y > 40.0
    # mirrored: the middle of the run, 35 mm from the print's left, is 65 mm from the plate's
    assert field.x + field.width / 2 == pytest.approx(65.0, abs=0.5)


def test_numbers_keep_clear_of_each_other() -> None:
    close = [passage(number, 40.0 + number) for number in range(1, 7)]
    found = fields(close)
    assert len(found) == 6
    for one, other in combinations(found, 2):
        across = min(one.right, other.right) - max(one.x, other.x)
        down = min(one.bottom, other.bottom) - max(one.y, other.y)
        assert across <= 0.0 or down <= 0.0


def test_a_number_is_whole_on_its_piece_or_not_there() -> None:
    for left in np.arange(0.0, 80.0, 3.0):
        shown = Box(float(left), 30.0, 20.0, 20.0)
        assert all(shown.covers(field) for field in fields([passage(1, 40.0)], shown))


def test_each_remedy_is_said_once_with_its_passages() -> None:
    remedies = [Remedy.CRAYON] * 4 + [Remedy.SPIT_BITE, Remedy.CRAYON, Remedy.SPIT_BITE]
    blocks = passage_key([passage(at, 40.0, one) for at, one in enumerate(remedies, 1)])
    said = [mark.text for block in blocks for mark in block.marks if isinstance(mark, Text)]
    assert said == [
        "soft passage 1–4, 6: lithographic crayon",
        "soft passage 5, 7: spit bite",
    ]
