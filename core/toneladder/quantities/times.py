"""Lengths of bites, and times of day."""

import re
from itertools import pairwise
from math import ceil, floor

from toneladder.errors import QuantityError
from toneladder.quantities.manner import HARD_SPACE
from toneladder.quantities.typed import NUMBER, clean, number, outside, quoted, unreadable
from toneladder.wording import say

_EXAMPLE = "1 min 15 s"
_UNITS = {"h": 3600.0, "min": 60.0, "s": 1.0}
_NAMES = {
    **dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), "h"),
    **dict.fromkeys(("min", "mins", "minute", "minutes", "m"), "min"),
    **dict.fromkeys(("s", "sec", "secs", "second", "seconds"), "s"),
}
_CLOCK = re.compile(r"(?:(\d{1,4}):)?(\d{1,4}):(\d{2})")
_PART = re.compile(rf"\s*(?P<number>{NUMBER})\s*(?P<unit>[a-z]+)\.?")
_DAY_TIME = re.compile(r"(\d{1,2})\s*[:.h]\s*(\d{2})")
_QUARTERS = ("", "¼", "½", "¾")
_DASH = f"{HARD_SPACE}–{HARD_SPACE}"


def read_bite(text: str, *, least_s: float = 0.0, most_s: float = 360_000.0) -> float:
    """Seconds of a typed bite.

    Parameters
    ----------
    text : str
        ``25 s``, ``1:15`` (minutes and seconds), ``1 min 15 s``, ``1,5 min``, ``1 h 10 min``.
        A number alone is refused, since it could be minutes or seconds; 0 is not.
    least_s, most_s : float
        Bounds, both allowed.

    Raises
    ------
    QuantityError
        It cannot be read, can be read in two ways, or lies outside the bounds.
    """
    plain = clean(text, _EXAMPLE)
    clock = _CLOCK.fullmatch(plain)
    seconds = _of_clock(clock, text) if clock else _of_parts(plain, text)
    if not least_s <= seconds <= most_s:
        raise outside(text, write_bite(least_s), write_bite(most_s))
    return seconds


def read_time_of_day(text: str) -> str:
    """A typed time of day as ``HH:MM``.

    >>> read_time_of_day("9.30")
    '09:30'
    """
    found = _DAY_TIME.fullmatch(clean(text, "09:30"))
    if found is None or int(found[1]) > 23 or int(found[2]) > 59:
        raise unreadable(text, "09:30")
    return f"{int(found[1]):02}:{found[2]}"


def write_bite(seconds: float) -> str:
    """The length of a bite, to whole seconds, always with its units.

    >>> write_bite(75).split()
    ['1', 'min', '15', 's']
    """
    rest = round(seconds)
    parts: list[str] = []
    for unit, length in (("h", 3600), ("min", 60), ("s", 1)):
        amount, rest = divmod(rest, length)
        if amount or (unit == "s" and not parts):
            parts.append(f"{amount}{HARD_SPACE}{unit}")
    return HARD_SPACE.join(parts)


def write_range(low_s: float, high_s: float) -> str:
    """Two lengths of a bite between which the truth is likely to lie, rounded outwards.

    >>> write_range(76, 93).split()
    ['75', '–', '95', 's']
    >>> write_range(136, 163).split()
    ['2¼', '–', '2¾', 'min']
    """
    step = 1 if high_s < 30 else 5 if high_s <= 120 else 15 if high_s <= 600 else 60
    low, high = floor(low_s / step) * step, ceil(high_s / step) * step
    unit, written = ("s", str) if high_s <= 120 else ("min", _minutes)
    both = written(low) if low == high else f"{written(low)}{_DASH}{written(high)}"
    return f"{both}{HARD_SPACE}{unit}"


def write_time_of_day(minutes: float) -> str:
    """Minutes after midnight as the clock shows them; days pass midnight.

    >>> write_time_of_day(24 * 60 + 75)
    '01:15'
    """
    hours, rest = divmod(floor(minutes) % (24 * 60), 60)
    return f"{hours:02}:{rest:02}"


def _minutes(seconds: int) -> str:
    whole, quarter = divmod(seconds // 15, 4)
    return f"{whole or ''}{_QUARTERS[quarter]}" or "0"


def _of_clock(clock: re.Match[str], text: str) -> float:
    hours, minutes, seconds = (int(part or 0) for part in clock.groups())
    if seconds > 59 or (clock[1] and minutes > 59):
        raise unreadable(text, _EXAMPLE)
    return 3600.0 * hours + 60.0 * minutes + seconds


def _of_parts(plain: str, text: str) -> float:
    if re.fullmatch(NUMBER, plain):
        return _of_bare(number(plain, _EXAMPLE), text)
    parts: list[tuple[float, float]] = []
    at = 0
    while at < len(plain):
        found = _PART.match(plain, at)
        if found is None or found["unit"] not in _NAMES:
            raise unreadable(text, _EXAMPLE)
        parts.append((number(found["number"], _EXAMPLE), _UNITS[_NAMES[found["unit"]]]))
        at = found.end()
    for (larger, its), (smaller, unit) in pairwise(parts):
        if its <= unit or larger % 1 or smaller * unit >= its:
            raise unreadable(text, _EXAMPLE)
    return sum(amount * unit for amount, unit in parts)


def _of_bare(value: float, text: str) -> float:
    if value == 0:
        return 0.0
    raise QuantityError(
        say(
            "{typed} can be read as minutes or as seconds. Nothing was changed. "
            "Write {value:g} min or {value:g} s.",
            typed=quoted(text),
            value=value,
        )
    )
