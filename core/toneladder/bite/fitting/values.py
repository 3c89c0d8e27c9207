"""What was read from strips and proofs, and what a fit makes of it."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from toneladder.bite.curve import PLATE_LIGHTNESS_SCATTER, PLATE_TIME_SCATTER
from toneladder.bite.session import USUAL_SPREAD, Patch, Session
from toneladder.bite.values import BiteCurve

__all__ = [
    "FOLLOW_NEWEST",
    "USUAL_SPREAD",
    "USUAL_WANDERING",
    "BoolArray",
    "Fit",
    "IntArray",
    "Patch",
    "Residual",
    "Scatter",
    "Session",
]

IntArray = NDArray[np.intp]
BoolArray = NDArray[np.bool_]

USUAL_WANDERING = 0.1
"""Of a bath from one session to the next: an assumption."""

FOLLOW_NEWEST = 100.0
"""Wandering of a bath that is known to have changed since the session before."""


@dataclass(frozen=True, slots=True)
class Scatter:
    """How far a plate strays from its strip, nine times in ten.

    ``time`` is a share of the bite (0.2: 20 % longer or shorter), ``lightness`` is CIE L*.
    ``learnt_from`` counts the sessions that told: with fewer than two it is an assumption.
    ``wandering`` is how much the bath itself changes from one session to the next, as a share
    of the variance of a plate's own luck; with :data:`FOLLOW_NEWEST` a plan stands on the
    newest session alone.
    """

    time: float = PLATE_TIME_SCATTER
    lightness: float = PLATE_LIGHTNESS_SCATTER
    learnt_from: int = 0
    wandering: float = USUAL_WANDERING


@dataclass(frozen=True, slots=True)
class Residual:
    """A patch against the curve of its own session.

    ``session`` counts from 0; ``expected`` is the lightness (CIE L*) that all patches together
    lead to; ``doubtful`` is how likely (0..1) the reading is a bad one.
    """

    session: int
    patch: Patch
    expected: float
    doubtful: float

    @property
    def difference(self) -> float:
        """Reading less expectation, CIE L*; positive is lighter."""
        return self.patch.lightness - self.expected


@dataclass(frozen=True, slots=True)
class Fit:
    """What sessions of one bath say together.

    ``curve`` stands for the next plate at the newest session's temperature. ``line`` goes with
    its bites as the print is expected to look, also where two or more patches show that it
    gets lighter again past the darkest point; ``curve.lightness`` never rises. ``rates`` has
    how fast each session was (1: as the next plate is expected to be).
    """

    curve: BiteCurve
    line: tuple[float, ...]
    residuals: tuple[Residual, ...]
    rates: tuple[float, ...]
    scatter: Scatter
    remarks: tuple[str, ...]
