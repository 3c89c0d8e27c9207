"""What can be asked of the studio book, and what it answers; the book itself is elsewhere."""

from dataclasses import dataclass, field
from pathlib import Path

from PySide6.QtGui import QImage

from toneladder.bite.values import Conditions
from toneladder.book.values import (
    Bath,
    BathUse,
    KeptBath,
    KeptPlate,
    PlateEntry,
    ProofReading,
    Pull,
    StripLine,
)
from toneladder.order.values import Order
from toneladder.plate.values import Plate
from toneladder.strip.values import Strip

PIECE = 100
"""So many plates are read at once."""


@dataclass(frozen=True, slots=True, eq=False)
class ListPlates:
    """Plates in which all words are found; so many of them."""

    words: str = ""
    most: int = PIECE


@dataclass(frozen=True, slots=True, eq=False)
class ListBaths:
    """All baths."""


@dataclass(frozen=True, slots=True, eq=False)
class ListStrips:
    """The strips of a bath."""

    bath_id: int


@dataclass(frozen=True, slots=True, eq=False)
class KeepPlate:
    """A plate was saved; ``conditions`` are those it is bitten in."""

    entry: PlateEntry
    conditions: Conditions


@dataclass(frozen=True, slots=True, eq=False)
class KeepProof:
    """A proof of a plate was read."""

    identity: str
    proof: ProofReading


@dataclass(frozen=True, slots=True, eq=False)
class ForgetPlate:
    """A plate shall not be in the list any more."""

    identity: str


@dataclass(frozen=True, slots=True, eq=False)
class KeepBath:
    """A bath as it shall be; a new one without a number."""

    bath: Bath
    bath_id: int | None = None


@dataclass(frozen=True, slots=True, eq=False)
class RetireBath:
    """A bath bites no more."""

    bath_id: int
    today: str


@dataclass(frozen=True, slots=True, eq=False)
class GiveBath:
    """A bath as a file for a colleague."""

    bath_id: int
    path: Path


@dataclass(frozen=True, slots=True, eq=False)
class TakeIn:
    """A bath from a colleague's file, under another name if one is given."""

    path: Path
    name: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class FetchStrip:
    """One strip of a bath, for the open plate."""

    bath_id: int
    strip_id: int


@dataclass(frozen=True, slots=True, eq=False)
class KeepStrip:
    """A strip that was read, for the bath of that name, if the book has it."""

    bath: str
    strip: Strip


@dataclass(frozen=True, slots=True, eq=False)
class ReadRecord:
    """A plate's record; ``plate`` and ``order`` are those of the open plate, if it is that one."""

    identity: str
    plate: Plate | None = None
    order: Order | None = None


@dataclass(frozen=True, slots=True, eq=False)
class KeepPull:
    """A print as it shall be noted; a new one without a number."""

    identity: str
    pull: Pull
    pull_id: int | None = None


@dataclass(frozen=True, slots=True, eq=False)
class RemovePull:
    """A print shall not be noted any more."""

    pull_id: int


@dataclass(frozen=True, slots=True, eq=False)
class TakeBackUse:
    """What a stay at the tank was reckoned to have dissolved shall not count."""

    stay: str


@dataclass(frozen=True, slots=True, eq=False)
class SetAside:
    """A damaged book gets another name, so that a fresh one can be begun."""

    today: str


@dataclass(frozen=True, slots=True, eq=False)
class CopyOnceADay:
    """A copy of the book, unless there is one of today."""

    today: str


@dataclass(frozen=True, slots=True, eq=False)
class PlateLine:
    """A plate as a row: with its small picture, and whether its file is where it was."""

    kept: KeptPlate
    picture: QImage = field(repr=False)
    there: bool


@dataclass(frozen=True, slots=True, eq=False)
class Plates:
    """Plates that were found; ``more`` if there are others after them."""

    lines: tuple[PlateLine, ...]
    more: bool


@dataclass(frozen=True, slots=True, eq=False)
class BathLine:
    """A bath as a row: what it has bitten, the share of its capacity (0..1) or None, its strips."""

    kept: KeptBath
    use: BathUse
    share: float | None
    strips: int


@dataclass(frozen=True, slots=True, eq=False)
class Baths:
    """All baths of the book."""

    lines: tuple[BathLine, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Strips:
    """The strips of a bath."""

    bath_id: int
    lines: tuple[StripLine, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Fetched:
    """A strip with its bath."""

    bath: Bath
    strip: Strip


@dataclass(frozen=True, slots=True, eq=False)
class Changed:
    """Something is in the book, or out of it; ``sentence`` says what, ``bath`` which if one."""

    sentence: str = ""
    bath: KeptBath | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Damaged:
    """The book is damaged: nothing of it can be read before it is set aside."""

    sentence: str


@dataclass(frozen=True, slots=True, eq=False)
class NameTaken:
    """A colleague's bath bears the name of another one; ``name`` is free."""

    sentence: str
    path: Path
    name: str
