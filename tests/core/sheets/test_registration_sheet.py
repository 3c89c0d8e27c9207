"""The registration sheet: plate and paper where they lie on the press bed."""

from dataclasses import replace

import pytest
from tests.core.sheets.conftest import MADE_ON, planned
from tests.core.sheets.test_order_sheet import long_words, outside, overlapping, words_of

from toneladder.picture.values import PlateSize
from toneladder.plate.values import Plate
from toneladder.preview.values import InkAndPaper
from toneladder.sheets.marks import A3, A4, LETTER, Paper, Path, Sheet
from toneladder.sheets.registration_sheet import registration_sheets

__all__ = ["long_words"]

papers = pytest.mark.parametrize("paper", [A4, A3, LETTER], ids=lambda paper: paper.name)
WALL = Paper("wall", 900.0, 900.0)


def sheets(size: tuple[float, float], paper: Paper = WALL, **wishes: float) -> tuple[Sheet, ...]:
    made = planned(3, PlateSize(60.0, 45.0))
    plate = replace(made.plate, size=PlateSize(*size))
    return registration_sheets(plate, made_on=MADE_ON, paper=paper, **wishes)


def box(sheet: Sheet, stroke: float) -> tuple[float, float, float, float]:
    """Left, top, right, foot of what is drawn just outside an edge with this stroke."""
    points = [
        point
        for mark in sheet.marks
        if isinstance(mark, Path) and mark.stroke_mm == stroke and len(mark.lines) == 4
        for line in mark.lines
        for point in line
    ]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs) + stroke, min(ys) + stroke, max(xs) - stroke, max(ys) - stroke


def test_plate_and_paper_are_drawn_at_their_size_with_the_margins() -> None:
    (sheet,) = sheets((150.0, 100.0), margin_mm=60.0, foot_mm=80.0)
    left, top, right, foot = box(sheet, 0.7)
    assert (right - left, foot - top) == pytest.approx((270.0, 240.0))
    x0, y0, x1, y1 = box(sheet, 0.3)
    assert (x1 - x0, y1 - y0) == pytest.approx((150.0, 100.0))
    assert (x0 - left, y0 - top) == pytest.approx((60.0, 60.0))
    assert foot - y1 == pytest.approx(80.0)


def test_middle_lines_cross_in_the_middle_of_the_plate() -> None:
    (sheet,) = sheets((150.0, 100.0), margin_mm=50.0, foot_mm=70.0)
    x0, y0, x1, y1 = box(sheet, 0.3)
    (middles,) = (
        mark.lines
        for mark in sheet.marks
        if isinstance(mark, Path) and mark.dash_mm is not None and mark.within is not None
    )
    assert middles[0][0][0] == pytest.approx((x0 + x1) / 2)
    assert middles[1][0][1] == pytest.approx((y0 + y1) / 2)


@pytest.mark.parametrize(("own", "margin"), [(20.0, 50.0), (65.0, 65.0), (200.0, 80.0)])
def test_without_a_wish_the_margin_is_the_plates_own_kept_within_what_is_usual(
    own: float, margin: float
) -> None:
    made = planned(3, PlateSize(60.0, 45.0))
    plate: Plate = replace(made.plate, printing=InkAndPaper(margin_mm=own))
    (sheet,) = registration_sheets(plate, made_on=MADE_ON, paper=WALL)
    left, top, right, foot = box(sheet, 0.7)
    assert (right - left, foot - top) == pytest.approx((60.0 + 2 * margin, 45.0 + 2 * margin))


@papers
@pytest.mark.parametrize("size", [(50.0, 50.0), (150.0, 100.0), (300.0, 400.0), (5.0, 600.0)])
@pytest.mark.usefixtures("long_words")
def test_everything_is_on_the_paper(size: tuple[float, float], paper: Paper) -> None:
    for sheet in sheets(size, paper):
        assert outside(sheet) == []
        assert overlapping(sheet) == []


@papers
def test_the_sheet_says_what_lies_where(paper: Paper) -> None:
    words = " ".join(words_of(*sheets((150.0, 100.0), paper)).replace("\u00a0", " ").split())
    for said in (
        "Registration sheet",
        "plate 150 × 100 mm",
        "paper 250 × 200 mm",
        "foot of the paper",
        "Plate face up on its outline, paper face down over it, foot towards you.",
        "true size, 1 : 1",
    ):
        assert said in words
