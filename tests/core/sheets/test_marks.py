"""Marks keep what is put into them."""

import numpy as np
import pytest

from toneladder.boxes import Box
from toneladder.lettering import Face
from toneladder.sheets.marks import A3, A4, LETTER, Ink, Paper, Text, frame, picture


# ISO 216: A4 is 210 by 297 mm, A3 297 by 420; ANSI/ASME Y14.1: A is 8.5 by 11 inches.
@pytest.mark.parametrize(
    ("paper", "width", "height"),
    [(A4, 210.0, 297.0), (A3, 297.0, 420.0), (LETTER, 8.5 * 25.4, 11 * 25.4)],
)
def test_papers_have_the_sizes_of_their_standards(
    paper: Paper, width: float, height: float
) -> None:
    assert paper.width_mm == pytest.approx(width)
    assert paper.height_mm == pytest.approx(height)


def test_a_picture_is_packed_row_by_row_from_the_left() -> None:
    black = np.zeros((2, 10), dtype=np.bool_)
    black[0, 0] = black[1, 9] = True
    packed = picture(Box(0, 0, 10, 2), black)
    assert (packed.columns, packed.rows) == (10, 2)
    assert packed.packed == bytes([0b1000_0000, 0, 0, 0b0100_0000])


def test_equal_marks_are_equal() -> None:
    black = np.ones((3, 3), dtype=np.bool_)
    assert picture(Box(0, 0, 1, 1), black) == picture(Box(0, 0, 1, 1), black.copy())
    assert frame(Box(0, 0, 1, 1), 0.3, Ink.WHITE) == frame(Box(0, 0, 1, 1), 0.3, Ink.WHITE)


def test_a_text_knows_how_wide_it_runs() -> None:
    short = Text(0, 0, "15", Face.SANS_BOLD, 10.0)
    assert Text(0, 0, "1515", Face.SANS_BOLD, 10.0).width == pytest.approx(2 * short.width)
