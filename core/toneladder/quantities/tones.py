"""Tones, as etchers and instruments speak of them; and numbers with a unit that is never typed."""

import re

from toneladder.quantities.manner import DASH, HARD_SPACE, Manner, Scale, either
from toneladder.quantities.typed import NUMBER, clean, number, outside, unreadable
from toneladder.wording import say

_SIGNS = {Scale.DARKNESS: "", Scale.LIGHTNESS: f"L*{HARD_SPACE}", Scale.DENSITY: f"D{HARD_SPACE}"}
_TYPED = re.compile(rf"(?P<sign>l\*?|d)?\s*(?P<number>{NUMBER})(?:\s*(?P<after>l\*|d))?")
_MOST_DENSITY = 4.0


def tone_figure(lightness: float, manner: Manner | None = None) -> str:
    """A tone as a bare figure, where its scale is named beside: at a rail, in a table.

    ``lightness`` is CIE L* (0..100). Darkness and density have what an eye can tell apart.

    >>> [tone_figure(48.0, Manner(scale=scale)) for scale in Scale]
    ['5.2', '48', '0.77']
    """
    manner = either(manner)
    if manner.scale is Scale.LIGHTNESS:
        return manner.rounded(lightness, 0)
    if manner.scale is Scale.DENSITY:
        return manner.rounded(_density(lightness), 2)
    return manner.rounded(10.0 - lightness / 10.0, 1)


def tone_mark(lightness: float, manner: Manner | None = None) -> str:
    """A tone at a mark of a rail: as `tone_figure`, without idle noughts.

    >>> tone_mark(40.0), tone_mark(40.0, Manner(scale=Scale.LIGHTNESS))
    ('6', '40')
    """
    manner = either(manner)
    return tone_figure(lightness, manner).removesuffix(f"{manner.decimal}0")


def write_tone(lightness: float, manner: Manner | None = None) -> str:
    """A tone inside a sentence; only darkness goes without the sign of its scale.

    >>> [write_tone(48.0, Manner(scale=scale)).split() for scale in Scale]
    [['5.2'], ['L*', '48'], ['D', '0.77']]
    """
    manner = either(manner)
    return f"{_SIGNS[manner.scale]}{tone_figure(lightness, manner)}"


def write_tones(lighter: float, darker: float, manner: Manner | None = None) -> str:
    """Two tones between which one is likely to lie, the lighter first.

    >>> write_tones(50.0, 46.0).split()
    ['5.0', '–', '5.4']
    """
    return f"{write_tone(lighter, manner)}{DASH}{tone_figure(darker, manner)}"


def name_tone(lightness: float, manner: Manner | None = None) -> str:
    """A tone with the name of its scale.

    >>> name_tone(48.0)
    'darkness 5.2'
    """
    return say("{scale} {figure}", scale=scale_name(manner), figure=tone_figure(lightness, manner))


def scale_name(manner: Manner | None = None) -> str:
    """What the figures of tones are, beside a rail or over a column."""
    scale = either(manner).scale
    if scale is Scale.LIGHTNESS:
        return say("lightness")
    return say("density") if scale is Scale.DENSITY else say("darkness")


def write_apart(lightness: float, manner: Manner | None = None) -> str:
    """How far two tones lie apart, from their difference in CIE L*; which is lighter is not said.

    Density has no steps of its own, since one of it is many near white and few near black.

    >>> write_apart(-4.0), write_apart(0.4)
    ('0.4', '0.04')
    >>> write_apart(4.0, Manner(scale=Scale.LIGHTNESS)).split()
    ['4', 'L*']
    """
    manner, apart = either(manner), abs(lightness)
    if manner.scale is Scale.DARKNESS:
        return manner.rounded(apart / 10.0, 1 if apart >= 0.95 else 2)
    return f"{manner.rounded(apart, 0 if apart >= 0.95 else 1)}{HARD_SPACE}L*"


def name_apart(lightness: float, manner: Manner | None = None) -> str:
    """How far two tones lie apart, with the name of the scale.

    >>> name_apart(2.3)
    '0.23 of darkness'
    """
    manner, apart = either(manner), abs(lightness)
    if manner.scale is Scale.DARKNESS:
        return say("{n} of darkness", n=manner.number(apart / 10.0, 2))
    return f"{manner.number(apart, 1)}{HARD_SPACE}L*"


def read_tone(text: str, manner: Manner | None = None) -> float:
    """CIE L* (0..100) of a typed tone: with a sign, L* or D, on that scale; else on the chosen one.

    Raises
    ------
    QuantityError
        It cannot be read, or nothing is that light or that dark.

    Examples
    --------
    >>> read_tone("5,2"), read_tone("L* 48"), round(read_tone("D 0.77"))
    (48.0, 48.0, 48)
    """
    manner = either(manner)
    example = write_tone(48.0, manner)
    found = _TYPED.fullmatch(clean(text, example))
    if found is None:
        raise unreadable(text, example)
    sign = (found["sign"] or found["after"] or "").removesuffix("*")
    scale = {"l": Scale.LIGHTNESS, "d": Scale.DENSITY}.get(sign, manner.scale)
    value = number(found["number"], example)
    most = {Scale.DARKNESS: 10.0, Scale.LIGHTNESS: 100.0, Scale.DENSITY: _MOST_DENSITY}[scale]
    if not 0.0 <= value <= most:
        raise outside(text, "0", f"{most:g}")
    if scale is Scale.DENSITY:
        return _of_density(value)
    return value if scale is Scale.LIGHTNESS else round(100.0 - 10.0 * value, 6)


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
    example = example.replace(".", either(None).decimal)
    value = number(clean(text, example), example)
    if not least <= value <= most:
        raise outside(text, write_number(least), write_number(most))
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
    example = write_number(2.5)
    plain = clean(text, example).removesuffix("°").strip()
    left = plain.startswith("-")
    value = number(plain.lstrip("+-"), example)
    if value > 360.0:
        raise outside(text, "-360", "360")
    return -value if left else value


def write_number(value: float, manner: Manner | None = None) -> str:
    """A plain number without idle noughts.

    >>> write_number(2.50, Manner(","))
    '2,5'
    """
    return f"{value:.4g}".replace(".", either(manner).decimal)


def write_percent(share: float, manner: Manner | None = None) -> str:
    """A share (0..1) in whole hundredths.

    >>> write_percent(0.123).split()
    ['12', '%']
    """
    return f"{either(manner).rounded(100.0 * share, 0)}{HARD_SPACE}%"


def _density(lightness: float) -> float:
    """Reflection density of CIE L*; paper as white as white can be has none."""
    from toneladder.optics import density, luminance

    least = 10.0**-_MOST_DENSITY
    return float(density(max(luminance(lightness), least))) + 0.0


def _of_density(value: float) -> float:
    from toneladder import optics

    return round(float(optics.lightness(10.0**-value)), 6)
