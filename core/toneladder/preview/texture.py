"""Grain seen from too far away to tell one particle from the next."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from toneladder.optics import FloatArray
from toneladder.preview.land import inking
from toneladder.preview.values import Texture

SHADES = 256
_FARTHEST = 4.0  # standard deviations; beyond lies one cell in 16 000
_Z = np.linspace(-_FARTHEST, _FARTHEST, SHADES)
_WEIGHT = np.exp(-0.5 * _Z**2) / np.exp(-0.5 * _Z**2).sum()
_ROUNDS = 40
_CLUMPED = 0.9  # of the variation there would be if every cell were all land or all open


def grain_field(
    shape: tuple[int, int], px_per_mm: float, correlation_area_um2: float, seed: int
) -> NDArray[np.float32]:
    """Noise with the large-scale variance of a grain: its windows quieten with their area.

    The mean over a window of area A, much larger than the correlation area, has the variance
    ``correlation_area_um2 / A``. The field closes on itself at its borders, so it can be laid
    side by side.

    Parameters
    ----------
    shape : (height, width) in pixels
    px_per_mm : float, > 0
    correlation_area_um2 : float, >= 0
    seed : int, >= 0

    Returns
    -------
    (height, width) float32, mean about 0.

    References
    ----------
    [Chiu2013] ch. 3, variance of the area fraction in a window.
    """
    noise = np.random.default_rng(seed).standard_normal(shape, dtype=np.float32)
    noise *= np.float32(_loudness(px_per_mm, correlation_area_um2))
    taps = _taps(px_per_mm, correlation_area_um2)
    if len(taps) == 1:
        return noise
    for axis in (0, 1):
        reach = len(taps) // 2
        noise = sum(  # a Gaussian of the grain's own size, once along each axis
            (np.roll(noise, k - reach, axis) * tap for k, tap in enumerate(taps)),
            start=np.zeros(shape, dtype=np.float32),
        )
    return noise


def shade_numbers(
    shape: tuple[int, int], px_per_mm: float, texture: Texture, seed: int
) -> NDArray[np.uint8]:
    """Which of a tone's shades each cell takes: ``grain_field`` on the scale of ``shades``."""
    field = grain_field(shape, px_per_mm, texture.correlation_area_um2, seed)
    field *= np.float32((SHADES - 1) / (2 * _FARTHEST) / _spread(px_per_mm, texture))
    field += np.float32(SHADES / 2)
    return np.clip(field, 0, SHADES - 1, out=field).astype(np.uint8)


def shades(
    tone_lightness: Sequence[float], texture: Texture, ink_light: float, px_per_mm: float
) -> FloatArray:
    """Luminances (0..1) that a cell of each tone can take, from dark to light.

    Chosen with the frequencies of ``shade_numbers``, they have the tone's own luminance as
    their mean and the grain's variance: the square of what land and openings differ by, times
    a(1-a), times correlation area over cell area. Eaten grains are smaller, so their
    correlation area shrinks with their own area.

    Returns
    -------
    (tones, 256) array.

    References
    ----------
    [Chiu2013] ch. 3, area fraction and covariance of a Boolean model.
    """
    surface = inking(tone_lightness, texture.coverage, ink_light)
    land = np.minimum(surface.land, texture.coverage)
    eaten = np.log1p(-land) / np.log1p(-texture.coverage)
    bitten = surface.land < 1.0
    sigma = np.sqrt(land * (1.0 - land) * eaten) * _spread(px_per_mm, texture) * bitten
    share = _between(surface.land, sigma)
    opening, paper = surface.opening[:, None], surface.paper[:, None]
    return (opening + share * (paper - opening)) * surface.around[:, None]


def _between(mean: FloatArray, sigma: FloatArray) -> FloatArray:
    """Shares within 0..1, one row for each mean and standard deviation, from low to high."""
    sigma = np.minimum(sigma, _CLUMPED * np.sqrt(mean * (1.0 - mean)))
    centre, gain = mean.copy(), sigma.copy()
    for _ in range(_ROUNDS):
        share = np.clip(centre[:, None] + gain[:, None] * _Z, 0.0, 1.0)
        now = share @ _WEIGHT
        width = np.sqrt((share - now[:, None]) ** 2 @ _WEIGHT)
        free = ((share > 0.0) & (share < 1.0)) @ _WEIGHT
        centre += (mean - now) / np.maximum(free, 0.1)
        gain *= np.divide(sigma, width, out=np.ones_like(width), where=width > 0)
    return share


def _spread(px_per_mm: float, texture: Texture) -> float:
    """Standard deviation of one cell of the grain's field."""
    taps = _taps(px_per_mm, texture.correlation_area_um2)
    return _loudness(px_per_mm, texture.correlation_area_um2) * float(taps @ taps)


def _loudness(px_per_mm: float, correlation_area_um2: float) -> float:
    return float(np.sqrt(correlation_area_um2)) * px_per_mm / 1000.0


def _taps(px_per_mm: float, correlation_area_um2: float) -> NDArray[np.float32]:
    """Gaussian whose own correlation area, 4 pi sigma^2, is the grain's; [1] for fine grain."""
    sigma = max(_loudness(px_per_mm, correlation_area_um2) / np.sqrt(4.0 * np.pi), 1e-3)
    reach = int(4.0 * sigma)
    taps: NDArray[np.float32] = np.exp(
        -0.5 * (np.arange(-reach, reach + 1, dtype=np.float32) / np.float32(sigma)) ** 2
    )
    taps /= taps.sum()
    return taps
