"""What the studio book holds: baths, strips, plates, prints, and what happened at the tank.

Days are written ``YYYY-MM-DD`` and are empty where nobody noted them. Moments end in ``utc_s``
(seconds since 1970, UTC) or in ``boottime_s`` (seconds since the machine was started, also
through its sleep).
"""

from dataclasses import dataclass
from enum import StrEnum

from toneladder.bite.today import USUAL_Q
from toneladder.bite.values import Fineness, GrainKind, Metal, Mordant, Movement
from toneladder.strip.values import Dryness, Means, Strip, Vessel


@dataclass(frozen=True, slots=True)
class Bath:
    """One lot of a mordant, for one metal only.

    ``strength`` is a label such as "38 °Bé". ``litres`` and ``salt_g`` say what the fresh bath
    held, ``salt_g`` as in :func:`toneladder.bite.use.share_used`; None if nobody knows. ``q`` is
    the rate gained over 10 °C. A bath with ``retired_on`` bites no more, but is kept.
    """

    name: str
    metal: Metal
    mordant: Mordant
    strength: str = ""
    movement: Movement = Movement.STILL
    vessel: Vessel = Vessel.UPRIGHT
    made_on: str = ""
    litres: float | None = None
    salt_g: float | None = None
    q: float = USUAL_Q
    note: str = ""
    retired_on: str = ""


@dataclass(frozen=True, slots=True)
class KeptBath:
    """A bath and its number in the book."""

    id: int
    bath: Bath


class Bitten(StrEnum):
    """What a bath was used for."""

    PLATE = "plate"
    STRIP = "strip"
    STAY = "stay at the tank"


@dataclass(frozen=True, slots=True)
class Use:
    """One plate or strip bitten in a bath, or one stay of a plate at the tank.

    ``identity`` tells it from every other: noted twice, it counts once. ``metal_g`` is the metal
    it gave to the bath, by estimate; None if nobody reckoned it.
    """

    kind: Bitten
    identity: str
    bitten_on: str = ""
    metal_g: float | None = None


@dataclass(frozen=True, slots=True)
class BathUse:
    """What a bath has bitten: how many plates and strips, and grams of metal by estimate."""

    plates: int
    strips: int
    metal_g: float


@dataclass(frozen=True, slots=True)
class KeptStrip:
    """A strip, its number in the book, and that of its bath."""

    id: int
    bath_id: int
    strip: Strip


@dataclass(frozen=True, slots=True)
class StripLine:
    """A strip as one line of a list.

    ``patches`` and ``proofs`` are counts, ``longest_s`` is the longest total bite in seconds.
    """

    id: int
    bath_id: int
    bitten_on: str
    grained_on: str
    dryness: Dryness
    grain: GrainKind
    fineness: Fineness
    temperature_c: float
    patches: int
    longest_s: float
    proofs: int


@dataclass(frozen=True, slots=True)
class FoundStrips:
    """Strips, oldest first, and a sentence for each that is kept but cannot be read."""

    strips: tuple[KeptStrip, ...]
    unreadable: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PlateEntry:
    """A plate as the book knows it; everything else is in the plate's own file.

    ``identity`` is the same for every saving of one plate. ``path`` is where its file was last
    seen, ``tones`` their number with white, ``record`` what else a search should find.
    """

    identity: str
    title: str
    path: str
    saved_utc_s: float
    metal: Metal
    tones: int
    bath: str = ""
    paper: str = ""
    ink: str = ""
    record: str = ""


@dataclass(frozen=True, slots=True)
class KeptPlate:
    """A plate's entry; ``best_miss`` is what its best proof missed, None without such a proof."""

    plate: PlateEntry
    best_miss: float | None


@dataclass(frozen=True, slots=True)
class ProofReading:
    """What was read from a pulled proof.

    ``miss`` is the root mean square of printed less planned lightness over the tones, CIE L*.
    ``reading`` is the whole reading as JSON, ``scan`` where the scan lies.
    """

    pulled_on: str
    pull: int
    miss: float
    reading: str
    dryness: Dryness = Dryness.DRY
    means: Means = Means.SCAN
    scan: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class KeptProof:
    """A proof's reading, its number in the book, and whether it is the best of its plate."""

    id: int
    best: bool
    proof: ProofReading


class PullKind(StrEnum):
    """What a print was pulled for."""

    TRIAL = "trial proof"
    STATE = "state proof"
    TO_PRINT_BY = "proof to print by"
    EDITION = "edition print"
    ARTIST = "artist's proof"
    PRINTER = "printer's proof"
    SPOILT = "spoilt"


@dataclass(frozen=True, slots=True)
class Pull:
    """One print. ``number`` of ``edition`` is written under it, None if it bears none."""

    pulled_on: str
    kind: PullKind
    number: int | None = None
    edition: int | None = None
    paper: str = ""
    ink: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class KeptPull:
    """A print and its number in the book."""

    id: int
    pull: Pull


@dataclass(frozen=True, slots=True)
class TankSession:
    """One stay at the tank: a plate, and the order (JSON) it was begun with."""

    identity: str
    plate: str
    begun_utc_s: float
    order: str


@dataclass(frozen=True, slots=True)
class Logged:
    """One event at the tank. ``number`` counts from 0 within its session; ``detail`` is JSON.

    ``boot`` names the start of the machine from which ``boottime_s`` counts.
    """

    number: int
    kind: str
    boottime_s: float
    utc_s: float
    boot: str = ""
    detail: str = "{}"


@dataclass(frozen=True, slots=True)
class Lease:
    """Which window has a plate, and when it last said so.

    ``boot`` names one start of the machine: ``boottime_s`` can be compared within it only.
    """

    plate: str
    owner: str
    boot: str
    boottime_s: float
    utc_s: float


@dataclass(frozen=True, slots=True)
class GivenBath:
    """A bath as it is given to a colleague: with its strips, oldest first."""

    bath: Bath
    strips: tuple[Strip, ...]


@dataclass(frozen=True, slots=True)
class TakenIn:
    """What became of a bath that was taken in.

    ``new`` says whether the book had no such bath. Counts: strips that were new, strips that
    were there already, proofs that those gained.
    """

    bath_id: int
    name: str
    new: bool
    strips_new: int
    strips_known: int
    proofs_new: int
