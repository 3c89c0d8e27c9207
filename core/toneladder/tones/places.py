"""What each step asks of the hand: areas, places, borders, small darks."""

import numpy as np
from numpy.typing import NDArray

from toneladder.tones.parting import ToneArray
from toneladder.tones.values import Painting
from toneladder.tones.zones import Zones, zones

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
    return _places(zones(tones), count)


def _places(found: Zones, count: int) -> tuple[int, ...]:
    return tuple(int(n) for n in np.bincount(found.tone, minlength=count)[:count])


def small_darks(found: Zones, step: int, limit_cells: float) -> int:
    """Openings smaller than ``limit_cells`` that step ``step`` must paint around."""
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    number = len(found.tone)
    dark = found.tone >= step
    one, other = found.near[:, dark[found.near].all(axis=0)]
    links = coo_array((np.ones(len(one), np.int8), (one, other)), shape=(number, number))
    pieces, opening = connected_components(links, directed=False)
    small = np.bincount(opening, found.cells, pieces) < limit_cells
    small[opening[found.outer]] = False
    painted = found.tone == step - 1
    painted_around = np.zeros(pieces, dtype=np.bool_)
    for a, b in (found.beside, found.beside[::-1]):
        painted_around[opening[b[dark[b] & painted[a]]]] = True
    return int(np.count_nonzero(small & painted_around))


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
    found = zones(tones)
    separate = _places(found, count)
    limit = SMALL_DARK_MM2 * px_per_mm**2
    return tuple(
        Painting(
            area_cm2=float(cells[k - 1]) / (px_per_mm**2 * 100.0),
            places=separate[k - 1],
            border_cm=float(border[:k, k:].sum()),
            new_border_cm=float(border[k - 1, k:].sum()),
            small_darks=small_darks(found, k, limit),
        )
        for k in range(1, count)
    )
