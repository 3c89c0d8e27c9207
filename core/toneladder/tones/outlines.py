"""Outlines on the plate, in cells: from a ring to what lies inside it, and back to rings."""

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from toneladder.optics import FloatArray

CellArray = NDArray[np.bool_]

_HALF_A_CELL = 0.5
_CORNERS = 4


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
    rings = sorted((ring[:, ::-1] - _HALF_A_CELL for ring in found), key=len, reverse=True)
    for _ in range(6):
        simple = [short for ring in rings for short in _simplified(ring, tolerance)]
        if sum(map(len, simple)) <= most_points:
            return tuple(simple)
        tolerance *= 2.0
    return tuple(_first(simple, most_points))


def simplified(ring: ArrayLike, tolerance: float) -> FloatArray:
    """A closed outline with no corner that is nearer to it than ``tolerance``; may be empty."""
    points: FloatArray = np.asarray(ring, dtype=np.float64).reshape(-1, 2)
    closed = np.concatenate([points, points[:1]])
    return next(_simplified(closed, tolerance), np.empty((0, 2)))


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


def _simplified(closed: FloatArray, tolerance: float) -> Iterator[FloatArray]:
    """The ring without needless corners, unless nothing is left of it."""
    from skimage.measure import approximate_polygon

    short: FloatArray = approximate_polygon(closed, tolerance)[:-1]
    if len(short) >= _CORNERS - 1:
        yield short


def _first(rings: Sequence[FloatArray], most_points: int) -> Iterator[FloatArray]:
    """As many rings as there are points for, in their order."""
    points = 0
    for ring in rings:
        points += len(ring)
        if points > most_points:
            return
        yield ring
