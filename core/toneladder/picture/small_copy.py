"""A small copy of a picture, for the screen."""

import numpy as np
from numpy.typing import NDArray

from toneladder.optics import srgb_from_linear
from toneladder.picture.averaging import Axis, bands
from toneladder.picture.light import WHITE, Light

LONGEST_PX = 1600


def small_copy(light: Light, longest_px: int = LONGEST_PX) -> NDArray[np.uint8]:
    """The picture in grey as a screen shows it, no longer than ``longest_px``.

    Parameters
    ----------
    light : (height, width) array of uint16
        Linear luminance, 0 to 65535 (white).
    longest_px : int, above 0
        Of the copy's sides; a smaller picture keeps its size.

    Returns
    -------
    (height, width) array of uint8, codes of sRGB; means over areas, in linear light.
    """
    height, width = light.shape
    share = min(1.0, longest_px / max(height, width))
    down, across = (
        Axis(0.0, length / max(1, round(length * share)), max(1, round(length * share)), length)
        for length in (height, width)
    )
    codes = np.rint(255.0 * srgb_from_linear(np.arange(4097) / 4096.0)).astype(np.uint8)
    small = np.empty((down.cells, across.cells), np.uint8)
    for rows, band in bands(light, down, across):
        small[rows] = codes[np.rint(band * (4096.0 / WHITE)).astype(np.intp)]
    return small
