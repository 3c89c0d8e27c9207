"""What is bitten in what, and the curve from total bite to printed lightness."""

from dataclasses import dataclass
from enum import StrEnum


class Metal(StrEnum):
    """The plate's metal."""

    COPPER = "copper"
    ZINC = "zinc"
    ALUMINIUM = "aluminium"
    STEEL = "steel"
    OTHER = "other"


class Mordant(StrEnum):
    """The biting liquid."""

    FERRIC_CHLORIDE = "ferric chloride"
    FERRIC_CITRIC = "ferric chloride with citric acid"
    COPPER_SULPHATE_SALT = "copper sulphate with salt"
    NITRIC_ACID = "nitric acid"
    OTHER = "other"


class GrainKind(StrEnum):
    """What the aquatint's resist is made of."""

    ROSIN = "rosin"
    SPRAY = "spray"


class Fineness(StrEnum):
    """How fine the grain is."""

    FINE = "fine"
    MEDIUM = "medium"
    COARSE = "coarse"


class Varnish(StrEnum):
    """The stop-out varnish."""

    SPIRIT = "spirit"
    ASPHALTUM = "asphaltum"
    ACRYLIC = "acrylic"


class Movement(StrEnum):
    """Whether the liquid moves over the plate."""

    STILL = "still"
    MOVING = "moving"


@dataclass(frozen=True, slots=True)
class Conditions:
    """The metal, its bath and its ground on the day of biting.

    ``temperature_c`` is that of the bath, degrees Celsius; ``strength`` is a label such as
    "38 °Bé", never a multiplier.
    """

    metal: Metal = Metal.COPPER
    mordant: Mordant = Mordant.FERRIC_CHLORIDE
    grain: GrainKind = GrainKind.ROSIN
    fineness: Fineness = Fineness.MEDIUM
    varnish: Varnish = Varnish.SPIRIT
    movement: Movement = Movement.STILL
    temperature_c: float = 20.0
    strength: str = ""


class Standing(StrEnum):
    """What the times of a curve rest on."""

    UNTESTED = "starting point, untested"
    STRIP = "from a strip"


@dataclass(frozen=True, slots=True)
class BiteCurve:
    """Printed lightness against total bite, with the band of doubt for the next plate.

    Four tuples of one length: ``bites_s`` rising from 0 (seconds at the curve's own
    conditions), ``lightness`` (CIE L*, never rising), and the 90 % band ``low``..``high``.
    Nothing past ``longest_tested_s`` is known; ``deepest_useful_s`` is the first bite within
    1 L* of the darkest point. ``source`` says where the times come from, ``remarks`` what a plan on
    it must say.
    """

    bites_s: tuple[float, ...]
    lightness: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]
    longest_tested_s: float
    deepest_useful_s: float
    standing: Standing
    temperature_c: float
    source: str
    remarks: tuple[str, ...] = ()
