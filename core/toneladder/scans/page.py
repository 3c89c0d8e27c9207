"""A scan as linear light: small enough to work on, and evened by its own bare paper."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from toneladder.optics import lightness, luminance
from toneladder.picture.averaging import Axis, bands
from toneladder.picture.light import WHITE, Light

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]
Raster = NDArray[np.float32]

LONGEST = 1400
"""Pixels along the longer side of the raster that is worked on."""

BARE_PAPER = 94.0
"""CIE L* of printing paper beside the plate: common practice, no source."""

_BLOCKS = 28
_NARROWING = (18.0, 9.0, 5.0, 3.0, 3.0)  # L* about the paper, round by round
_DARKEST = 1e-5


@dataclass(frozen=True, slots=True, eq=False)
class Page:
    """A scan as it is worked on.

    ``light`` is linear, 0 to 1, (height, width); ``scale`` is how many pixels of the scan one
    of its pixels is.
    """

    light: Raster
    scale: float


def page_of(light: Light, longest: int = LONGEST) -> Page:
    """The scan as a page, made smaller by means over areas where it is large."""
    height, width = light.shape
    scale = max(1.0, max(height, width) / longest)
    if scale == 1.0:
        return Page(light.astype(np.float32) / np.float32(WHITE), 1.0)
    down = Axis(0.0, scale, max(1, int(height / scale)), height)
    across = Axis(0.0, scale, max(1, int(width / scale)), width)
    small = np.empty((down.cells, across.cells), np.float32)
    for rows, band in bands(light, down, across):
        small[rows] = band
    return Page(small / np.float32(WHITE), scale)


def lamp(light: Raster, bare: BoolArray | None = None) -> Raster:
    """How bright bare paper looks at every pixel: one smooth surface under the whole page.

    Parameters
    ----------
    light : (height, width) array, 0..1
        Linear light.
    bare : (height, width) array of bool, optional
        Where the paper may be seen; everywhere if it is not said.

    Returns
    -------
    (height, width) array, above 0.
    """
    x, y, value = _blocks(light, bare)
    tone = lightness(value)
    terms = _terms(x, y)
    expected = np.full(value.shape, np.log(np.quantile(value, 0.95)))
    for width in _NARROWING:
        near = np.abs(tone - lightness(np.exp(expected))) < width
        if near.sum() < 3 * terms.shape[1]:
            break
        found, *_ = np.linalg.lstsq(terms[near], np.log(value[near]), rcond=None)
        expected = terms @ found
    else:
        rows, columns = light.shape
        grid_y, grid_x = (np.linspace(-1.0, 1.0, n, dtype=np.float64) for n in (rows, columns))
        whole = _surface(np.asarray(found), grid_x, grid_y)
        low, high = expected.min() - 0.2, expected.max() + 0.2
        return np.exp(np.clip(whole, low, high)).astype(np.float32)
    return np.full(light.shape, np.exp(expected.mean()), np.float32)


def evened(light: Raster, lamp_light: Raster, paper: float = BARE_PAPER) -> Raster:
    """The page as if the light were even and its bare paper had the lightness ``paper``."""
    return light / lamp_light * np.float32(luminance(paper))


def _blocks(light: Raster, bare: BoolArray | None) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Middles (-1 to 1) and light of the page's blocks that show paper."""
    height, width = light.shape
    side = max(1, max(height, width) // _BLOCKS)
    share = 0.7 if bare is None else 0.5  # something darker may cover half of a block
    places = []
    for top in range(0, height, side):
        for left in range(0, width, side):
            block = light[top : top + side, left : left + side]
            seen = block if bare is None else block[bare[top : top + side, left : left + side]]
            if seen.size * 4 >= block.size:
                middle = (left + block.shape[1] / 2, top + block.shape[0] / 2)
                level = max(float(np.quantile(seen, share)), _DARKEST)
                places.append((*middle, level))
    if not places:
        return _blocks(light, None)
    x, y, value = np.array(places).T
    return 2.0 * x / width - 1.0, 2.0 * y / height - 1.0, value


def _terms(x: FloatArray, y: FloatArray) -> FloatArray:
    return np.stack([np.ones_like(x), x, y, x * x, x * y, y * y], axis=1)


def _surface(factors: FloatArray, x: FloatArray, y: FloatArray) -> FloatArray:
    one, in_x, in_y, in_xx, in_xy, in_yy = (float(factor) for factor in factors)
    across = one + in_x * x + in_xx * x * x
    down = in_y * y + in_yy * y * y
    return np.asarray(across[None, :] + down[:, None] + in_xy * y[:, None] * x[None, :])
