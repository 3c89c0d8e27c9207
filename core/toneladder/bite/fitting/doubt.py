"""What a curve of the model may miss, as one covariance between any two readings.

The truth runs ahead of the model and behind it by turns (a warp of time, which matters
where the curve is steep and nowhere else), slows or quickens with long bites, lies a little
above or below, and starts from its own paper; and each session has its own rate and wipe.
"""

import math
from dataclasses import dataclass

import numpy as np

from toneladder.bite.fitting.plate_scatter import SessionLaw
from toneladder.bite.fitting.values import IntArray
from toneladder.optics import FloatArray

# Standard deviations and reach, assumptions.
_WARP = 0.15  # of the logarithm of time
_WARP_REACH = 1.5  # of the logarithm of time
_SLOWING = 0.14  # of the logarithm of time, for each unit of it from a minute
_AMISS = 0.3  # CIE L*, none at no bite
_PAPER = 2.5  # CIE L* of wiped, unbitten metal
_KNEE_S = 6.0
_MINUTE = math.log(60.0 + _KNEE_S)

_BLACKEST, _WHITEST = 14.0, 90.0


@dataclass(frozen=True, slots=True, eq=False)
class Places:
    """Where the curve is looked at: ``n`` bites, each in a session.

    ``bites_s`` are seconds, ``session`` counts from 0 (the next plate comes last),
    ``lightness`` (CIE L*) and ``slope`` (against the logarithm of time) are the likely curve's.
    """

    bites_s: FloatArray
    session: IntArray
    lightness: FloatArray
    slope: FloatArray

    @property
    def paper(self) -> FloatArray:
        """How much of a lighter paper shows at each place, 0..1."""
        return np.clip((self.lightness - _BLACKEST) / (_WHITEST - _BLACKEST), 0.0, 1.0)

    @property
    def begun(self) -> FloatArray:
        """0 at no bite, 1 at a long one."""
        return self.bites_s / (self.bites_s + _KNEE_S)


def covariance(here: Places, there: Places, law: SessionLaw) -> FloatArray:
    """Covariance (CIE L* squared) of the truth at ``here`` (n) and ``there`` (m), shape (n, m).

    References
    ----------
    [Rasmussen2006] ch. 4, Matérn covariance of smoothness 5/2.
    """
    near = _matern(np.subtract.outer(_axis(here), _axis(there)) / _WARP_REACH)
    together = law.shape[np.ix_(here.session, there.session)]
    slowing = _SLOWING**2 * np.outer(_axis(here) - _MINUTE, _axis(there) - _MINUTE)
    warp = (_WARP**2 * near + slowing + law.time * together) * np.outer(here.slope, there.slope)
    amiss = _AMISS**2 * near * np.outer(here.begun, there.begun)
    paper = _PAPER**2 * np.outer(here.paper, there.paper)
    return np.asarray(warp + amiss + paper + law.tone * together)


def variance(here: Places, law: SessionLaw) -> FloatArray:
    """Variance at every place, the diagonal of :func:`covariance`, shape (n,)."""
    own = np.diag(law.shape)[here.session]
    slowing = (_SLOWING * (_axis(here) - _MINUTE)) ** 2
    warp = (_WARP**2 + slowing + law.time * own) * here.slope**2
    return warp + (_AMISS * here.begun) ** 2 + (_PAPER * here.paper) ** 2 + law.tone * own


def _axis(places: Places) -> FloatArray:
    return np.log(places.bites_s + _KNEE_S)


def _matern(distance: FloatArray) -> FloatArray:
    far = np.sqrt(5.0) * np.abs(distance)
    return np.asarray((1.0 + far + far**2 / 3.0) * np.exp(-far))
