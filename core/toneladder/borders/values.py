"""The decisions about soft passages: where the picture fades and the plate would show an edge."""

from dataclasses import dataclass
from enum import StrEnum


class Remedy(StrEnum):
    """What the trade does where a hard border would show; each has its own moment."""

    NONE = "leave the hard border"
    SPIT_BITE = "spit bite"
    CRAYON = "lithographic crayon"
    CREEPING_BITE = "creeping bite"
    BURNISH = "burnish after the proof"


@dataclass(frozen=True, slots=True)
class Remedied:
    """A remedy chosen by hand for the passage nearest to a point.

    ``x`` and ``y`` are shares of the whole picture; ``step`` is the step whose border it is.
    """

    x: float
    y: float
    step: int
    remedy: Remedy


@dataclass(frozen=True, slots=True)
class Soft:
    """Which borders are soft passages, and what is done there.

    A border is soft where the picture, as it was squinted at, changes by less than
    ``steepest`` (CIE L* per millimetre on the plate) across it, over at least ``shortest_mm``.
    """

    steepest: float = 3.0
    shortest_mm: float = 10.0
    remedies: tuple[Remedied, ...] = ()
