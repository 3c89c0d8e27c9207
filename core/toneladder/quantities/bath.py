"""Temperature and strength of a bath."""

import re
from dataclasses import replace

from toneladder.quantities.manner import HARD_SPACE, Manner, either
from toneladder.quantities.typed import NUMBER, clean, number, outside, unreadable

COLDEST_C = 0.0
WARMEST_C = 60.0
STRONGEST_BE = 60.0

_TEMPERATURE = re.compile(rf"(?P<sign>[+-]?)\s*(?P<number>{NUMBER})\s*(?:°\s*)?(?P<unit>[cf])?")
_STRENGTH = re.compile(rf"(?P<number>{NUMBER})\s*(?:°|deg|degrees)?\s*(?:b[eé]\.?|baum[eé])?")


def read_temperature(text: str, bare: str | None = None) -> float:
    """Degrees Celsius of a typed bath temperature.

    A number alone is in degrees ``bare``, "c" or "f"; as they are written here if that is None.

    >>> read_temperature("68 °F")
    20.0

    Raises
    ------
    QuantityError
        It cannot be read, or no bath is that cold or that warm (0 to 60 °C).
    """
    example = write_temperature(20.0)
    found = _TEMPERATURE.fullmatch(clean(text, example))
    if found is None:
        raise unreadable(text, example)
    degrees = number(found["number"], example) * (-1 if found["sign"] == "-" else 1)
    unit = found["unit"] or bare or ("f" if either(None).fahrenheit else "c")
    celsius = (degrees - 32.0) * 5.0 / 9.0 if unit == "f" else degrees
    if not COLDEST_C <= celsius <= WARMEST_C:
        manner = replace(either(None), fahrenheit=unit == "f")
        bounds = (write_temperature(bound, manner) for bound in (COLDEST_C, WARMEST_C))
        raise outside(text, *bounds)
    return celsius


def write_temperature(celsius: float, manner: Manner | None = None) -> str:
    """A bath temperature with its unit, to a tenth of a degree.

    >>> write_temperature(20.5).split()
    ['20.5', '°C']
    """
    manner = either(manner)
    degrees = celsius * 9.0 / 5.0 + 32.0 if manner.fahrenheit else celsius
    return f"{manner.number(degrees, 1)}{HARD_SPACE}°{'F' if manner.fahrenheit else 'C'}"


def write_warmer(celsius: float, manner: Manner | None = None) -> str:
    """By how much one bath is warmer than another, to a tenth of a degree.

    >>> write_warmer(2.0, Manner(fahrenheit=True)).split()
    ['3.6', '°F']
    """
    manner = either(manner)
    degrees = celsius * 9.0 / 5.0 if manner.fahrenheit else celsius
    return f"{manner.number(degrees, 1)}{HARD_SPACE}°{'F' if manner.fahrenheit else 'C'}"


def read_strength(text: str) -> str:
    """A typed strength in degrees Baumé as the label it stays.

    >>> read_strength("38 Be").split()
    ['38', '°Bé']
    """
    example = f"38{HARD_SPACE}°Bé"
    found = _STRENGTH.fullmatch(clean(text, example))
    if found is None:
        raise unreadable(text, example)
    strength = number(found["number"], example)
    if not 0 < strength <= STRONGEST_BE:
        raise outside(text, f"0{HARD_SPACE}°Bé", f"{STRONGEST_BE:g}{HARD_SPACE}°Bé")
    return f"{Manner().number(strength, 1)}{HARD_SPACE}°Bé"
