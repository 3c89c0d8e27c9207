"""Lines taken out of a picture: what lies under them is what lies beside them."""

import numpy as np
from numpy.typing import NDArray

from toneladder.lines.finding import GreyArray
from toneladder.lines.near import BoolArray, most_about

FloatGrid = NDArray[np.float32]

_SKIRT_CELLS = 2  # how far a scan smears ink beside a line
_REACH_CELLS = 4  # from here on the gaps of dense hatching are all there is to go by
_TOOTH_CELLS = 1.0  # the paper's own unevenness is smoothed over
_JOIN_CELLS = 1.5


def without_lines(
    light: FloatGrid, greys: GreyArray, around: GreyArray, found: BoolArray
) -> FloatGrid:
    """The washes as if no line had been drawn over them.

    Every cell under a line, and every cell beside one that its ink has smeared, takes the light
    of the nearest clean cell, so that the edges of washes stay where they are; in dense hatching
    the lightest of the gaps stand for clean ones.

    Parameters
    ----------
    light : (h, w) array of float32, 0..1
        Linear luminance.
    greys, around : (h, w) arrays of uint8
        Its lightness, and the lightness of what surrounds every line.
    found : (h, w) array of bool
        Cells of lines.
    """
    from scipy import ndimage

    if not found.any() or found.all():
        return light
    clean, kept = _clean(greys, around, found)
    lost = np.flatnonzero(~kept)
    rows, columns = ndimage.distance_transform_edt(
        ~clean, return_distances=False, return_indices=True
    )
    nearest = rows.ravel()[lost] * light.shape[1] + columns.ravel()[lost]
    weight = clean.astype(np.float32)
    sums, weights = (
        ndimage.gaussian_filter(part, _TOOTH_CELLS, truncate=2.0)
        for part in (light * weight, weight)
    )
    lifted = light.copy()
    lifted.ravel()[lost] = sums.ravel()[nearest] / weights.ravel()[nearest]
    smooth = ndimage.gaussian_filter(lifted, _JOIN_CELLS, truncate=2.5)
    lifted.ravel()[lost] = smooth.ravel()[lost]
    return lifted


def _clean(greys: GreyArray, around: GreyArray, found: BoolArray) -> tuple[BoolArray, BoolArray]:
    """Cells whose light may be taken for that of others, and cells that keep their own."""
    smeared = most_about(found, _SKIRT_CELLS)
    darker = around - greys
    tooth = np.median(darker[::5, ::7])
    clean = ~smeared
    in_reach = most_about(clean, _REACH_CELLS)
    clean |= ~found & ~in_reach & (darker <= tooth)
    kept: BoolArray = clean | (~found & (darker <= tooth + 1))
    if not clean.any():
        clean = ~found
    return clean, kept
