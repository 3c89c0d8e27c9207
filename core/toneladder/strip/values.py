"""A test strip: patches of known total bite, and everything that makes them this strip's."""

from dataclasses import dataclass
from enum import StrEnum

from toneladder.bite.fitting import Patch, Session
from toneladder.bite.values import Conditions

__all__ = ["Dryness", "Means", "Patch", "Session", "Strip", "Vessel", "Wiping"]


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
    bath had bitten by then, None if nobody counted.
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
