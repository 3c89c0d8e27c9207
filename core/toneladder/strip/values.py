"""A test strip: patches of known total bite, and everything that makes them this strip's."""

from dataclasses import dataclass
from enum import StrEnum

from toneladder.bite.session import Patch, Session
from toneladder.bite.today import USUAL_Q
from toneladder.bite.values import Conditions

__all__ = [
    "CheckPatch",
    "Dryness",
    "Edge",
    "Evidence",
    "MarginStrip",
    "Means",
    "Patch",
    "Session",
    "Strip",
    "Vessel",
    "Wiping",
]


class Dryness(StrEnum):
    """How the print was when it was read; ink and paper dry to another tone."""

    DRY = "dry"
    WET = "wet"


class Means(StrEnum):
    """What the print was read with."""

    SCAN = "scan"
    PHOTOGRAPH = "photograph"
    DENSITOMETER = "densitometer"
    GREY_SCALE = "grey scale"
    TYPED = "typed"


class Vessel(StrEnum):
    """How metal stands in the bath."""

    UPRIGHT = "upright"
    TRAY = "tray"


class Wiping(StrEnum):
    """What wipes the ink last."""

    TARLATAN = "tarlatan"
    HAND = "hand"
    PAPER = "paper"


@dataclass(frozen=True, slots=True)
class Strip:
    """A strip that was bitten, printed and read.

    The bath's temperature and movement are part of ``conditions``. Dates are ``YYYY-MM-DD`` or
    empty where nobody noted them: a strip stands for a plate grained on the same day first of
    all. ``pull`` says which print was read; ``plates_before`` how many plates and strips the
    bath had bitten by then, None if nobody counted. ``proofs`` are readings of plates bitten in
    the same bath since, oldest first.
    """

    conditions: Conditions
    patches: tuple[Patch, ...]
    dryness: Dryness = Dryness.DRY
    means: Means = Means.TYPED
    bitten_on: str = ""
    grained_on: str = ""
    pull: int = 2
    vessel: Vessel = Vessel.UPRIGHT
    wiping: Wiping = Wiping.HAND
    ink: str = ""
    paper: str = ""
    bath: str = ""
    plates_before: int | None = None
    note: str = ""
    proofs: tuple[Session, ...] = ()


@dataclass(frozen=True, slots=True)
class CheckPatch:
    """One small patch bitten today for a known time, against which the day's rate is read.

    ``bite_s`` is clock seconds, ``temperature_c`` that of the bath then, ``spread`` the standard
    deviation of the reading, CIE L*.
    """

    bite_s: float
    lightness: float
    spread: float = 1.0
    temperature_c: float = 20.0


@dataclass(frozen=True, slots=True)
class Evidence:
    """What a plate's times stand on: strips of its bath, oldest first, and the bath today.

    Without strips the times are starting points. ``q`` is the rate gained over 10 °C.
    """

    strips: tuple[Strip, ...] = ()
    check: CheckPatch | None = None
    q: float = USUAL_Q


class Edge(StrEnum):
    """An edge of the plate, as the print is seen."""

    TOP = "top"
    RIGHT = "right"
    BOTTOM = "bottom"
    LEFT = "left"


@dataclass(frozen=True, slots=True)
class MarginStrip:
    """A strip in the plate's own margin, along one edge, bitten with the plate.

    Its patches are the tones themselves, side by side, each as wide as it finds room.
    """

    edge: Edge = Edge.BOTTOM
    width_mm: float = 10.0
