"""How somebody likes numbers written; chosen once, like the language, and holding everywhere."""

from dataclasses import dataclass
from enum import StrEnum

HARD_SPACE = "\N{NO-BREAK SPACE}"
"""Stands between a number and its unit, so that no line breaks there."""

DASH = f"{HARD_SPACE}–{HARD_SPACE}"
"""Stands between the two ends of a range."""


class Scale(StrEnum):
    """What tones are told in: darkness 0 (white) to 10 (black), CIE L*, or reflection density."""

    DARKNESS = "darkness"
    LIGHTNESS = "lightness"
    DENSITY = "density"


@dataclass(frozen=True, slots=True)
class Manner:
    """The decimal sign, inches or millimetres, degrees Fahrenheit or Celsius; bites; tones.

    ``strokes`` writes a bite as 1′15″ instead of 1 min 15 s.
    """

    decimal: str = "."
    imperial: bool = False
    fahrenheit: bool = False
    strokes: bool = False
    scale: Scale = Scale.DARKNESS

    def number(self, value: float, places: int) -> str:
        """``value`` with at most ``places`` decimals and no idle noughts.

        >>> Manner(decimal=",").number(1.50, 2)
        '1,5'
        """
        written = f"{value:.{places}f}"
        if "." in written:
            written = written.rstrip("0").rstrip(".")
        return ("0" if written == "-0" else written).replace(".", self.decimal)

    def plain(self, value: float) -> str:
        """``value`` as short as it can be written.

        >>> Manner(decimal=",").plain(0.25)
        '0,25'
        """
        return f"{value:g}".replace(".", self.decimal)

    def rounded(self, value: float, places: int) -> str:
        """``value`` with exactly ``places`` decimals.

        >>> Manner(decimal=",").rounded(1.50, 2)
        '1,50'
        """
        return f"{value:.{places}f}".replace(".", self.decimal)


class _Hand:
    """The manner of the whole program; it is set at the start, and when somebody chooses anew."""

    manner = Manner()


def write_as(manner: Manner) -> None:
    """Write every number from now on in this manner."""
    _Hand.manner = manner


def written() -> Manner:
    """The manner that every number is written in now."""
    return _Hand.manner


def either(manner: Manner | None) -> Manner:
    """``manner``, or the one of the whole program where none is given."""
    return _Hand.manner if manner is None else manner
