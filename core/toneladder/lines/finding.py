"""Where pen lines are: long dark ridges, narrower than a tone."""

import numpy as np
from numpy.typing import NDArray

from toneladder.lines.near import BoolArray, most_about
from toneladder.lines.values import Lines
from toneladder.tones.brush import closing

GreyArray = NDArray[np.uint8]

SHORTEST_MM = 0.8
"""A stroke shorter than this is a speck."""

GREYS_PER_LIGHTNESS = 2.55

_SKIRT_CELLS = 2.0  # a line is this much wider than its ink, as scans soften it
_CROSSING = 2.0  # lines that cross hold a disc this much wider than each of them
_AS_BLACK = 0.75  # and are there about as dark as they are elsewhere
_LEAST_SPREAD = 0.25  # a disc has 0.16, a bar three times as long as wide 0.28
_LEAST_NETWORK = 3.0  # a disc of the widest line, the largest speck there can be, has 0.8


def surroundings(greys: GreyArray, px_per_mm: float, lines: Lines) -> GreyArray:
    """The grey beside every line, also where two of them cross: a closing by a disc."""
    return closing(greys, _CROSSING * lines.widest_mm * px_per_mm + _SKIRT_CELLS)


def find_lines(greys: GreyArray, around: GreyArray, px_per_mm: float, lines: Lines) -> BoolArray:
    """Cells of pen lines, with their softened edges.

    A line is darker than its surroundings, and no disc wider than it finds room in it: that
    is what a closing fills, also in hatching, where lines lie close. Specks are filled too, but
    they are round: a line's second moments are large beside its area. Edges of washes are not
    filled at all.

    Parameters
    ----------
    greys : (h, w) array of uint8
        CIE L*, 2.55 to one L*.
    around : (h, w) array of uint8
        From ``surroundings``.
    px_per_mm : float, above 0
        Cells to the millimetre.
    lines : Lines
        What is a line.

    References
    ----------
    [Soille2003] top-hats by closing; [Hu1962] the first moment invariant, a measure of
    elongation that a turn does not change.
    """
    from scipy import ndimage

    least = lines.contrast * GREYS_PER_LIGHTNESS
    wide = lines.widest_mm * px_per_mm
    depth = closing(greys, wide + _SKIRT_CELLS) - greys
    sure = depth >= least
    darker = around - greys
    ink = most_about(np.where(sure, darker, 0), round(wide))
    crossed = (ink > 0) & (darker >= np.maximum(_AS_BLACK * ink, least))
    loose = (depth >= least / 2.0) | crossed
    pieces, number = ndimage.label(loose, structure=np.ones((3, 3)))
    found: BoolArray = _drawn(pieces, number, sure, px_per_mm, wide)[pieces]
    return found


def _drawn(
    pieces: NDArray[np.int32], number: int, sure: BoolArray, px_per_mm: float, wide: float
) -> BoolArray:
    """Which pieces are drawn, not splashed, by what of them is surely a line; 0 is no piece."""
    inside = np.flatnonzero(sure)
    of = pieces.ravel()[inside]
    area = np.maximum(np.bincount(of, minlength=number + 1), 1)
    spread = np.full(number + 1, 1.0 / 6.0)  # a single cell's own
    for place in np.divmod(inside, pieces.shape[1]):
        middle = np.bincount(of, place, number + 1) / area
        spread += np.bincount(of, (place - middle[of]) ** 2, number + 1) / area
    drawn: BoolArray = np.sqrt(12.0 * spread) >= SHORTEST_MM * px_per_mm
    drawn &= (spread / area >= _LEAST_SPREAD) | (area >= _LEAST_NETWORK * wide**2)
    drawn[0] = False
    return drawn
