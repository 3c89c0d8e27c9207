"""How sessions of one bath differ: every strip and every plate has its own rate and its own wipe.

A strip is what plates are measured by. Each session strays from the bath by luck, and
the bath itself wanders a little from one session to the next. How much is an assumption at
first; every session after the first tells more.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from toneladder.bite.curve import NINETY_PERCENT
from toneladder.bite.fitting.values import Scatter, Session
from toneladder.optics import FloatArray

# Variances, a plate's own luck being 1: assumptions.
_PLATE, _STRIP = 1.0, 0.5
_TRUST = 10.0  # degrees of freedom with which the first assumption is held


@dataclass(frozen=True, slots=True, eq=False)
class SessionLaw:
    """Covariance of what sessions do, the next plate last, against the session of reference.

    ``shape`` is (s + 1, s + 1), the variance of a plate's own luck being 1; ``time`` and
    ``tone`` are that variance for the logarithm of the rate and for CIE L*. ``absolute`` is
    ``shape`` against the bath itself, which changes by ``wandering`` from session to session.
    """

    shape: FloatArray
    absolute: FloatArray
    time: float
    tone: float
    wandering: float

    @property
    def sessions(self) -> int:
        """How many sessions have been read."""
        return len(self.shape) - 1

    @property
    def widening(self) -> float:
        """What a 90 % band of the next plate's luck gains because its variance is estimated."""
        return (_student(_TRUST + self.sessions - 1) / NINETY_PERCENT) ** 2

    @property
    def luck(self) -> float:
        """Variance of the next plate, were all sessions known exactly."""
        known = self.shape[:-1, :-1]
        across = self.shape[-1, :-1]
        return float(self.shape[-1, -1] - across @ np.linalg.pinv(known, hermitian=True) @ across)

    @property
    def scatter(self) -> Scatter:
        """The same as people say it: how far a plate strays from its strip, 90 %."""
        reach = _reach(self.sessions, self.wandering)
        return Scatter(
            time=math.expm1(reach * math.sqrt(self.time)),
            lightness=reach * math.sqrt(self.tone),
            learnt_from=self.sessions if self.sessions > 1 else 0,
            wandering=self.wandering,
        )


def first_law(sessions: Sequence[Session], reference: int, scatter: Scatter) -> SessionLaw:
    """What is assumed of ``sessions`` before they are compared.

    ``reference`` counts from 0: the session whose rate and wipe the others are measured by.
    """
    own = [*(_PLATE if session.proof else _STRIP for session in sessions), _PLATE]
    order = np.arange(len(own))
    absolute = np.diag(own) + scatter.wandering * np.minimum.outer(order, order)
    column = absolute[:, [reference]]
    reach = _reach(1, scatter.wandering)
    return SessionLaw(
        shape=absolute - column - column.T + absolute[reference, reference],
        absolute=absolute,
        time=(math.log1p(scatter.time) / reach) ** 2,
        tone=(scatter.lightness / reach) ** 2,
        wandering=scatter.wandering,
    )


def learnt(assumed: float, law: SessionLaw, found: FloatArray, doubt: FloatArray) -> float:
    """Variance of a plate's own luck after the sessions were compared.

    Parameters
    ----------
    assumed : float
        The variance before.
    law : SessionLaw
        Of the sessions.
    found, doubt : (s + 1,), (s + 1, s + 1) array
        What every session did, and how well that is known.
    """
    count = law.sessions
    apart = np.eye(count) - 1.0 / count
    seen = found[:-1] @ apart @ found[:-1] + np.trace(apart @ doubt[:-1, :-1])
    per_luck = np.trace(apart @ law.absolute[:-1, :-1]) / (count - 1)
    return float((_TRUST * assumed + seen / per_luck) / (_TRUST + count - 1))


def _reach(sessions: int, wandering: float) -> float:
    """How far a plate strays from a strip, 90 %, in deviations of a plate's own luck."""
    return _student(_TRUST + sessions - 1) * math.sqrt(_PLATE + _STRIP + wandering)


def _student(freedom: float) -> float:
    """Below this a Student variable lies nineteen times in twenty.

    References
    ----------
    [AbramowitzStegun1964] 26.7.5, expansion about the normal law.
    """
    z = NINETY_PERCENT
    return (
        z
        + (z**3 + z) / (4.0 * freedom)
        + (5.0 * z**5 + 16.0 * z**3 + 3.0 * z) / (96.0 * freedom**2)
        + (3.0 * z**7 + 19.0 * z**5 + 17.0 * z**3 - 15.0 * z) / (384.0 * freedom**3)
    )
