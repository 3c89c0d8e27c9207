"""The tracing in both kinds: how it lies, borders where the tones part, numbers inside."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from tests.core.sheets.conftest import MADE_ON, planned
from tests.core.sheets.reading import edges
from tests.core.sheets.test_map_sheet import passages
from tests.core.sheets.test_order_sheet import ink, long_words, outside, overlapping, words_of

from toneladder.borders.arcs import trace
from toneladder.borders.numbers import place_numbers
from toneladder.lettering import Face
from toneladder.picture.values import PlateSize
from toneladder.sheets.marks import A3, A4, LETTER, Paper, Path, Sheet, Text
from toneladder.sheets.tracing_sheet import FIGURE_MM, FLAP_MM, tracing_sheets

__all__ = ["long_words"]

papers = pytest.mark.parametrize("paper", [A4, A3, LETTER], ids=lambda paper: paper.name)
SMALL = PlateSize(100.0, 80.0)
LARGE = PlateSize(280.0, 290.0)


@cache
def sheets(size: PlateSize = SMALL, paper: Paper = A4) -> tuple[Sheet, ...]:
    made = planned(5, size)
    arcs = trace(made.tones, 8.0)
    numbers = place_numbers(made.tones, 8.0, figure_mm=FIGURE_MM)
    return tracing_sheets(made.plate, arcs, numbers, made_on=MADE_ON, paper=paper)


def corner(sheet: Sheet) -> tuple[float, float]:
    """Where the plate's top left corner lies on a page that shows the whole plate."""
    upright, level = edges(sheet)
    return upright[0], level[0] + FLAP_MM


def tones_at(points: np.ndarray, tones: np.ndarray) -> np.ndarray:
    cells = np.clip((points * 8.0).astype(int), 0, np.array(tones.shape[::-1]) - 1)
    return np.asarray(tones[cells[:, 1], cells[:, 0]])


@pytest.mark.parametrize(("page", "mirrored"), [(0, True), (1, False)])
def test_numbers_stand_in_their_tone_or_lead_to_it(page: int, *, mirrored: bool) -> None:
    made = planned(5, SMALL)
    sheet = sheets()[page]
    left, top = corner(sheet)

    def on_print(x: float, y: float) -> np.ndarray:
        across = SMALL.width_mm - (x - left) if mirrored else x - left
        return np.array([[across, y - top]])

    numbers = [mark for mark in sheet.marks if isinstance(mark, Text) and mark.text.isdigit()]
    ends = [
        mark.lines[0] for mark in sheet.marks if isinstance(mark, Path) and mark.stroke_mm == 0.15
    ]
    assert len(numbers) > 10
    for number in numbers:
        middle = number.x, number.y - FIGURE_MM / 2
        led = [end for start, end in ends if np.hypot(*np.subtract(start, middle)) < 2.5]
        for place in led or [middle]:
            assert tones_at(on_print(*place), made.tones)[0] == int(number.text)


@pytest.mark.parametrize(("page", "mirrored"), [(0, True), (1, False)])
def test_borders_run_where_the_tones_part(page: int, *, mirrored: bool) -> None:
    made = planned(5, SMALL)
    sheet = sheets()[page]
    left, top = corner(sheet)
    borders = max(
        (mark for mark in sheet.marks if isinstance(mark, Path) and mark.within is not None),
        key=lambda mark: sum(len(line) for line in mark.lines),
    )
    points = np.concatenate([np.array(line) for line in borders.lines]) - (left, top)
    if mirrored:
        points = points * (-1.0, 1.0) + (SMALL.width_mm, 0.0)
    inside = ((points > 1.0) & (points < (SMALL.width_mm - 1.0, SMALL.height_mm - 1.0))).all(axis=1)
    around = np.array([tones_at(points[inside] + shift, made.tones) for shift in _round(0.3)])
    assert (around.min(axis=0) != around.max(axis=0)).mean() > 0.99


def _round(radius: float) -> np.ndarray:
    turn = np.arange(8) * np.pi / 4.0
    return radius * np.stack([np.cos(turn), np.sin(turn)], axis=1)


def test_each_kind_says_how_it_lies() -> None:
    up, down = sheets()
    assert "Mirrored, lay face up over transfer paper; left here is left on the plate." in (
        words_of(up)
    )
    assert "Not mirrored, lay face down; left here is right on the plate." in words_of(down)
    for sheet in (up, down):
        assert "hinge flap" in words_of(sheet)
        assert "fold here" in words_of(sheet)


@papers
@pytest.mark.parametrize("size", [SMALL, LARGE, PlateSize(50.0, 50.0)], ids=str)
def test_everything_is_on_the_paper(size: PlateSize, paper: Paper) -> None:
    for sheet in sheets(size, paper):
        assert outside(sheet) == []
        assert overlapping(sheet) == []


def test_every_number_is_whole_on_one_of_the_pieces() -> None:
    made = planned(5, LARGE)
    numbers = place_numbers(made.tones, 8.0, figure_mm=FIGURE_MM).numbers
    pieces = sheets(LARGE)[: len(sheets(LARGE)) // 2]
    shown = sum(
        text.face is Face.SANS and text.text.isdigit() and text.size_mm > 4.0
        for sheet in pieces
        for text in sheet.marks
        if isinstance(text, Text)
    )
    assert len(pieces) == 4
    assert shown >= len(numbers)


def test_lines_are_cut_off_at_the_edge_of_a_piece() -> None:
    for sheet in sheets(LARGE):
        for mark in sheet.marks:
            if isinstance(mark, Path) and mark.within is not None:
                left, top, right, foot = ink(mark)
                assert mark.within.x - 0.3 <= left
                assert right <= mark.within.right + 0.3
                assert mark.within.y - 0.3 <= top
                assert foot <= mark.within.bottom + 0.3


def test_soft_borders_are_dotted_and_pointed_out() -> None:
    made = planned(5, SMALL)
    arcs = trace(made.tones, 8.0)
    border = max((arc for arc in arcs if arc.left >= 0), key=lambda arc: len(arc.points))
    soft = [replace(passages()[0], step=border.right, points=border.points)]
    placed = place_numbers(made.tones, 8.0, figure_mm=FIGURE_MM)
    nameless = replace(placed, numbers=(), slivers=2, crowded_out=1)
    first, _ = tracing_sheets(made.plate, arcs, nameless, made_on=MADE_ON, passages=soft)
    assert "soft border: see the map of its step" in words_of(first)
    assert "3 small places have no number" in words_of(first)
    assert any(
        isinstance(mark, Path) and mark.dash_mm == (0.45, 0.9) and mark.within is not None
        for mark in first.marks
    )
