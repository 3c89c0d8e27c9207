"""Outlines on the plate, in cells: from a ring to what lies inside it, and back to rings."""

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from toneladder.optics import FloatArray
from toneladder.tones.simplifying import simplified

CellArray = NDArray[np.bool_]

_HALF_A_CELL = 0.5


def inside(rings: Sequence[ArrayLike], shape: tuple[int, int]) -> CellArray:
    """Which cells have their middle inside closed outlines, by the even-odd rule.

    A middle just on an outline counts with what lies to its right or below, so that places
    which share a border share out the cells along it.

    Parameters
    ----------
    rings : sequence of (n, 2) arrays, cells
        Across and down from the top left; they need not lie within ``shape``.
    shape : (height, width)

    Returns
    -------
    (height, width) array of bool.
    """
    height, width = shape
    toggles = np.zeros((height, width + 1), dtype=np.uint8)
    for ring in rings:
        rows, across = _crossings(np.asarray(ring, dtype=np.float64), height)
        columns = np.clip(np.ceil(across - _HALF_A_CELL), 0, width).astype(np.intp)
        np.add.at(toggles, (rows, columns), 1)
    crossed = np.cumsum(toggles[:, :-1], axis=1, dtype=np.uint8)
    return (crossed & 1).astype(np.bool_)


def outlines(cells: CellArray, tolerance: float, most_points: int) -> tuple[FloatArray, ...]:
    """The outlines of cells and of the holes in them, simplified.

    Parameters
    ----------
    cells : (height, width) array of bool
        Cells that touch at a corner are one place.
    tolerance : float, cells
        No corner that is left out lies further from the simplified outline.
    most_points : int, >= 4
        Where there would be more, the tolerance grows, and at last small holes are left out.

    Returns
    -------
    (n, 2) arrays, cells across and down, longest first; the last point is not the first again.
    """
    from skimage.measure import find_contours

    framed = np.pad(cells, 1).astype(np.float32)
    found = find_contours(framed, 0.5, fully_connected="high")
    found.sort(key=len, reverse=True)
    rings = [ring[:-1, ::-1] - _HALF_A_CELL for ring in found]
    for coarser in (1.0, 2.0, 4.0, 8.0):
        simple = simplified(rings, tolerance * coarser)
        if sum(map(len, simple)) <= most_points:
            break
    return tuple(_first(simple, most_points))


def _crossings(ring: FloatArray, height: int) -> tuple[NDArray[np.intp], FloatArray]:
    """Where an outline crosses the middles of rows: the rows, and how far across."""
    ends = np.roll(ring, -1, axis=0)
    upper, lower = np.minimum(ring[:, 1], ends[:, 1]), np.maximum(ring[:, 1], ends[:, 1])
    first, last = (
        np.clip(np.ceil(end - _HALF_A_CELL), 0, height).astype(np.intp) for end in (upper, lower)
    )
    number = last - first
    edge = np.repeat(np.arange(len(ring)), number)
    before = np.cumsum(number) - number
    rows = np.arange(len(edge)) - before[edge] + first[edge]
    (x, y), (to_x, to_y) = ring[edge].T, ends[edge].T
    across: FloatArray = x + (rows + _HALF_A_CELL - y) / (to_y - y) * (to_x - x)
    return rows, across


def _first(rings: Sequence[FloatArray], most_points: int) -> Iterator[FloatArray]:
    """As many rings as there are points for, in their order."""
    points = 0
    for ring in rings:
        points += len(ring)
        if points > most_points:
            return
        yield ring
