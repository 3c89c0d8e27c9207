"""How heavy each line is: how wide and how dark, and so how deep it is to be bitten."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from toneladder.lines.lifting import FloatGrid
from toneladder.lines.near import BoolArray, nearest, neighbours, number_about

DepthArray = NDArray[np.uint8]

_CLASSES = 64
_SHORT_MM, _NEAR_MM = 4.0, 2.0  # assumptions: what a fine brush follows, what it covers
_OWN_VOICE = 2.5
_DIAGONAL = 2.0**0.5
_WAY = np.array([_DIAGONAL, 1.0, _DIAGONAL, 1.0, 0.0, 1.0, _DIAGONAL, 1.0, _DIAGONAL]) / 2.0
_NO_WAY = 0.009
_CHAIN = np.pi * (1.0 + _DIAGONAL) / 8.0


@dataclass(frozen=True, slots=True)
class _Pieces:
    """Lines cut where they cross.

    The piece of every cell of a line and of every free cell of a middle, 0 elsewhere; each
    piece's length in cells, and its weight.
    """

    of_cell: NDArray[np.int32]
    of_middle: NDArray[np.int32]
    lengths: NDArray[np.int64]
    weights: NDArray[np.float64]


def depths_of(cover: FloatGrid, drawn: BoolArray, px_per_mm: float, depths: int) -> DepthArray:
    """The depth of every cell: 0 is no line, 1 the finest lines, ``depths`` the heaviest.

    A line's weight is the ink in a piece of it by the piece's length, so that a wide grey line
    and a fine black one weigh the same. Weights are parted where they differ most, on a scale
    of doublings. A piece too short to be stopped out for itself goes with the lines round it.

    Parameters
    ----------
    cover : (h, w) array of float32, 0..1
        How much of the light of each cell its ink takes away.
    drawn : (h, w) array of bool
        Cells of lines.
    px_per_mm : float, above 0
        Cells to the millimetre.
    depths : int, 1..4
        How many line bites there are.

    References
    ----------
    [Otsu1979] the parting of a histogram into classes of least variance.
    """
    if depths == 1 or not drawn.any():
        return drawn.astype(np.uint8)
    pieces = _pieces(cover, drawn)
    heavy = np.log2(np.maximum(pieces.weights, 1e-3))
    above = np.searchsorted(_partings(heavy, pieces.lengths, depths), heavy, side="right")
    depth = (above + 1).astype(np.uint8)
    depth[0] = 0
    return _together(depth, pieces, px_per_mm, depths)[pieces.of_cell]


def _together(depth: DepthArray, pieces: _Pieces, px_per_mm: float, depths: int) -> DepthArray:
    """Depths of all pieces, the short ones' by vote of the line that lies near them."""
    middle = np.flatnonzero(pieces.of_middle)
    of = pieces.of_middle.ravel()[middle]
    reach = round(_NEAR_MM * px_per_mm)
    votes = np.zeros((depths + 1, len(depth)))
    for k in range(1, depths + 1):
        near = number_about((depth == k)[pieces.of_middle], middle, reach)
        votes[k] = np.bincount(of, near, len(depth))
    votes[depth, np.arange(len(depth))] *= _OWN_VOICE
    short = pieces.lengths < _SHORT_MM * px_per_mm
    return np.where(short, votes.argmax(axis=0), depth).astype(np.uint8) * (depth > 0)


def length_cells(drawn: BoolArray) -> float:
    """Length of all lines, in cells: steps along their middles.

    References
    ----------
    [Kulpa1977] the factor that makes the steps of a lattice as long as the line, on average.
    """
    middle = _middles(drawn)
    straight = int((middle[1:] & middle[:-1]).sum() + (middle[:, 1:] & middle[:, :-1]).sum())
    corner = middle[1:, :-1] | middle[:-1, 1:]
    falling = int((middle[1:, 1:] & middle[:-1, :-1] & ~corner).sum())
    corner = middle[1:, 1:] | middle[:-1, :-1]
    rising = int((middle[1:, :-1] & middle[:-1, 1:] & ~corner).sum())
    return float(_CHAIN * (straight + _DIAGONAL * (falling + rising)))


def _middles(drawn: BoolArray) -> BoolArray:
    from skimage.morphology import skeletonize

    middle: BoolArray = skeletonize(drawn)
    return middle


def _pieces(cover: FloatGrid, drawn: BoolArray) -> _Pieces:
    from scipy import ndimage

    middle = _middles(drawn)
    free = middle & (_about(middle) <= 3)  # its own cell and two neighbours; more is a crossing
    if not free.any():
        free = middle
    numbers, count = ndimage.label(free, structure=np.ones((3, 3)))
    weights = np.zeros(count + 1)
    pieces, medians = _medians(numbers[free], _widths(cover, drawn, middle, free))
    weights[pieces] = medians
    of_cell = np.zeros_like(numbers)
    of_cell[drawn] = numbers.ravel()[nearest(free, drawn)]
    return _Pieces(of_cell, numbers, np.bincount(numbers.ravel(), minlength=count + 1), weights)


def _widths(
    cover: FloatGrid, drawn: BoolArray, middle: BoolArray, free: BoolArray
) -> NDArray[np.float64]:
    """Ink beside ``free`` cells of a middle, by the way along it: widths, in cells of pure black.

    Both are summed over a cell and the eight about it.
    """
    ink = np.bincount(nearest(middle, drawn), cover[drawn], drawn.size).reshape(drawn.shape)
    way = np.zeros(middle.shape)
    way[middle] = (neighbours(middle, middle) @ _WAY).ravel()
    along = neighbours(way, free).sum(axis=1)
    widths: NDArray[np.float64] = neighbours(ink, free).sum(axis=1) / np.maximum(along, _NO_WAY)
    return widths


def _about(cells: BoolArray) -> NDArray[np.uint8]:
    """How many of ``cells`` are the cell itself or one of the eight about it."""
    padded = np.pad(cells, 1).view(np.uint8)
    upright = padded[:-2] + padded[1:-1] + padded[2:]
    about: NDArray[np.uint8] = upright[:, :-2] + upright[:, 1:-1] + upright[:, 2:]
    return about


def _medians(
    numbers: NDArray[np.int32], values: NDArray[np.float64]
) -> tuple[NDArray[np.int32], NDArray[np.float64]]:
    """Every number there is, and the lower median of its values."""
    order = np.lexsort((values, numbers))
    found, first, count = np.unique(numbers[order], return_index=True, return_counts=True)
    return found, values[order][first + (count - 1) // 2]


def _partings(
    heavy: NDArray[np.float64], lengths: NDArray[np.int64], depths: int
) -> NDArray[np.float64]:
    """Where the weights part; fewer partings if they are too much alike."""
    from skimage.filters import threshold_multiotsu

    counts, edges = np.histogram(heavy[1:], bins=_CLASSES, weights=lengths[1:])
    classes = min(depths, int(np.count_nonzero(counts)))
    if classes < 2:
        return np.empty(0)
    # it names the last bin of every class but the highest: there, the upper edge parts
    found: NDArray[np.float64] = threshold_multiotsu(classes=classes, hist=(counts, edges[1:]))
    return found
