"""Squinting, and lightness: what the eye makes of light."""

from collections.abc import Sequence
from math import ceil, sqrt

import numpy as np
from numpy.typing import NDArray

from toneladder.optics import lightness
from toneladder.picture.averaging import at_pitch

LIGHTNESS_FULL = 65535
"""The 16-bit number that stands for L* 100."""

_TOO_LITTLE = 0.3
_REACH = 4.0  # standard deviations
_BAND = 64

_ROUNDS = 3
_WINDOW = 0.7  # of the box that spreads as far as the Gaussian
_FINER = 3.0  # cells to a standard deviation in which edges are looked for
_FAINT = 1.0  # L*: what changes less is no edge
_DARKEST = np.float32(1e-4)
_STEEPER = 1.5  # an edge gains no more in a round; detail would


def squint(light: NDArray[np.float32], sigma_cells: float) -> NDArray[np.float32]:
    """Let small detail go: a Gaussian in linear light.

    Parameters
    ----------
    light : (height, width) float32 array, 0..1
        Linear luminance.
    sigma_cells : float, >= 0
        Standard deviation in cells; up to 0.3 nothing is changed.

    Returns
    -------
    (height, width) float32 array, 0..1
        The edge is as if the picture went on mirrored.
    """
    if sigma_cells <= _TOO_LITTLE:
        return light
    weights = _gaussian(sigma_cells)
    across: NDArray[np.float32] = _along_columns(light.T, weights).T
    return _along_columns(across, weights)


def squint_keeping_edges(light: NDArray[np.float32], sigma_cells: float) -> NDArray[np.float32]:
    """Let small detail go, and keep large edges sharp and where they are.

    The squint is the guide of a guided filter on the picture, and the answer the next guide: what
    the squint left of an edge leads it back to its full height, what was let go stays gone.
    Where the picture is many times steeper than its guide, the guide holds a mere trace of a
    detail, and the slope is turned round. All in linear light, so that local means are kept.

    Parameters
    ----------
    light : (height, width) float32 array, 0..1
        Linear luminance.
    sigma_cells : float, >= 0
        As for :func:`squint`: dots as wide as this are gone, edges are blurred by a third of it.

    Returns
    -------
    (height, width) float32 array, 0..1.

    References
    ----------
    [He2013] guided filter; [Zhang2014] rolling guidance; the bound on the slope is ours.
    """
    if sigma_cells <= _TOO_LITTLE:
        return light
    coarser = max(1, int(sigma_cells / _FINER))
    small = at_pitch(
        light, float(coarser), (-(-len(light) // coarser), -(-light.shape[1] // coarser))
    )
    guide = squint(small, sigma_cells / coarser)
    window = max(3, round(_WINDOW * sigma_cells / coarser * sqrt(12.0)) | 1)
    level = _mean(small, window)
    for _ in range(_ROUNDS):
        guide = _guided(guide, small, level, window)
    return at_pitch(guide, 1.0 / coarser, light.shape)


def lightness16(light: NDArray[np.float32]) -> NDArray[np.uint16]:
    """CIE L* of linear luminance (0..1) as a 16-bit number, 655.35 to one L*.

    Right to 0.003 L* everywhere: the table stands over the square root of light, so that it is
    as fine in the darks as the eye.

    References
    ----------
    [CIE15] CIE 1976 lightness.
    """
    roots = np.sqrt(np.clip(light, 0.0, 1.0))
    roots *= LIGHTNESS_FULL
    roots += 0.5
    return _table().take(roots.astype(np.uint16))


def percentiles(lightness: NDArray[np.uint16], percents: Sequence[float]) -> tuple[float, ...]:
    """The L* that is not passed by so many per cent of the cells, for each of ``percents``."""
    below = np.cumsum(np.bincount(lightness.ravel(), minlength=LIGHTNESS_FULL + 1))
    wanted = np.asarray(percents) / 100.0 * below[-1]
    found = np.searchsorted(below, np.maximum(wanted, 1.0))
    return tuple(float(value) * 100.0 / LIGHTNESS_FULL for value in found)


def _guided(
    guide: NDArray[np.float32],
    light: NDArray[np.float32],
    level: NDArray[np.float32],
    window: int,
) -> NDArray[np.float32]:
    """``light``, ``level`` on average, as a line of ``guide`` in every window; the lines' mean."""
    base = _mean(guide, window)
    spread = _mean(guide * guide, window)
    spread -= base * base
    np.maximum(spread, 0.0, out=spread)
    spread += _faint(base) ** 2
    slope = _mean(guide * light, window)
    slope -= base * level
    slope /= spread
    np.maximum(slope, 0.0, out=slope)
    steep = slope > _STEEPER
    slope[steep] = _STEEPER**2 / slope[steep]
    led = _mean(slope, window) * guide
    led += _mean(level - slope * base, window)
    np.clip(led, 0.0, 1.0, out=led)
    return led


def _mean(cells: NDArray[np.float32], window: int) -> NDArray[np.float32]:
    """The mean of the square of so many cells about every cell."""
    from scipy.ndimage import uniform_filter

    averaged: NDArray[np.float32] = uniform_filter(cells, window, mode="reflect")
    return averaged


def _faint(light: NDArray[np.float32]) -> NDArray[np.float32]:
    """How much more light is seen as :data:`_FAINT`, the slope of CIE L* over luminance."""
    root: NDArray[np.float32] = np.cbrt(np.maximum(light, _DARKEST))
    root *= root
    root *= np.float32(3.0 * _FAINT / 116.0)
    return root


def _gaussian(sigma: float) -> NDArray[np.float32]:
    reach = ceil(_REACH * sigma)
    weights: NDArray[np.float64] = np.exp(-0.5 * (np.arange(-reach, reach + 1) / sigma) ** 2)
    weights /= weights.sum()
    return weights.astype(np.float32)


def _along_columns(light: NDArray[np.float32], weights: NDArray[np.float32]) -> NDArray[np.float32]:
    """Every column weighed with ``weights``: a band of rows is one matrix product."""
    reach = len(weights) // 2
    padded = np.pad(light, ((reach, reach), (0, 0)), mode="symmetric")
    matrix = np.zeros((_BAND, _BAND + 2 * reach), np.float32)
    for row in range(_BAND):
        matrix[row, row : row + len(weights)] = weights
    smooth = np.empty(light.shape, np.float32)
    for start in range(0, len(light), _BAND):
        stop = min(start + _BAND, len(light))
        taken = padded[start : stop + 2 * reach]
        np.matmul(matrix[: stop - start, : len(taken)], taken, out=smooth[start:stop])
    return smooth


def _table() -> NDArray[np.uint16]:
    roots = np.arange(LIGHTNESS_FULL + 1) / LIGHTNESS_FULL
    return np.rint(lightness(roots**2) * (LIGHTNESS_FULL / 100.0)).astype(np.uint16)
