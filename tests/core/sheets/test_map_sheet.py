"""The map of a step, mirrored back, is the step's cells; whole, legible, on its paper."""

from functools import cache
from typing import TYPE_CHECKING

import numpy as np
import pytest
from scipy import ndimage
from tests.core.sheets.conftest import MADE_ON, planned
from tests.core.sheets.reading import Bools, dots, drawn, edges
from tests.core.sheets.test_order_sheet import (
    LONG_TITLE,
    long_words,
    outside,
    overlapping,
    words_of,
)

from toneladder.borders.remedies import Passage
from toneladder.borders.values import Remedy
from toneladder.picture.values import Grid, PlateSize
from toneladder.plate.values import Plate
from toneladder.sheets.map_sheet import map_sheets
from toneladder.sheets.marks import A3, A4, LETTER, Ink, Paper, Path, Sheet

if TYPE_CHECKING:
    from toneladder.plan.planning import Plan

__all__ = ["long_words"]

papers = pytest.mark.parametrize("paper", [A4, A3, LETTER], ids=lambda paper: paper.name)
THIN_MM = 0.4  # half the width of what lies between two lines of "paint now" is 0.25 mm


@cache
def maps(width_mm: float, height_mm: float, paper: Paper = A4) -> tuple[tuple[Sheet, ...], ...]:
    made = planned(5, PlateSize(width_mm, height_mm))
    return tuple(map_of(made, step.step, paper) for step in made.order.steps)


def map_of(made: "Plan", step: int, paper: Paper = A4) -> tuple[Sheet, ...]:
    return map_sheets(
        made.plate,
        made.order,
        made.tones,
        made.prepared.grid,
        step,
        made_on=MADE_ON,
        paper=paper,
    )


def painted_now(black: Bools, covered: Bools, per_mm: float) -> Bools:
    """What a person takes for hatched: black, and what is shut in between close lines."""
    bare, count = ndimage.label(~black & ~covered)
    reach = ndimage.distance_transform_edt(bare > 0)
    widest = ndimage.maximum(reach, bare, np.arange(1, count + 1))
    close = np.concatenate([[False], np.asarray(widest) < THIN_MM * per_mm])
    return np.asarray((black & ~covered) | close[bare])


@pytest.mark.parametrize("size", [(48.0, 36.0), (40.03, 30.04)])
def test_each_map_mirrored_back_is_the_cells_of_its_step_exactly(
    size: tuple[float, float],
) -> None:
    made = planned(5, PlateSize(*size))
    grid = made.prepared.grid
    covered = np.zeros((grid.height * 3, grid.width * 3), dtype=bool)
    for step, (sheet,) in enumerate(maps(*size), start=1):
        black = dots(drawn(sheet))
        now = painted_now(black, covered, 24.0)
        cells = now.reshape(grid.height, 3, grid.width, 3)
        assert (cells.all(axis=(1, 3)) == cells.any(axis=(1, 3))).all()
        assert (cells[:, 0, :, 0][:, ::-1] == (made.tones == step - 1)).all()
        covered |= now
    assert (covered[::3, ::3][:, ::-1] == (made.tones < 4)).all()


def test_the_mirror_stands_in_the_middle_of_the_plate() -> None:
    made = planned(5, PlateSize(40.03, 30.04))
    (sheet,) = maps(40.03, 30.04)[0]
    upright, level = edges(sheet)
    box = drawn(sheet).box
    # the print's left edge is the grid's first cell, and lies on the right of the plate
    assert box.right == pytest.approx(upright[-1], abs=1e-6)
    assert box.y == pytest.approx(level[0], abs=1e-6)
    assert upright[-1] - upright[0] == pytest.approx(40.03)
    assert box.width == made.prepared.grid.width / 8.0


def test_covered_areas_take_an_eighth_of_ink_at_the_most_and_new_ones_stand_out() -> None:
    made = planned(5, PlateSize(60.0, 45.0))
    tones = np.repeat(np.repeat(made.tones[:, ::-1], 3, axis=0), 3, axis=1)
    for step, (sheet,) in enumerate(maps(60.0, 45.0), start=1):
        black = dots(drawn(sheet))
        assert not black[tones >= step].any()
        assert black[tones == step - 1].mean() > 0.45
        if step > 1:
            assert 0.04 < black[tones < step - 1].mean() <= 0.12


def test_new_and_covered_are_told_apart_by_direction() -> None:
    made = planned(5, PlateSize(60.0, 45.0))
    (sheet,) = maps(60.0, 45.0)[2]
    tones = np.repeat(np.repeat(made.tones[:, ::-1], 3, axis=0), 3, axis=1)
    black = dots(drawn(sheet))

    def along(area: Bools, *, rising: bool) -> float:
        inside = ndimage.binary_erosion(area, iterations=20)
        there = black[8:, :-8] if rising else black[8:, 8:]
        here = black[:-8, 8:] if rising else black[:-8, :-8]
        kept = inside[:-8, 8:] if rising else inside[:-8, :-8]
        return float((here & there & kept).sum() / (here & kept).sum())

    assert along(tones == 2, rising=True) > 0.95
    assert along(tones == 2, rising=False) < 0.8
    assert along(tones < 2, rising=False) > 0.9
    assert along(tones < 2, rising=True) < 0.2


@papers
@pytest.mark.parametrize("size", [(50.0, 50.0), (200.0, 260.0), (5.0, 700.0)])
def test_nothing_lies_in_the_margins_and_no_two_texts_overlap(
    paper: Paper, size: tuple[float, float]
) -> None:
    for pages in maps(*size, paper):
        for sheet in pages:
            assert outside(sheet) == []
            assert overlapping(sheet) == []


@pytest.mark.usefixtures("long_words")
@pytest.mark.parametrize("size", [(50.0, 50.0), (200.0, 260.0)])
def test_a_longer_language_and_a_long_title_keep_to_their_paper_too(
    size: tuple[float, float],
) -> None:
    made = planned(5, PlateSize(*size))
    plate = Plate(LONG_TITLE * 3, made.plate.picture, made.plate.size)
    for sheet in map_sheets(
        plate, made.order, made.tones, made.prepared.grid, 3, made_on=MADE_ON, passages=passages()
    ):
        assert outside(sheet) == []
        assert overlapping(sheet) == []


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
def test_cut_at_their_ticks_and_laid_together_the_pieces_are_the_whole_map(paper: Paper) -> None:
    made = planned(5, PlateSize(200.0, 260.0))
    whole = dots(drawn(map_of(made, 3, Paper("large", 400.0, 500.0))[0]))
    together = np.zeros_like(whole)
    x = y = 0.0
    for sheet in maps(200.0, 260.0, paper)[2]:
        (left, right), (top, foot) = edges(sheet)
        box = drawn(sheet).box
        row, column = round((top - box.y) * 24), round((left - box.x) * 24)
        rows, columns = round((foot - top) * 24), round((right - left) * 24)
        piece = dots(drawn(sheet))[row : row + rows, column : column + columns]
        row, column = round(y * 24), round(x * 24)
        together[row : row + rows, column : column + columns] = piece
        x += right - left
        if x > 200.0 - 1e-6:
            x, y = 0.0, y + foot - top
    assert (x, y) == pytest.approx((0.0, 260.0))
    assert (together == whole).all()


def test_every_piece_names_itself_and_its_neighbours() -> None:
    for sheet, name, pointers in zip(
        maps(280.0, 290.0)[0],
        ["A1", "A2", "B1", "B2"],
        [("→ A2", "↓ B1"), ("← A1", "↓ B2"), ("→ B2", "↑ A1"), ("← B1", "↑ A2")],
        strict=True,
    ):
        words = words_of(sheet)
        assert f"Piece {name} of 4 pieces." in words
        assert all(pointer in words for pointer in pointers)
        assert sum(words.count(arrow) for arrow in "←→↑↓") == 2


@papers
def test_every_page_says_what_it_is(paper: Paper) -> None:
    for step, pages in enumerate(maps(200.0, 260.0, paper), start=1):
        for number, sheet in enumerate(pages, start=1):
            words = words_of(sheet)
            assert "Waves" in words
            assert f"Map · step {step}: stop out" in words
            assert f"16 March 2026 · page {number} of {len(pages)} · true size, 1 : 1" in words
            assert f"Mirrored, as on the plate. The bite makes tone {step}." in words
            assert "paint now covered already open metal, bites" in words
            assert "50 mm if printed at 100 %" in words


def passages() -> tuple[Passage, ...]:
    x = np.arange(10.0, 40.0, 0.5)
    run = np.stack([x, 20.0 + np.sin(x / 5.0)], axis=1)
    return tuple(
        Passage(
            number,
            3,
            run + np.array([0.0, 8.0 * number]),
            30.0,
            1.0,
            50.0,
            remedy,
            remedy,
            (0.5, 0.5),
        )
        for number, remedy in enumerate((Remedy.SPIT_BITE, Remedy.CRAYON, Remedy.SPIT_BITE), 1)
    )


def test_soft_passages_are_dotted_and_numbered_with_their_remedy() -> None:
    made = planned(5, PlateSize(60.0, 60.0))
    grid = made.prepared.grid
    plate, order = made.plate, made.order

    def page(step: int) -> Sheet:
        (sheet,) = map_sheets(
            plate, order, made.tones, grid, step, made_on=MADE_ON, passages=passages()
        )
        return sheet

    words = words_of(page(3))
    assert "soft passage 1, 3: spit bite" in words
    assert "soft passage 2: lithographic crayon" in words
    assert "soft passage" not in words_of(page(2))
    runs = [
        mark
        for mark in page(3).marks
        if isinstance(mark, Path) and len(mark.lines[0]) > 50 and mark.within is not None
    ]
    assert [mark.ink for mark in runs] == [Ink.WHITE, Ink.BLACK] * 3
    assert all((mark.dash_mm is None) == (mark.ink is Ink.WHITE) for mark in runs)
    # mirrored: what was 10 mm from the print's left is 10 mm from the right of the plate
    right = edges(page(3))[0][-1]
    assert max(x for x, _ in runs[0].lines[0]) == pytest.approx(right - 10.0)


def test_a_coarse_grid_keeps_its_cells_whole() -> None:
    grid = Grid(100, 80, 2.0)
    rng = np.random.default_rng(3)
    tones = np.kron(rng.integers(0, 3, (16, 20)), np.ones((5, 5))).astype(np.uint8)
    made = planned(3, PlateSize(50.0, 40.0))
    plate = Plate("coarse", made.plate.picture, PlateSize(50.0, 40.0))
    (sheet,) = map_sheets(plate, made.order, tones, grid, 1, made_on=MADE_ON)
    picture = drawn(sheet)
    assert picture.columns / picture.box.width >= 600 / 25.4
    assert (picture.columns % 100, picture.rows % 80) == (0, 0)
    black = dots(picture).reshape(80, 12, 100, 12)
    inked = np.asarray(black.any(axis=(1, 3)))
    assert not inked[tones[:, ::-1] > 0].any()
    assert inked[tones[:, ::-1] == 0].all()
