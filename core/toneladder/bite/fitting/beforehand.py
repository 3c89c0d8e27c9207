"""What is likely of prints before any patch is read: how much one bite tells about another."""

import math

import numpy as np

from toneladder.bite.fitting.doubt import Places, covariance
from toneladder.bite.fitting.likely_curves import likely_curves
from toneladder.bite.fitting.plate_scatter import first_law
from toneladder.bite.fitting.values import Scatter, Session
from toneladder.bite.values import Conditions
from toneladder.optics import FloatArray

_NO_BITE_S = 1e-6


def covariance_beforehand(
    conditions: Conditions, bites_s: FloatArray, *, faster: float = 0.0, known: float = math.inf
) -> FloatArray:
    """Covariance (CIE L* squared) of what total bites print, before a strip was bitten.

    Parameters
    ----------
    conditions : Conditions
        Metal, bath and ground.
    bites_s : (n,) array, seconds, >= 0
        Total bites of one strip.
    faster, known : float
        If the bath is thought to be so much faster than usual, a logarithm, give or take
        ``known``.

    Returns
    -------
    (n, n) array.

    Raises
    ------
    RefusedPairError
        If metal and mordant must not meet.
    """
    curves = likely_curves(conditions)
    rows, rates = len(curves.table), len(curves.log_rates)
    apart = (curves.log_rates - np.median(curves.log_rates) - faster) / known
    likely = np.exp(np.tile(curves.log_likely - 0.5 * apart**2, rows))
    likely /= likely.sum()
    log_bites = np.log(np.maximum(bites_s, _NO_BITE_S))
    depths = np.tile(curves.log_rates, rows)[:, None] + log_bites
    printed, slopes = curves.at(np.repeat(np.arange(rows), rates), depths)
    mean = likely @ printed
    off = printed - mean
    session = np.zeros(len(bites_s), dtype=np.intp)
    places = Places(bites_s, session, mean, likely @ slopes)
    law = first_law((Session(()),), 0, Scatter())
    return np.asarray(off.T @ (likely[:, None] * off) + covariance(places, places, law))
