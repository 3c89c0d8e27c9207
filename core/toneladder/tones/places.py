"""What each step asks of the hand: areas, places, borders, small darks."""

import numpy as np
from numpy.typing import NDArray

from toneladder.tones.parting import ToneArray
from toneladder.tones.values import Painting

SMALL_DARK_MM2 = 30.0

# Eight directions of the Crofton formula as (dy, dx, distance of parallel lines in cells,
# share of all directions that stand for it).
_STEEP = 22.5 / 180.0
_AXIS = 26.56505117707799 / 180.0
_DIAGONAL = (63.43494882292201 - 26.56505117707799) / 2.0 / 180.0
_DIRECTIONS = (
    (0, 1, 1.0, _AXIS),
    (1, 0, 1.0, _AXIS),
    (1, 1, 2**-0.5, _DIAGONAL),
    (1, -1, 2**-0.5, _DIAGONAL),
    (1, 2, 5**-0.5, _STEEP),
    (1, -2, 5**-0.5, _STEEP),
    (2, 1, 5**-0.5, _STEEP),
    (2, -1, 5**-0.5, _STEEP),
)


def border_cells(tones: ToneArray, count: int) -> NDArray[np.float64]:
    """Length of border between every two tones, in cells.

    Parameters
    ----------
    tones : (height, width) array of uint8
        Tone number of every cell, each below ``count``.
    count : int
        Number of tones.

    Returns
    -------
    (count, count) array; entry [i, j], i < j, is where crossing it leads from i to j. Lines
    across several borders count each of them; the plate's own edge counts nowhere.

    References
    ----------
    [Ohser2009] Crofton formula on a lattice, here with eight directions (within 1.5 %).
    """
    length = np.zeros((count, count))
    for dy, dx, spacing, share in _DIRECTIONS:
        here, there = _shifted(tones, dy, dx)
        differ = here != there
        pairs = here[differ].astype(np.intp) * count + there[differ]
        crossings = np.bincount(pairs, minlength=count * count).reshape(count, count)
        length += np.pi / 2.0 * share * spacing * crossings
    return np.triu(length + length.T, 1)


def _shifted(tones: ToneArray, dy: int, dx: int) -> tuple[ToneArray, ToneArray]:
    """Every cell beside the one ``dy`` rows down and ``dx`` columns on."""
    height, width = tones.shape
    rows = max(height - dy, 0)
    left, right = max(-dx, 0), max(width - max(dx, 0), 0)
    return tones[:rows, left:right], tones[dy : dy + rows, left + dx : right + dx]


def places(tones: ToneArray, count: int) -> tuple[int, ...]:
    """How many separate areas (joined also at corners) each tone has."""
    from skimage.measure import label

    regions, number = label(tones, background=-1, connectivity=2, return_num=True)
    tone_of = np.zeros(number + 1, dtype=np.uint8)
    tone_of[regions.ravel()] = tones.ravel()
    return tuple(int(n) for n in np.bincount(tone_of[1:], minlength=count)[:count])


def small_darks(tones: ToneArray, step: int, limit_cells: float) -> int:
    """Openings smaller than ``limit_cells`` that step ``step`` must paint around."""
    from scipy import ndimage

    regions, number = ndimage.label(tones >= step, structure=np.ones((3, 3)))
    size = np.bincount(regions.ravel(), minlength=number + 1)
    small = size < limit_cells
    small[0] = False
    small[np.concatenate([regions[0], regions[-1], regions[:, 0], regions[:, -1]])] = False
    painted_around = np.zeros_like(small)
    painted_around[regions[_beside(tones == step - 1)]] = True
    return int(np.count_nonzero(small & painted_around))


def _beside(cells: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """The cells above, below, left and right of ``cells``."""
    beside = np.zeros_like(cells)
    beside[1:] |= cells[:-1]
    beside[:-1] |= cells[1:]
    beside[:, 1:] |= cells[:, :-1]
    beside[:, :-1] |= cells[:, 1:]
    return beside


def paintings(tones: ToneArray, count: int, px_per_mm: float) -> tuple[Painting, ...]:
    """What each step paints.

    Parameters
    ----------
    tones : (height, width) array of uint8
        Tone number of every cell.
    count : int
        Number of tones; there is one step less.
    px_per_mm : float
        Cells to the millimetre.
    """
    cells = np.bincount(tones.ravel(), minlength=count)
    border = border_cells(tones, count) / (px_per_mm * 10.0)
    separate = places(tones, count)
    limit = SMALL_DARK_MM2 * px_per_mm**2
    return tuple(
        Painting(
            area_cm2=float(cells[k - 1]) / (px_per_mm**2 * 100.0),
            places=separate[k - 1],
            border_cm=float(border[:k, k:].sum()),
            new_border_cm=float(border[k - 1, k:].sum()),
            small_darks=small_darks(tones, k, limit),
        )
        for k in range(1, count)
    )
