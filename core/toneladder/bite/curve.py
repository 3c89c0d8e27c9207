"""The bite curve: printed lightness against total bite, there and back."""

import math
from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike

from toneladder.bite.print_model import BathModel, printed_lightness
from toneladder.bite.starting_points import STARTING_TEMPERATURE_C, StartingPoint, starting_point
from toneladder.bite.values import BiteCurve, Conditions, Standing
from toneladder.optics import FloatArray

NINETY_PERCENT = 1.6449
"""Standard deviations of a normal law on either side of its middle."""

BITES = 240
PRIOR_CURVES = 1500

# Scatter from plate to plate, 90 %: from memory, an assumption until repeated strips tell more.
PLATE_TIME_SCATTER = 0.20
PLATE_LIGHTNESS_SCATTER = 3.0

_WITHIN_DEEPEST = 1.0
_KNEE_S = 6.0


def starting_curve(conditions: Conditions, *, seed: int = 20) -> BiteCurve:
    """Curve of a metal, bath and ground before any strip was bitten.

    Parameters
    ----------
    conditions : Conditions
        Its temperature and strength do not change the curve, which stands at 20 °C.
    seed : int
        Of the draw of likely baths from which the band comes.

    Returns
    -------
    BiteCurve
        The line is the model at the middle of what is likely; the band holds the next plate
        nine times in ten.

    Raises
    ------
    RefusedPairError
        If metal and mordant must not meet, or nobody has published times for them.
    """
    start = starting_point(conditions)
    bites, line = _starting_line(start)
    low, high = _band(bites, start.model, np.random.default_rng(seed))
    bites_s, falling = tuple(bites.tolist()), tuple(line.tolist())
    return BiteCurve(
        bites_s=bites_s,
        lightness=falling,
        low=tuple(np.minimum(low, line).tolist()),
        high=tuple(np.maximum(high, line).tolist()),
        longest_tested_s=start.longest_tested_s,
        deepest_useful_s=deepest_useful(bites_s, falling),
        standing=Standing.UNTESTED,
        temperature_c=STARTING_TEMPERATURE_C,
        source=start.source,
    )


def deepest_at_start(conditions: Conditions) -> float:
    """``deepest_useful_s`` of the starting curve, without the work of drawing its band.

    Raises
    ------
    RefusedPairError
        As for :func:`starting_curve`.
    """
    bites, line = _starting_line(starting_point(conditions))
    return deepest_useful(tuple(bites.tolist()), tuple(line.tolist()))


def deepest_useful(bites_s: tuple[float, ...], lightness: tuple[float, ...]) -> float:
    """First total bite (seconds) within 1 L* of the darkest point of a line that never rises."""
    return _first_reaching(bites_s, lightness, lightness[-1] + _WITHIN_DEEPEST)


def lightness_at(curve: BiteCurve, total_s: ArrayLike) -> FloatArray:
    """Lightness (CIE L*) that a total bite prints.

    Parameters
    ----------
    curve : BiteCurve
        The curve.
    total_s : (...) array, seconds at the curve's own conditions, >= 0
        Total bites; past the longest tested bite nothing is known, and the last lightness stays.

    Returns
    -------
    (...) array, CIE L*.
    """
    return _line_at(curve.bites_s, curve.lightness, total_s)


def band_at(curve: BiteCurve, total_s: ArrayLike) -> tuple[FloatArray, FloatArray]:
    """Lowest and highest lightness that the next plate may print, as :func:`lightness_at`."""
    low, high = (_line_at(curve.bites_s, edge, total_s) for edge in (curve.low, curve.high))
    return low, high


def bite_for(curve: BiteCurve, lightness: float) -> float:
    """Shortest total bite (seconds at the curve's conditions) that prints ``lightness``.

    Lighter than white is no bite at all; darker than the deepest useful tone is
    ``deepest_useful_s``.
    """
    return min(bite_reaching(curve, lightness), curve.deepest_useful_s)


def bite_reaching(curve: BiteCurve, lightness: float) -> float:
    """First total bite (seconds) at which the curve has come down to ``lightness``.

    Infinite where nothing that was tested prints so dark.
    """
    return _first_reaching(curve.bites_s, curve.lightness, lightness)


def bite_range_for(curve: BiteCurve, lightness: float) -> tuple[float, float]:
    """Shortest and longest total bite (seconds) with which the next plate may print ``lightness``.

    A bite that the tested range does not hold is given as infinite: nobody knows it.
    """
    return (
        _first_reaching(curve.bites_s, curve.low, lightness),
        _first_reaching(curve.bites_s, curve.high, lightness),
    )


def _line_at(bites: tuple[float, ...], line: tuple[float, ...], total_s: ArrayLike) -> FloatArray:
    return np.asarray(np.interp(np.asarray(total_s, dtype=np.float64), bites, line))


def _first_reaching(
    bites: tuple[float, ...], falling: tuple[float, ...], lightness: float
) -> float:
    """First bite at which a line that never rises has come down to ``lightness``."""
    at = int(np.searchsorted(-np.asarray(falling), -lightness))
    if at == 0:
        return bites[0]
    if at == len(bites):
        return math.inf
    share = (falling[at - 1] - lightness) / (falling[at - 1] - falling[at])
    return bites[at - 1] + share * (bites[at] - bites[at - 1])


def _starting_line(start: StartingPoint) -> tuple[FloatArray, FloatArray]:
    bites = _bites(start.longest_tested_s)
    return bites, _never_rising(printed_lightness(bites, start.model))


def _bites(longest_s: float) -> FloatArray:
    """Total bites from 0, evenly spaced in ln(bite + 6 s)."""
    return _KNEE_S * np.expm1(np.linspace(0.0, math.log1p(longest_s / _KNEE_S), BITES))


def _never_rising(lightness: FloatArray) -> FloatArray:
    """Every value at most the one before it, along the last axis."""
    return np.minimum.accumulate(lightness, axis=-1)


def _band(
    bites: FloatArray, centre: BathModel, rng: np.random.Generator
) -> tuple[FloatArray, FloatArray]:
    """5 % and 95 % of what the next plate may print."""
    plates = _never_rising(printed_lightness(bites, _likely_baths(centre, rng)))
    plates += rng.normal(0.0, PLATE_LIGHTNESS_SCATTER / NINETY_PERCENT, (PRIOR_CURVES, 1))
    low, high = np.percentile(np.clip(plates, 0.0, 100.0), (5.0, 95.0), axis=0)
    return low, high


def _likely_baths(centre: BathModel, rng: np.random.Generator) -> BathModel:
    """``PRIOR_CURVES`` baths about ``centre``; standard deviations of logarithms, assumptions."""

    def about(value: float | FloatArray, deviation: float) -> FloatArray:
        return value * np.exp(rng.normal(0.0, deviation, (PRIOR_CURVES, 1)))

    plate = math.log1p(PLATE_TIME_SCATTER) / NINETY_PERCENT
    odds = about(np.asarray(centre.coverage) / (1.0 - np.asarray(centre.coverage)), 0.4)
    return replace(
        centre,
        rate_um_per_min=about(centre.rate_um_per_min, math.hypot(0.8, plate)),
        coverage=odds / (1.0 + odds),
        diameter_um=about(centre.diameter_um, 0.4),
        ink_strength=about(centre.ink_strength, 0.4),
        black=about(centre.black, 0.3),
        widest_gap_um=about(centre.widest_gap_um, 0.5),
    )
