"""The sheet of paper round the plate, and the mark that the plate leaves in it."""

import numpy as np
from numpy.typing import NDArray

from toneladder.optics import FloatArray
from toneladder.preview.colour import bytes_of, linear_colour_of, luminance_of
from toneladder.preview.texture import grain_field
from toneladder.preview.values import InkAndPaper

BEVEL_MM = 1.0
_LIGHT_FROM = (-0.8, -0.6)  # down and across: from the upper left, rather from above
_SHADE, _SHINE = 0.25, 0.08  # shares of light that the bevel loses, and gains
_FELT_UM2 = 250_000.0  # lumps of half a millimetre, as the paper-maker's felt leaves them
_FELT = 0.004
_PATCH = 256


def on_paper(
    plate: NDArray[np.uint8], printing: InkAndPaper, px_per_mm: float, seed: int
) -> NDArray[np.uint8]:
    """The printed plate on its sheet: margins all round, the plate mark embossed about it.

    Parameters
    ----------
    plate : (h, w, 3) uint8, sRGB
    printing : InkAndPaper
    px_per_mm : float, > 0
    seed : int, >= 0
        Of the paper's own faint unevenness.

    Returns
    -------
    (h + 2m, w + 2m, 3) uint8, with m the margin in pixels.
    """
    height, width = plate.shape[:2]
    margin = round(printing.margin_mm * px_per_mm)
    sheet = _blank((height + 2 * margin, width + 2 * margin), printing, px_per_mm, seed)
    reach = min(margin, max(1, round(BEVEL_MM * px_per_mm)))
    top, left = margin - reach, margin - reach
    bottom, right = margin + height, margin + width
    for rows, columns in (
        (slice(top, margin), slice(left, right + reach)),
        (slice(bottom, bottom + reach), slice(left, right + reach)),
        (slice(margin, bottom), slice(left, margin)),
        (slice(margin, bottom), slice(right, right + reach)),
    ):
        down = _outside(np.arange(rows.start, rows.stop), margin, bottom)[:, None]
        across = _outside(np.arange(columns.start, columns.stop), margin, right)[None, :]
        light = luminance_of(printing.paper) * (1.0 + _slope(down, across, reach))
        colours = linear_colour_of(np.clip(light, 0.0, 1.0), printing.ink, printing.paper)
        sheet[rows, columns] = bytes_of(colours)
    sheet[margin:bottom, margin:right] = plate
    return sheet


def _blank(
    shape: tuple[int, int], printing: InkAndPaper, px_per_mm: float, seed: int
) -> NDArray[np.uint8]:
    """Bare paper, one small patch of it laid side by side."""
    felt = grain_field((_PATCH, _PATCH), px_per_mm, _FELT_UM2, seed)
    light = luminance_of(printing.paper) * (1.0 + _FELT * felt)
    patch = bytes_of(linear_colour_of(np.clip(light, 0.0, 1.0), printing.ink, printing.paper))
    down, across = (-(-side // _PATCH) for side in shape)
    return np.tile(patch, (down, across, 1))[: shape[0], : shape[1]]


def _outside(cells: NDArray[np.intp], first: int, past: int) -> FloatArray:
    """How far each cell's middle lies before (negative) or behind the plate's two edges."""
    middle = cells + 0.5
    distance: FloatArray = np.minimum(middle - first, 0.0) + np.maximum(middle - past, 0.0)
    return distance


def _slope(down: FloatArray, across: FloatArray, reach: int) -> FloatArray:
    """Light gained or lost by the paper where it bends down to the plate's face."""
    distance = np.maximum(np.hypot(down, across), 1e-9)
    facing = -(down * _LIGHT_FROM[0] + across * _LIGHT_FROM[1]) / distance
    bend = np.clip(1.5 * (1.0 - distance / reach), 0.0, 1.0)  # a flat bevel, a rounded lip
    return facing * bend * np.where(facing > 0.0, _SHINE, _SHADE)
