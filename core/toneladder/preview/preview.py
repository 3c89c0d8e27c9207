"""What the plate would print if it were stopped here."""

from collections.abc import Sequence
from io import BytesIO

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from toneladder.optics import srgb_from_linear
from toneladder.preview.colour import linear_colour_of, luminance_of
from toneladder.preview.paper import on_paper
from toneladder.preview.texture import SHADES, shade_numbers, shades
from toneladder.preview.values import InkAndPaper, Texture

_LIGHT_LEVELS = 1 << 14  # finer than a step of 8-bit sRGB even in the darks


def lightness_after(tone_lightness: Sequence[float], step: int) -> tuple[float, ...]:
    """What each tone prints if the plate is stopped after a step.

    A tone still open then is as dark as the tone that the step's bite makes.

    >>> lightness_after((90.0, 70.0, 45.0, 20.0), 2)
    (90.0, 70.0, 45.0, 45.0)

    Parameters
    ----------
    tone_lightness : (n,) CIE L* of the finished tones, white first
    step : int, 0..n-1
        0 is the plate before its first bite: all white.
    """
    return tuple(tone_lightness[min(tone, step)] for tone in range(len(tone_lightness)))


def preview(
    tones: NDArray[np.uint8],
    tone_lightness: Sequence[float],
    printing: InkAndPaper,
    texture: Texture,
    *,
    px_per_mm: float,
    out_px_per_mm: float,
    margins: bool,
    seed: int,
    lines: NDArray[np.uint8] | None = None,
) -> NDArray[np.uint8]:
    """The print as it would be seen: tones, grain, plate tone, ink, paper and plate mark.

    The grain is laid at the plate's own grid and then looked at from further away, in linear
    light, so its strength at every scale is the grain's.

    Parameters
    ----------
    tones : (h, w) uint8
        Tone numbers on the plate's grid, as the print is seen.
    tone_lightness : (n,) CIE L*, never rising
        What each tone prints; tone 0 is white with its plate tone.
    printing : InkAndPaper
    texture : Texture
    px_per_mm, out_px_per_mm : float, > 0
        Cells of the grid, and pixels of the picture wanted, to a millimetre of print.
    margins : bool
        With the paper's margins and the plate mark, or the plate alone.
    seed : int, >= 0
    lines : (h, w) uint8, optional
        How much of each cell is under an etched line, 255 for all of it. A line is deep enough
        to print as black as its ink, however finely it was drawn: an assumption.

    Returns
    -------
    (H, W, 3) uint8, sRGB.
    """
    ink_light = luminance_of(printing.ink)
    look_up = shades(tone_lightness, texture, ink_light, px_per_mm).astype(np.float32)
    which = tones.astype(np.uint16) * np.uint16(SHADES)
    which += shade_numbers((tones.shape[0], tones.shape[1]), px_per_mm, texture, seed)
    light = look_up.ravel()[which]
    if lines is not None:
        light += (np.minimum(np.float32(ink_light), light) - light) * (lines / np.float32(255.0))
    light = _from_further_away(light, out_px_per_mm / px_per_mm)
    plate = _coloured(light, printing)
    return on_paper(plate, printing, out_px_per_mm, seed) if margins else plate


def preview_png(image: NDArray[np.uint8], size_limit: int = 2400) -> bytes:
    """A picture as PNG bytes, quickly written, its longest side at most ``size_limit`` pixels."""
    picture = Image.fromarray(image)
    picture.thumbnail((size_limit, size_limit), Image.Resampling.BOX)
    file = BytesIO()
    picture.save(file, "PNG", compress_level=1)
    return file.getvalue()


def _from_further_away(light: NDArray[np.float32], scale: float) -> NDArray[np.float32]:
    height, width = (max(1, round(side * scale)) for side in light.shape)
    if (height, width) == light.shape:
        return light
    # two pixels wide, as an eye is; a box beats with the grid and makes the grain uneven
    seen = Image.fromarray(light).resize((width, height), Image.Resampling.BILINEAR)
    return np.asarray(seen)


def _coloured(light: NDArray[np.float32], printing: InkAndPaper) -> NDArray[np.uint8]:
    levels = np.linspace(0.0, 1.0, _LIGHT_LEVELS)
    colours = srgb_from_linear(linear_colour_of(levels, printing.ink, printing.paper))
    look_up = np.rint(255.0 * colours).astype(np.uint8)
    return look_up[np.rint(light * (_LIGHT_LEVELS - 1)).astype(np.uint16)]
