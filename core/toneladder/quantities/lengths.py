"""Lengths and sizes, in millimetres or inches."""

import re
from dataclasses import replace
from fractions import Fraction

from toneladder.quantities.manner import HARD_SPACE, Manner, either, written
from toneladder.quantities.typed import NUMBER, clean, number, outside, unreadable
from toneladder.wording import say

MM_PER_INCH = 25.4  # exact, by the definition of the inch

_UNITS = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": MM_PER_INCH}
_NAMES = {"inch": "in", "inches": "in", '"': "in", "″": "in", "′′": "in", "''": "in", "”": "in"}
_NAMES |= {"millimetres": "mm", "millimetre": "mm", "centimetres": "cm", "centimetre": "cm"}
_LENGTH = re.compile(rf"(?P<number>{NUMBER})\s*(?P<unit>[a-z]+|[\"″”]|′′|'')?")
_BY = re.compile(r"\s*[x×*]\s*|\s+by\s+")
_SIXTEENTH = MM_PER_INCH / 16
_FINE_MM = MM_PER_INCH / 4
"""Below this, that of a brush, thirty-seconds of an inch are written too."""

_NEAR_MM, _NEAR_SHARE = 0.1, 0.06
"""A length may be written as another one that is no farther off, in mm and as a share of it."""


def read_length(
    text: str, bare: str | None = None, *, least_mm: float = 0.01, most_mm: float = 10_000.0
) -> float:
    """Millimetres of a typed length.

    Parameters
    ----------
    text : str
        ``1.5 mm``, ``1,5mm``, ``8 1/2 in``, ``5 7/8"``, ``1.5 cm``, or a number alone.
    bare : str, optional
        Unit of a number alone: ``mm``, ``cm``, ``m`` or ``in``; the one written here if None.
    least_mm, most_mm : float
        Bounds, both allowed.

    Raises
    ------
    QuantityError
        It cannot be read, can be read in two ways, or lies outside the bounds.
    """
    example = write_length(_SIXTEENTH if written().imperial else 1.5)
    found, unit = _parted(clean(text, example), text, example)
    return _bounded(found * _UNITS[unit or bare or _written_unit()], text, least_mm, most_mm)


def read_size(
    text: str, bare: str | None = None, *, least_mm: float = 0.01, most_mm: float = 10_000.0
) -> tuple[float, float]:
    """Width and height in millimetres of a typed size.

    ``200x150mm``, ``8 × 5 7/8 in``, ``20 x 15 cm``, ``200 × 150``; a unit that is written once
    holds for both.

    Raises
    ------
    QuantityError
        As for ``read_length``.
    """
    metric = write_size(200.0, 150.0, replace(written(), imperial=False))
    inches = write_size(203.2, 152.4, replace(written(), imperial=True))
    own, other = (inches, metric) if written().imperial else (metric, inches)
    example = say("{own} or {other}", own=own, other=other)
    sides = _BY.split(clean(text, example))
    if len(sides) != 2:
        raise unreadable(text, example)
    (width, first), (height, second) = (_parted(side, text, example) for side in sides)
    width *= _UNITS[first or second or bare or _written_unit()]
    height *= _UNITS[second or first or bare or _written_unit()]
    bounds = least_mm, most_mm
    return _bounded(width, text, *bounds), _bounded(height, text, *bounds)


def write_length(mm: float, manner: Manner | None = None) -> str:
    """A length with its unit.

    >>> write_length(1.5).split()
    ['1.5', 'mm']
    """
    manner = either(manner)
    if not manner.imperial:
        return f"{manner.number(mm, 2 if mm < 10 else 1)}{HARD_SPACE}mm"
    return f"{_as_fraction(mm) or _as_decimal(mm, manner)}{HARD_SPACE}in"


def write_grain(mm: float, manner: Manner | None = None) -> str:
    """How wide a particle of grain is: micrometres, in every country.

    >>> write_grain(0.075).split()
    ['75', 'µm']
    """
    return f"{either(manner).number(1000.0 * mm, 0)}{HARD_SPACE}µm"


def write_span(mm: float, manner: Manner | None = None) -> str:
    """A length that is only known roughly: whole centimetres, or half inches.

    >>> write_span(154.0).split()
    ['15', 'cm']
    """
    manner = either(manner)
    if manner.imperial:
        halves = Fraction(round(2.0 * mm / MM_PER_INCH), 2)
        return f"{_fraction(halves)}{HARD_SPACE}in"
    return f"{manner.number(mm / 10.0, 0)}{HARD_SPACE}cm"


def write_area(mm2: float, manner: Manner | None = None) -> str:
    """A small area on the plate.

    >>> write_area(38.0).split()
    ['38', 'mm²']
    """
    manner = either(manner)
    if manner.imperial:
        return f"{manner.number(mm2 / MM_PER_INCH**2, 2)}{HARD_SPACE}in²"
    return f"{manner.number(mm2, 0)}{HARD_SPACE}mm²"


def write_painted(cm2: float, manner: Manner | None = None) -> str:
    """An area as a hand paints it.

    >>> write_painted(3.0).split()
    ['3', 'cm²']
    """
    manner = either(manner)
    if manner.imperial:
        return f"{manner.number(100.0 * cm2 / MM_PER_INCH**2, 2)}{HARD_SPACE}in²"
    return f"{manner.number(cm2, 2)}{HARD_SPACE}cm²"


def write_drawn(cm: float, manner: Manner | None = None) -> str:
    """A length as a hand draws it along a border.

    >>> write_drawn(6.0).split()
    ['6', 'cm']
    """
    manner = either(manner)
    if manner.imperial:
        return write_length(10.0 * cm, manner)
    return f"{manner.number(cm, 2)}{HARD_SPACE}cm"


def write_size(width_mm: float, height_mm: float, manner: Manner | None = None) -> str:
    """A size with its unit; both sides in inches are fractions, or neither is.

    >>> write_size(203.2, 149.225, Manner(imperial=True)).split()
    ['8', '×', '5', '7/8', 'in']
    """
    manner, by = either(manner), f"{HARD_SPACE}×{HARD_SPACE}"
    if not manner.imperial:
        width, height = (manner.number(mm, 2 if mm < 10 else 1) for mm in (width_mm, height_mm))
        return f"{width}{by}{height}{HARD_SPACE}mm"
    width, height = _as_fraction(width_mm), _as_fraction(height_mm)
    if not width or not height:
        width, height = _as_decimal(width_mm, manner), _as_decimal(height_mm, manner)
    return f"{width}{by}{height}{HARD_SPACE}in"


def _written_unit() -> str:
    return "in" if written().imperial else "mm"


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


def _as_fraction(mm: float) -> str:
    """Whole inches and a simple fraction; nothing if none is near enough."""
    for parts in (16, 32) if mm < _FINE_MM else (16,):
        nearest = Fraction(round(parts * mm / MM_PER_INCH), parts)
        off = abs(mm - float(nearest) * MM_PER_INCH)
        if nearest and off <= min(_NEAR_MM, _NEAR_SHARE * mm):
            return _fraction(nearest)
    return ""


def _fraction(inches: Fraction) -> str:
    whole, rest = divmod(inches, 1)
    return HARD_SPACE.join(str(part) for part in (whole, rest) if part) or "0"


def _as_decimal(mm: float, manner: Manner) -> str:
    """Inches in hundredths, in thousandths where a hundredth says too little."""
    inches = mm / MM_PER_INCH
    return manner.number(inches, 2 if abs(inches - round(inches, 2)) <= _NEAR_SHARE * inches else 3)
