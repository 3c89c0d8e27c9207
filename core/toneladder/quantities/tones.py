"""Darkness, as etchers speak of it; and plain numbers with a unit that is never typed."""

from toneladder.quantities.manner import Manner
from toneladder.quantities.typed import clean, number, outside

_PLAIN = Manner()


def write_darkness(lightness: float, manner: Manner = _PLAIN) -> str:
    """Darkness from 0.0 (white) to 10.0 (black) of CIE L* (0..100).

    >>> write_darkness(48.0)
    '5.2'
    """
    return f"{10.0 - lightness / 10.0:.1f}".replace(".", manner.decimal)


def read_darkness(text: str) -> float:
    """CIE L* (0..100) of a typed darkness, 0 (white) to 10 (black).

    Raises
    ------
    QuantityError
        It cannot be read, or nothing is that light or that dark.

    Examples
    --------
    >>> read_darkness("5,2")
    48.0
    """
    darkness = number(clean(text, "5.2"), "5.2")
    if not 0.0 <= darkness <= 10.0:
        raise outside(text, "0", "10")
    return round(100.0 - 10.0 * darkness, 6)


def read_number(text: str, least: float, most: float, example: str) -> float:
    """A plain number between ``least`` and ``most``.

    Raises
    ------
    QuantityError
        It cannot be read, or lies outside.

    Examples
    --------
    >>> read_number("2,5", 0.0, 10.0, "3")
    2.5
    """
    value = number(clean(text, example), example)
    if not least <= value <= most:
        raise outside(text, f"{least:g}", f"{most:g}")
    return value


def read_angle(text: str) -> float:
    """Degrees, clockwise, -360 to 360.

    Raises
    ------
    QuantityError
        It cannot be read, or lies outside.

    Examples
    --------
    >>> read_angle("-2,5°")
    -2.5
    """
    plain = clean(text, "2.5").removesuffix("°").strip()
    left = plain.startswith("-")
    value = number(plain.lstrip("+-"), "2.5")
    if value > 360.0:
        raise outside(text, "-360", "360")
    return -value if left else value


def write_number(value: float, manner: Manner = _PLAIN) -> str:
    """A plain number without idle noughts.

    >>> write_number(2.50, Manner(","))
    '2,5'
    """
    return f"{value:.4g}".replace(".", manner.decimal)
