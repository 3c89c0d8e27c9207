"""Lengths and sizes, in millimetres or inches."""

import re
from fractions import Fraction

from toneladder.quantities.manner import HARD_SPACE, Manner
from toneladder.quantities.typed import NUMBER, clean, number, outside, unreadable

MM_PER_INCH = 25.4  # exact, by the definition of the inch

_UNITS = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": MM_PER_INCH}
_NAMES = {"inch": "in", "inches": "in", '"': "in", "″": "in", "′′": "in", "''": "in", "”": "in"}
_NAMES |= {"millimetres": "mm", "millimetre": "mm", "centimetres": "cm", "centimetre": "cm"}
_LENGTH = re.compile(rf"(?P<number>{NUMBER})\s*(?P<unit>[a-z]+|[\"″”]|′′|'')?")
_BY = re.compile(r"\s*[x×*]\s*|\s+by\s+")
_SIXTEENTH = MM_PER_INCH / 16
_AS_FRACTION_MM = 0.05
_PLAIN = Manner()


def read_length(
    text: str, bare: str = "mm", *, least_mm: float = 0.01, most_mm: float = 10_000.0
) -> float:
    """Millimetres of a typed length.

    Parameters
    ----------
    text : str
        ``1.5 mm``, ``1,5mm``, ``8 1/2 in``, ``5 7/8"``, ``1.5 cm``, or a number alone.
    bare : str
        Unit of a number alone: ``mm``, ``cm``, ``m`` or ``in``.
    least_mm, most_mm : float
        Bounds, both allowed.

    Raises
    ------
    QuantityError
        It cannot be read, can be read in two ways, or lies outside the bounds.
    """
    found, unit = _parted(clean(text, "1.5 mm"), text, "1.5 mm")
    return _bounded(found * _UNITS[unit or bare], text, least_mm, most_mm)


def read_size(
    text: str, bare: str = "mm", *, least_mm: float = 0.01, most_mm: float = 10_000.0
) -> tuple[float, float]:
    """Width and height in millimetres of a typed size.

    ``200x150mm``, ``8 × 5 7/8 in``, ``20 x 15 cm``, ``200 × 150``; a unit that is written once
    holds for both.

    Raises
    ------
    QuantityError
        As for ``read_length``.
    """
    example = "200 x 150 mm"
    sides = _BY.split(clean(text, example))
    if len(sides) != 2:
        raise unreadable(text, example)
    (width, first), (height, second) = (_parted(side, text, example) for side in sides)
    width *= _UNITS[first or second or bare]
    height *= _UNITS[second or first or bare]
    bounds = least_mm, most_mm
    return _bounded(width, text, *bounds), _bounded(height, text, *bounds)


def write_length(mm: float, manner: Manner = _PLAIN) -> str:
    """A length with its unit.

    >>> write_length(1.5).split()
    ['1.5', 'mm']
    """
    return f"{_side(mm, manner)}{HARD_SPACE}{'in' if manner.imperial else 'mm'}"


def write_size(width_mm: float, height_mm: float, manner: Manner = _PLAIN) -> str:
    """A size with its unit.

    >>> write_size(203.2, 149.225, Manner(imperial=True)).split()
    ['8', '×', '5', '7/8', 'in']
    """
    by = f"{HARD_SPACE}×{HARD_SPACE}"
    return f"{_side(width_mm, manner)}{by}{write_length(height_mm, manner)}"


def _parted(plain: str, text: str, example: str) -> tuple[float, str | None]:
    found = _LENGTH.fullmatch(plain)
    if found is None:
        raise unreadable(text, example)
    unit = found["unit"]
    unit = _NAMES.get(unit, unit)
    if unit is not None and unit not in _UNITS:
        raise unreadable(text, example)
    return number(found["number"], example), unit


def _bounded(mm: float, text: str, least_mm: float, most_mm: float) -> float:
    if not least_mm <= mm <= most_mm:
        raise outside(text, write_length(least_mm), write_length(most_mm))
    return round(mm, 6)


def _side(mm: float, manner: Manner) -> str:
    if not manner.imperial:
        return manner.number(mm, 2 if mm < 10 else 1)
    sixteenths = round(mm / _SIXTEENTH)
    if sixteenths == 0 or abs(mm - sixteenths * _SIXTEENTH) > _AS_FRACTION_MM:
        inches = mm / MM_PER_INCH
        return manner.number(inches, 3 if inches < 1 else 2)
    whole, rest = divmod(Fraction(sixteenths, 16), 1)
    return " ".join(str(part) for part in (whole, rest) if part).replace(" ", HARD_SPACE)
