"""What lies near a cell: the nearest of some cells, the most and the number of those about it."""

from collections.abc import Iterator
from functools import cache
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

BoolArray = NDArray[np.bool_]
IndexArray = NDArray[np.intp]

Cell = TypeVar("Cell", bound=np.generic)

_FAR = 10  # cells to which nearest ones are looked for step by step


def nearest(cells: BoolArray, at: BoolArray) -> IndexArray:
    """The flat number of the nearest of ``cells``, for every cell of ``at``, row by row.

    Lines are thin, so that one distance after another is looked at, and few cells are left
    soon. Of several at one distance the leftmost is taken, and of these the topmost, which is
    what an exact distance transform takes.

    Parameters
    ----------
    cells, at : (h, w) arrays of bool
        ``cells`` holds at least one.
    """
    from scipy import ndimage

    width = cells.shape[1]
    row = width + 2 * _FAR
    there = np.pad(cells, _FAR).ravel()
    wanted = np.flatnonzero(np.pad(at, _FAR))
    found = np.empty(there.size, dtype=np.int32)
    left = wanted
    for across, down in _offsets():
        step = down * row + across
        hit = there[left + step]
        here = left[hit]
        found[here] = here + step
        left = left[~hit]
        if not left.size:
            break
    else:
        rows, columns = ndimage.distance_transform_edt(
            ~cells, return_distances=False, return_indices=True
        )
        far: IndexArray = rows[at].astype(np.intp) * width + columns[at]
        return far
    rows, columns = np.divmod(found[wanted].astype(np.intp), row)
    numbers: IndexArray = (rows - _FAR) * width + columns - _FAR
    return numbers


@cache
def _offsets() -> tuple[tuple[int, int], ...]:
    """Steps across and down, the shortest first, of equal ones the leftmost and topmost."""
    steps = range(-_FAR, _FAR + 1)
    away = [(x * x + y * y, x, y) for x in steps for y in steps if x * x + y * y <= _FAR * _FAR]
    return tuple((x, y) for _, x, y in sorted(away))


def most_about(cells: NDArray[Cell], reach: int) -> NDArray[Cell]:
    """The most that a square of ``2 * reach + 1`` cells about each cell (h, w) holds, from 0 on."""
    most = np.pad(cells, reach)
    for axis in (0, 1):
        for shift in _doublings(2 * reach + 1):
            here, there = (
                (most[:-shift], most[shift:]) if axis == 0 else (most[:, :-shift], most[:, shift:])
            )
            most = np.maximum(here, there)
    return most


def _doublings(length: int) -> Iterator[int]:
    """Shifts by which a run of one becomes a run of ``length``."""
    run = 1
    while 2 * run <= length:
        yield run
        run *= 2
    if run < length:
        yield length - run


def number_about(cells: BoolArray, at: IndexArray, reach: int) -> NDArray[np.int32]:
    """How many of ``cells`` lie in a square of ``2 * reach + 1`` about each flat number ``at``."""
    height, width = cells.shape
    sums = np.zeros((height + 1, width + 1), dtype=np.int32)
    np.cumsum(np.cumsum(cells, axis=1, dtype=np.int32), axis=0, out=sums[1:, 1:])
    rows, columns = np.divmod(at, width)
    top, foot = np.maximum(rows - reach, 0), np.minimum(rows + reach + 1, height)
    left, right = np.maximum(columns - reach, 0), np.minimum(columns + reach + 1, width)
    inside: NDArray[np.int32] = sums[foot, right] - sums[top, right]
    inside -= sums[foot, left] - sums[top, left]
    return inside


def neighbours(cells: NDArray[np.generic], at: BoolArray) -> NDArray[np.float64]:
    """What every cell of ``at`` and the eight about it hold, (n, 9), row by row; beyond, 0."""
    padded = np.pad(cells, 1)
    rows, columns = np.nonzero(at)
    steps = np.arange(9)
    rows, columns = rows[:, None] + steps // 3, columns[:, None] + steps % 3
    held: NDArray[np.float64] = padded[rows, columns].astype(np.float64)
    return held
