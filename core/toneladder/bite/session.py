"""What was read of one strip or one proof: patches bitten together."""

from dataclasses import dataclass

USUAL_SPREAD = 0.6
"""Standard deviation of a careful reading, CIE L*: an assumption."""


@dataclass(frozen=True, slots=True)
class Patch:
    """One patch of known total bite (seconds), as it printed.

    ``lightness`` is CIE L*; ``spread`` is the standard deviation of the reading, CIE L*.
    """

    total_bite_s: float
    lightness: float
    spread: float = USUAL_SPREAD


@dataclass(frozen=True, slots=True)
class Session:
    """Patches bitten together, so that all of them share one rate: a strip, or a plate's proof.

    ``temperature_c`` is that of the bath, degrees Celsius; ``name`` is how remarks speak of it.
    """

    patches: tuple[Patch, ...]
    temperature_c: float = 20.0
    proof: bool = False
    name: str = ""
