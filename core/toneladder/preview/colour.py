"""Ink on paper: the colour of a printed lightness."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from toneladder.optics import FloatArray, linear_from_srgb, luminance, srgb_from_linear
from toneladder.preview.values import InkAndPaper

_LUMINANCE_OF_RGB = np.array([0.2126, 0.7152, 0.0722])
_BLACK, _WHITE = (0.0, 0.0, 0.0), (1.0, 1.0, 1.0)


def colour_of(lightness: ArrayLike, ink: str, paper: str) -> FloatArray:
    """Colour in which a lightness prints: ink and paper mixed in linear light.

    Lights keep the paper's hue and darks the ink's; lighter than paper goes on to white,
    darker than ink to black. The luminance is exactly that of the lightness.

    Parameters
    ----------
    lightness : (...) array, CIE L*, 0..100
    ink, paper : str
        sRGB as ``#rrggbb``.

    Returns
    -------
    (..., 3) array
        sRGB code values, 0..1.

    References
    ----------
    [IEC61966-2-1] luminance of linear sRGB; [CIE15] lightness.
    """
    return srgb_from_linear(linear_colour_of(luminance(lightness), ink, paper))


def palette(tone_lightness: Sequence[float], printing: InkAndPaper) -> NDArray[np.uint8]:
    """Colour of every tone as (n, 3) sRGB bytes: recolours an indexed picture of tone numbers."""
    return bytes_of(linear_colour_of(luminance(tone_lightness), printing.ink, printing.paper))


def linear_colour_of(light: ArrayLike, ink: str, paper: str) -> FloatArray:
    """Linear sRGB, (..., 3), of ink and paper mixed to the luminance ``light`` (0..1)."""
    stops = np.array([_BLACK, _linear(ink), _linear(paper), _WHITE])
    height = stops @ _LUMINANCE_OF_RGB
    rising = np.argsort(height, kind="stable")
    wanted = np.asarray(light, dtype=np.float64)
    channels = [np.interp(wanted, height[rising], stops[rising, c]) for c in range(3)]
    return np.stack(channels, axis=-1)


def bytes_of(light: ArrayLike) -> NDArray[np.uint8]:
    """Linear light (0..1) as sRGB bytes."""
    return np.rint(255.0 * srgb_from_linear(light)).astype(np.uint8)


def luminance_of(colour: str) -> float:
    """Relative luminance (0..1) of an sRGB colour ``#rrggbb``."""
    return float(_linear(colour) @ _LUMINANCE_OF_RGB)


def _linear(colour: str) -> FloatArray:
    return linear_from_srgb([byte / 255.0 for byte in bytes.fromhex(colour.removeprefix("#"))])
