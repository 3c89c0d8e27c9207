"""Places smaller than somebody cares to paint or to leave open, if more than a disc is asked."""

import numpy as np
from numpy.typing import NDArray

from toneladder.tones.parting import ToneArray


def without_small(tones: ToneArray, count: int, least_cells: float) -> ToneArray:
    """``tones`` without covered or open places smaller than ``least_cells``.

    Covered areas stay nested: what is removed or filled at one parting is removed or filled
    with all it holds. Repeated until nothing changes, so that doing it again changes nothing.

    Parameters
    ----------
    tones : (height, width) array of uint8
        Tone number of every cell.
    count : int
        Number of tones.
    least_cells : float
        Smallest place that stays.
    """
    while True:
        result = np.zeros_like(tones)
        for k in range(1, count):
            covered = _large(tones < k, least_cells)
            result += _large(~covered, least_cells)
        if np.array_equal(result, tones):
            return result
        tones = result


def _large(cells: NDArray[np.bool_], least_cells: float) -> NDArray[np.bool_]:
    """The pieces of ``cells`` (joined also at corners) that are not too small."""
    from scipy import ndimage

    pieces, number = ndimage.label(cells, structure=np.ones((3, 3)))
    keep = np.bincount(pieces.ravel(), minlength=number + 1) >= least_cells
    keep[0] = False
    large: NDArray[np.bool_] = keep[pieces]
    return large
