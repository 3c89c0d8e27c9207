"""Pages at true size: what fits is one page, as few as can be, the bar is 50 mm."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.core.sheets.reading import edges
from tests.core.sheets.test_order_sheet import LONG_TITLE, outside, overlapping, words_of

from toneladder.boxes import Box
from toneladder.sheets.marks import A3, A4, LETTER, Mark, Paper, Path, Sheet
from toneladder.sheets.true_size import Drawing, true_size_sheets
from toneladder.sheets.true_size_frame import FIELD, Heading, check_bar, sign

KEY = tuple(sign((), words) for words in ("paint now", "covered already", "open metal, bites"))


def nothing(_: Box) -> tuple[Mark, ...]:
    return ()


def pages(
    width: float, height: float, paper: Paper = A4, title: str = "Waves"
) -> tuple[Sheet, ...]:
    drawing = Drawing(
        Heading("Map", "Mirrored, as on the plate.", KEY),
        width,
        height,
        Box(0.0, 0.0, width, height),
        nothing,
    )
    return true_size_sheets([drawing], title=title, made_on=date(2026, 3, 16), paper=paper)


@pytest.mark.parametrize(
    ("width", "height", "paper", "lies", "count"),
    [
        (180.0, 240.0, A4, A4, 1),
        (186.0, 220.0, LETTER, LETTER, 1),
        (250.0, 360.0, A3, A3, 1),
        (200.0, 150.0, A4, A4.turned, 1),
        (200.0, 150.0, LETTER, LETTER.turned, 1),
        (240.0, 180.0, A4, A4, 2),
        (260.0, 340.0, A4, A4.turned, 3),
        (300.0, 400.0, A4, A4, 4),
        (300.0, 400.0, A3, A3.turned, 2),
    ],
)
def test_the_page_is_turned_only_where_that_takes_fewer_pieces(
    width: float, height: float, paper: Paper, lies: Paper, count: int
) -> None:
    found = pages(width, height, paper)
    assert len(found) == count
    assert all(sheet.paper == lies for sheet in found)
    assert {sheet.paper.name for sheet in found} == {paper.name}


@given(st.floats(5.0, 600.0), st.floats(5.0, 600.0), st.sampled_from([A4, A3, LETTER]))
def test_a_drawing_turned_with_its_paper_takes_as_many_pages(
    width: float, height: float, paper: Paper
) -> None:
    assert len(pages(width, height, paper)) == len(pages(width, height, paper.turned))


def test_every_page_knows_its_piece() -> None:
    found = [sheet.tile for sheet in pages(300.0, 400.0)]
    assert [tile.name for tile in found if tile is not None] == ["A1", "A2", "B1", "B2"]
    (only,) = pages(100.0, 80.0)
    assert only.tile is not None
    assert only.tile.whole


@given(st.floats(5.0, 600.0), st.floats(5.0, 600.0), st.sampled_from([A4, A3, LETTER]))
def test_cut_pieces_add_up_to_the_plate(width: float, height: float, paper: Paper) -> None:
    found = [edges(sheet) for sheet in pages(width, height, paper)]
    area = sum((right - left) * (foot - top) for (left, right), (top, foot) in found)
    assert area == pytest.approx(width * height, rel=1e-6)


@given(st.floats(5.0, 600.0), st.floats(5.0, 600.0), st.sampled_from([A4, A3, LETTER]))
def test_everything_is_on_the_paper(width: float, height: float, paper: Paper) -> None:
    for sheet in pages(width, height, paper, LONG_TITLE):
        assert outside(sheet) == []
        assert overlapping(sheet) == []


def test_the_check_bar_is_fifty_millimetres_from_end_to_end() -> None:
    bars = [mark for mark in check_bar().marks if isinstance(mark, Path) and mark.fill]
    ends = [x for bar in bars for line in bar.lines for x, _ in line]
    assert (min(ends), max(ends)) == (0.0, 50.0)
    for sheet in pages(300.0, 400.0):
        assert words_of(sheet).count("50 mm if printed at 100 %") == 1


def test_the_outline_lies_outside_the_plate_and_the_corner_ticks_on_its_edges() -> None:
    (sheet,) = pages(100.0, 80.0)
    (left, right), (top, foot) = edges(sheet)
    assert (right - left, foot - top) == pytest.approx((100.0, 80.0))
    outline: Mark = next(
        mark for mark in sheet.marks if isinstance(mark, Path) and mark.stroke_mm == 0.3
    )
    assert isinstance(outline, Path)
    xs = sorted({x for line in outline.lines for x, _ in line})
    assert xs[0] <= left - 0.15 + 1e-9
    assert xs[-1] >= right + 0.15 - 1e-9
    inner = [x for x in xs if left - 0.14 < x < right + 0.14]
    assert inner == []


def test_a_title_of_many_lines_is_cut_short() -> None:
    first = pages(100.0, 80.0, title=LONG_TITLE * 20)[0]
    assert "…" in words_of(first)
    assert words_of(pages(100.0, 80.0, title=" \n")[0]).startswith("Untitled plate")


def test_a_key_has_its_field_beside_its_words() -> None:
    block = sign((), "paint now")
    assert block.width > FIELD.width + 10.0
