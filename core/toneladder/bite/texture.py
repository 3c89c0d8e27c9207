"""How restless a ground looks: its two-point covariance, and what a window of it shows."""

import numpy as np
from numpy.typing import ArrayLike

from toneladder.bite.grain import Grain, Sizes
from toneladder.optics import FloatArray

_LAGS = 1200


def covariance(lag_um: ArrayLike, grain: Grain) -> FloatArray:
    """Share (0..1) of the plate where two points ``lag_um`` apart both lie under grain.

    References
    ----------
    [Chiu2013] ch. 3, covariance of a Boolean model.
    """
    sizes = Sizes(grain.spread)
    lag = np.asarray(lag_um, dtype=np.float64) / grain.mean_radius_um
    both = _lens(lag[..., np.newaxis], sizes.radii).sum(axis=-1)
    bare = 1.0 - np.asarray(grain.coverage, dtype=np.float64)
    shared = grain.overlap * both / (np.pi * sizes.radii**2).sum()
    return np.asarray(1.0 - 2.0 * bare + bare**2 * np.exp(shared))


def correlation_area_um2(grain: Grain) -> float:
    """Area (µm²) that varies as one piece.

    References
    ----------
    [Chiu2013] ch. 3: the covariance, less its value far away, summed over the plane, in shares
    of coverage (1 - coverage).
    """
    coverage = np.asarray(grain.coverage, dtype=np.float64)
    farthest = 2.0 * grain.mean_radius_um * Sizes(grain.spread).radii[-1]
    lag = farthest * np.linspace(0.0, 1.0, _LAGS) ** 2
    excess = covariance(lag, grain) - coverage**2
    whole = np.trapezoid(excess * 2.0 * np.pi * lag, lag)
    return float(whole / (coverage * (1.0 - coverage)))


def area_variance(window_um2: ArrayLike, grain: Grain) -> FloatArray:
    """Variance of the covered share of a window of that area (µm²), from place to place.

    Exact for windows much smaller and much larger than the correlation area; between the two a
    smooth passage.
    """
    coverage = np.asarray(grain.coverage, dtype=np.float64)
    pieces = 1.0 + np.asarray(window_um2, dtype=np.float64) / correlation_area_um2(grain)
    return np.asarray(coverage * (1.0 - coverage) / pieces)


def _lens(apart: FloatArray, radius: FloatArray) -> FloatArray:
    """Area common to two discs of one radius whose centres are ``apart``."""
    half = np.minimum(apart / (2.0 * radius), 1.0)
    return np.asarray(2.0 * radius**2 * (np.arccos(half) - half * np.sqrt(1.0 - half**2)))
