"""What is likely of prints before any patch is read: how much one bite tells about another."""

import numpy as np

from toneladder.bite.fitting.doubt import Places, covariance
from toneladder.bite.fitting.likely_curves import likely_curves
from toneladder.bite.fitting.plate_scatter import first_law
from toneladder.bite.fitting.values import Scatter, Session
from toneladder.bite.values import Conditions
from toneladder.optics import FloatArray

_NO_BITE_S = 1e-6


def covariance_beforehand(conditions: Conditions, bites_s: FloatArray) -> FloatArray:
    """Covariance (CIE L* squared) of what total bites print, before a strip was bitten.

    Parameters
    ----------
    conditions : Conditions
        Metal, bath and ground.
    bites_s : (n,) array, seconds, >= 0
        Total bites of one strip.

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
    likely = np.exp(np.tile(curves.log_likely, rows))
    likely /= likely.sum()
    log_bites = np.log(np.maximum(bites_s, _NO_BITE_S))
    depths = np.tile(curves.log_rates, rows)[:, None] + log_bites
    printed, slopes = curves.at(np.repeat(np.arange(rows), rates), depths)
    mean = likely @ printed
    apart = printed - mean
    session = np.zeros(len(bites_s), dtype=np.intp)
    places = Places(bites_s, session, mean, likely @ slopes)
    law = first_law((Session(()),), 0, Scatter())
    return np.asarray(apart.T @ (likely[:, None] * apart) + covariance(places, places, law))
