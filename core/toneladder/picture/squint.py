"""Squinting, and lightness: what the eye makes of light."""

from collections.abc import Sequence
from math import ceil

import numpy as np
from numpy.typing import NDArray

from toneladder.optics import lightness

LIGHTNESS_FULL = 65535
"""The 16-bit number that stands for L* 100."""

_TOO_LITTLE = 0.3
_REACH = 4.0  # standard deviations
_BAND = 64


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
