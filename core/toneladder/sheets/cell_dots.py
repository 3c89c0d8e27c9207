"""The plate's cells as black dots at true size: every cell is a whole number of dots."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, sqrt

import numpy as np
from numpy.typing import NDArray

from toneladder.boxes import Box
from toneladder.picture.values import Grid
from toneladder.sheets.marks import BoolArray, Picture, picture

LEAST_PER_MM = 600.0 / 25.4
"""The coarsest dots: 600 to the inch."""

SOLID: BoolArray = np.ones((1, 1), dtype=np.bool_)


@dataclass(frozen=True, slots=True, eq=False)
class Layer:
    """Cells, and what stands in them.

    ``cells`` (height, width) as they lie on the sheet; ``pattern`` a square of dots that
    repeats over the whole plate, so that pages join.
    """

    cells: BoolArray
    pattern: BoolArray


def dots_per_cell(grid: Grid) -> int:
    """How many dots make the side of a cell."""
    return ceil(LEAST_PER_MM / grid.px_per_mm)


def dots_per_mm(grid: Grid) -> float:
    """How many dots lie on a millimetre."""
    return dots_per_cell(grid) * grid.px_per_mm


def cells_box(grid: Grid, width_mm: float, *, mirrored: bool = True) -> Box:
    """Where the grid lies on a drawing of the plate, ``width_mm`` wide.

    The mirror flips about the middle of the plate, not of the grid, which may be half a cell
    wider or narrower.
    """
    wide, high = grid.width / grid.px_per_mm, grid.height / grid.px_per_mm
    return Box(width_mm - wide if mirrored else 0.0, 0.0, wide, high)


def dotted(layers: Sequence[Layer], lying: Box, shown: Box, grid: Grid) -> Picture:
    """The layers over each other, as far as a page shows them.

    Parameters
    ----------
    layers : sequence of Layer, at least one
        All of the grid's shape.
    lying : Box
        Where the grid lies on the drawing, millimetres.
    shown : Box
        The piece of the drawing that the page shows; whole cells are kept.
    grid : Grid
        Its cells.

    Returns
    -------
    Picture
        In millimetres of the drawing.
    """
    pitch = 1.0 / grid.px_per_mm
    left, right = _span(shown.x - lying.x, shown.right - lying.x, grid.px_per_mm, grid.width)
    top, foot = _span(shown.y - lying.y, shown.bottom - lying.y, grid.px_per_mm, grid.height)
    per_cell = dots_per_cell(grid)
    columns, rows = (right - left) * per_cell, (foot - top) * per_cell
    black = np.zeros((foot - top, per_cell, -(-columns // 8)), dtype=np.uint8)
    dots = _dots(per_cell)
    for layer in layers:
        cells = np.packbits(layer.cells[top:foot, left:right], axis=1)
        inside = dots.take(cells, axis=0).reshape(foot - top, 1, -1)[..., : black.shape[2]]
        pattern = _rows(layer.pattern, left * per_cell, columns)
        row = np.arange(top * per_cell, foot * per_cell) % len(pattern)
        black |= inside & pattern.take(row, axis=0).reshape(black.shape)
    box = Box(lying.x + left * pitch, lying.y + top * pitch, (right - left) * pitch, 0.0)
    box = Box(box.x, box.y, box.width, (foot - top) * pitch)
    return Picture(box, columns, rows, black.tobytes())


def field(box: Box, pattern: BoolArray, per_mm: float) -> Picture:
    """``box`` filled with a pattern, for a key."""
    rows, columns = round(box.height * per_mm), round(box.width * per_mm)
    y, x = np.arange(rows) % pattern.shape[0], np.arange(columns) % pattern.shape[1]
    return picture(box, pattern[np.ix_(y, x)])


def lines_pattern(width_mm: float, pitch_mm: float, per_mm: float, *, rising: bool) -> BoolArray:
    r"""Lines at 45 degrees, / if ``rising`` or else \, as dots that repeat.

    Width and pitch are measured across the lines and come out to the nearest dot.
    """
    period = max(round(pitch_mm * per_mm * sqrt(2.0)), 1)
    width = max(round(width_mm * per_mm * sqrt(2.0)), 1)
    y, x = np.mgrid[0:period, 0:period]
    return np.asarray((x + y if rising else x - y) % period < width)


def inner(cells: BoolArray, by_cells: int) -> BoolArray:
    """The cells further than ``by_cells`` from every cell outside, to within half a cell.

    Beyond the edge of the plate everything counts as inside. A square and a diamond together
    make the octagon that stands for a disc.
    """
    left = cells
    square = round(0.4 * by_cells)
    for _ in range(by_cells - square):
        left = _narrowed(left, 0) & _narrowed(left, 1)
    for axis in (0, 1):
        for _ in range(square):
            left = _narrowed(left, axis)
    return left


def _narrowed(cells: BoolArray, axis: int) -> BoolArray:
    """Cells that, with their two neighbours along ``axis``, are all inside."""
    kept = cells.copy()
    if axis == 0:
        kept[1:] &= cells[:-1]
        kept[:-1] &= cells[1:]
    else:
        kept[:, 1:] &= cells[:, :-1]
        kept[:, :-1] &= cells[:, 1:]
    return kept


def _span(start_mm: float, end_mm: float, px_per_mm: float, cells: int) -> tuple[int, int]:
    """The cells that a stretch touches, a hair at its ends not counted."""
    hair = 1e-6
    first = int(start_mm * px_per_mm + hair)
    return min(max(first, 0), cells - 1), max(min(ceil(end_mm * px_per_mm - hair), cells), 1)


def _dots(per_cell: int) -> NDArray[np.uint8]:
    """The dots of eight cells, given as a byte: (256, ``per_cell``) bytes."""
    cells = np.unpackbits(np.arange(256, dtype=np.uint8)[:, None], axis=1)
    return np.packbits(np.repeat(cells, per_cell, axis=1), axis=1)


def _rows(pattern: BoolArray, start: int, columns: int) -> NDArray[np.uint8]:
    """The pattern's rows along a stretch of dots, eight to the byte."""
    along = np.arange(start, start + columns) % pattern.shape[1]
    return np.packbits(pattern[:, along], axis=1)
