"""The scan as lightness, at whatever fineness is worked at."""

from dataclasses import dataclass

import numpy as np

from toneladder.optics import lightness
from toneladder.picture.averaging import Axis, bands
from toneladder.picture.light import WHITE, Light
from toneladder.proof.values import Raster

SOFT = 0.8
"""Pixels by which a page is softened before it is compared."""


@dataclass(frozen=True, slots=True, eq=False)
class PageTone:
    """CIE L* (height, width) of a scan; one of its pixels is ``scale`` pixels of the scan."""

    tone: Raster
    scale: float


def reduced(light: Light | Raster, pitch: float) -> Raster:
    """Means of light over squares of ``pitch`` pixels; the raster itself where that is below 1."""
    if pitch <= 1.0:
        return np.asarray(light, dtype=np.float32)
    height, width = light.shape
    down = Axis(0.0, pitch, max(1, int(height / pitch)), height)
    across = Axis(0.0, pitch, max(1, int(width / pitch)), width)
    small = np.empty((down.cells, across.cells), np.float32)
    for rows, band in bands(light, down, across):
        small[rows] = band
    return small


def page_tone(light: Light | Raster, pitch: float, *, white: float = WHITE) -> PageTone:
    """Lightness of the scan, softened; a pixel of it is ``pitch`` pixels of ``light`` wide."""
    from scipy import ndimage

    small = ndimage.gaussian_filter(reduced(light, pitch), SOFT, mode="nearest")
    tone = lightness(np.maximum(small, 0.0) / white).astype(np.float32)
    return PageTone(tone, max(1.0, pitch))
