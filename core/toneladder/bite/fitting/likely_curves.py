"""Curves that may turn out true, before any patch is read: many grounds and inks, tabulated once.

How fast a bath bites only shifts a curve along the logarithm of depth, so no curve is
ever worked out again for another rate.
"""

import math
from dataclasses import dataclass, replace
from functools import cache
from statistics import NormalDist

import numpy as np

from toneladder.bite.fitting.values import IntArray
from toneladder.bite.print_model import BathModel, printed_lightness
from toneladder.bite.starting_points import require_safe_pair, starting_point
from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.errors import RefusedPairError
from toneladder.optics import FloatArray

CURVES = 500
WHITE = 90.0
"""CIE L* of wiped, unbitten metal in every tabulated curve."""

# Standard deviations of logarithms, assumptions: coverage (of its odds), diameter, strength
# and blackness of the ink, opening that wiping empties; then the rate, with and without
# published times of the pair.
_DEVIATIONS = np.array([0.4, 0.4, 0.4, 0.3, 0.5])
_RATE_DEVIATION = 0.8
_UNKNOWN_RATE_DEVIATION = 1.2
_RATE_REACH = 2.4

_RISE_ONE_IN = 4
"""One curve in so many gets lighter again where the grain goes; the others stay level, as all
published strips do."""

_STEP = 0.1  # of the logarithm of depth, and of rate
_FIRST = -5.0
_COUNT = 116


@dataclass(frozen=True, slots=True, eq=False)
class LikelyCurves:
    """Curves of one kind of ground, and rates of one kind of bath.

    ``table`` is CIE L*, one row a curve, over the logarithm of depth in µm. ``log_rates`` are
    logarithms of µm per second, ``log_likely`` how likely each is.
    """

    table: FloatArray
    log_rates: FloatArray
    log_likely: FloatArray

    def at(self, which: IntArray, log_depths: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Lightness, and its slope against the logarithm of depth.

        Parameters
        ----------
        which : (k,) array of int
            Rows of the table.
        log_depths : (k, n) array
            Logarithms of depth; -inf is no depth at all.

        Returns
        -------
        Two (k, n) arrays, CIE L*.
        """
        place = np.clip((log_depths - _FIRST) / _STEP, 0.0, _COUNT - 1.001)
        below = place.astype(np.intp)
        left = which[:, None] * _COUNT + below
        flat = self.table.ravel()
        lightness = flat[left]
        rise = flat[left + 1] - lightness
        return lightness + (place - below) * rise, rise / _STEP


def likely_curves(conditions: Conditions) -> LikelyCurves:
    """Curves and rates that ``conditions`` may turn out to have.

    Raises
    ------
    RefusedPairError
        If metal and mordant must not meet. A pair without published times is no obstacle: it
        only leaves the rate wide open.
    """
    require_safe_pair(conditions.metal, conditions.mordant)
    try:
        model, deviation = starting_point(conditions).model, _RATE_DEVIATION
    except RefusedPairError:
        known = replace(conditions, metal=Metal.COPPER, mordant=Mordant.FERRIC_CHLORIDE)
        model, deviation = starting_point(known).model, _UNKNOWN_RATE_DEVIATION
    reach = math.floor(_RATE_REACH * deviation / _STEP)
    shifts = _STEP * np.arange(-reach, reach + 1.0)
    return LikelyCurves(
        table=_table(
            float(model.coverage),
            float(model.diameter_um),
            model.spread,
            float(model.ink_strength),
            float(model.black),
            float(model.widest_gap_um),
        ),
        log_rates=np.asarray(shifts + math.log(float(model.rate_um_per_min) / 60.0)),
        log_likely=np.asarray(-0.5 * (shifts / deviation) ** 2),
    )


@cache
def _table(  # one entry a ground: fineness and grain are all that changes it
    coverage: float, diameter: float, spread: float, ink: float, black: float, gap: float
) -> FloatArray:
    odds, size, strength, blackness, opening = np.exp(
        _DEVIATIONS * _even_normals(CURVES, len(_DEVIATIONS))
    ).T[:, :, None]
    odds = odds * coverage / (1.0 - coverage)
    model = BathModel(
        rate_um_per_min=60.0,  # a micrometre a second: seconds are depths
        coverage=odds / (1.0 + odds),
        diameter_um=diameter * size,
        spread=spread,
        ink_strength=ink * strength,
        black=black * blackness,
        widest_gap_um=gap * opening,
        white_lightness=WHITE,
    )
    depths = np.exp(_FIRST + _STEP * np.arange(_COUNT))
    table = printed_lightness(depths, model)
    table[:, 0] = WHITE
    level = np.arange(CURVES) % _RISE_ONE_IN > 0
    table[level] = np.minimum.accumulate(table[level], axis=1)
    table.flags.writeable = False
    return table


def _even_normals(count: int, kinds: int) -> FloatArray:
    """Normal draws that fill their space evenly and are always the same ones.

    References
    ----------
    [Kuipers1974] multiples of irrational numbers, here powers of the root of x^(d+1) = x + 1.
    """
    root = 2.0
    for _ in range(60):
        root = (1.0 + root) ** (1.0 / (kinds + 1))
    pace = root ** -np.arange(1.0, kinds + 1.0)
    shares = (0.5 + np.outer(np.arange(1, count + 1), pace)) % 1.0
    inverse = NormalDist().inv_cdf
    return np.array([[inverse(share) for share in row] for row in shares.tolist()])
