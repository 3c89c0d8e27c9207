"""How somebody likes numbers written."""

from dataclasses import dataclass

HARD_SPACE = "\N{NO-BREAK SPACE}"
"""Stands between a number and its unit, so that no line breaks there."""


@dataclass(frozen=True, slots=True)
class Manner:
    """The decimal sign, inches or millimetres, degrees Fahrenheit or Celsius."""

    decimal: str = "."
    imperial: bool = False
    fahrenheit: bool = False

    def number(self, value: float, places: int) -> str:
        """``value`` with at most ``places`` decimals and no idle noughts.

        >>> Manner(decimal=",").number(1.50, 2)
        '1,5'
        """
        written = f"{value:.{places}f}"
        if "." in written:
            written = written.rstrip("0").rstrip(".")
        return ("0" if written == "-0" else written).replace(".", self.decimal)
