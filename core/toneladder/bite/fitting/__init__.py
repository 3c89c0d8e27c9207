"""The bite curve from the studio's own strips and proofs."""

from toneladder.bite.fitting.fit import fit
from toneladder.bite.fitting.values import (
    FOLLOW_NEWEST,
    USUAL_SPREAD,
    Fit,
    Patch,
    Residual,
    Scatter,
    Session,
)

__all__ = ["FOLLOW_NEWEST", "USUAL_SPREAD", "Fit", "Patch", "Residual", "Scatter", "Session", "fit"]
