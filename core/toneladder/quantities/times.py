"""Lengths of bites, and times of day."""

import re
from itertools import pairwise
from math import ceil, floor

from toneladder.errors import QuantityError
from toneladder.quantities.manner import DASH, HARD_SPACE, Manner, either, written
from toneladder.quantities.typed import NUMBER, clean, number, outside, quoted, unreadable
from toneladder.wording import say

_EXAMPLE = "1 min 15 s"  # read whatever is written
_UNITS = {"h": 3600.0, "min": 60.0, "s": 1.0}
_NAMES = {
    **dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), "h"),
    **dict.fromkeys(("min", "mins", "minute", "minutes", "m"), "min"),
    **dict.fromkeys(("s", "sec", "secs", "second", "seconds"), "s"),
}
_CLOCK = re.compile(r"(?:(\d{1,4}):)?(\d{1,4}):(\d{2})")
_PART = re.compile(rf"\s*(?P<number>{NUMBER})\s*(?P<unit>[a-z]+)\.?")
_DAY_TIME = re.compile(r"(\d{1,2})\s*[:.h]\s*(\d{2})")
_IN_SECONDS, _IN_MINUTES = 120, 60  # up to the one in seconds, from the other on in minutes
_WORK = Manner()
_QUARTERS = ("", "¼", "½", "¾")
_STROKES = {"h": "h", "min": "′", "s": "″"}
_STROKED = re.compile(r"(?:(\d{1,4})\s*['′])?\s*(?:(\d{1,4}(?:[.,]\d+)?)\s*(?:[\"″”]|''|′′))?")


def read_bite(text: str, *, least_s: float = 0.0, most_s: float = 360_000.0) -> float:
    """Seconds of a typed bite.

    Parameters
    ----------
    text : str
        ``25 s``, ``1:15`` (minutes and seconds), ``1 min 15 s``, ``1,5 min``, ``1 h 10 min``,
        ``1′15″``.
        A number alone is refused, since it could be minutes or seconds; 0 is not.
    least_s, most_s : float
        Bounds, both allowed.

    Raises
    ------
    QuantityError
        It cannot be read, can be read in two ways, or lies outside the bounds.
    """
    plain = clean(text, _EXAMPLE)
    clock, stroked = _CLOCK.fullmatch(plain), _STROKED.fullmatch(plain)
    if clock:
        seconds = _of_clock(clock, text)
    else:
        seconds = _of_strokes(stroked, text) if stroked else _of_parts(plain, text)
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


def write_bite(seconds: float, manner: Manner | None = None) -> str:
    """The length of a bite, to whole seconds, always with its units.

    >>> write_bite(75).split()
    ['1', 'min', '15', 's']
    >>> write_bite(75, Manner(strokes=True))
    '1′15″'
    """
    strokes = either(manner).strokes
    rest = round(seconds)
    parts: list[str] = []
    for unit, length in (("h", 3600), ("min", 60), ("s", 1)):
        amount, rest = divmod(rest, length)
        if amount or (unit == "s" and not parts):
            parts.append(f"{amount}{_STROKES[unit] if strokes else HARD_SPACE + unit}")
    return ("" if strokes else HARD_SPACE).join(parts)


def write_minutes(minutes: float) -> str:
    """How long work takes, to whole minutes; hours from an hour on. It is never in strokes.

    >>> write_minutes(92).split()
    ['1', 'h', '32', 'min']
    """
    return write_bite(60.0 * round(minutes), _WORK) if round(minutes) else f"0{HARD_SPACE}min"


def write_between(low: str, high: str) -> str:
    """The two ends of a range, written already.

    >>> write_between("3", "5").split()
    ['3', '–', '5']
    """
    return low if low == high else f"{low}{DASH}{high}"


def write_range(low_s: float, high_s: float, manner: Manner | None = None) -> str:
    """Two lengths of a bite between which the truth is likely to lie, rounded outwards.

    Where they lie so far apart that no unit says enough of both, each has its own.

    >>> write_range(76, 93).split()
    ['75', '–', '95', 's']
    >>> write_range(136, 163).split()
    ['2¼', '–', '2¾', 'min']
    >>> write_range(22, 250).split()
    ['22', 's', '–', '4¼', 'min']
    """
    low, high = rough_range(low_s, high_s)
    if either(manner).strokes:
        return write_between(write_bite(low, manner), write_bite(high, manner))
    if high <= _IN_SECONDS:
        return f"{write_between(str(low), str(high))}{HARD_SPACE}s"
    ends = f"{_minutes(high)}{HARD_SPACE}min"
    return write_between(write_bite(low) if low < _IN_MINUTES else _minutes(low), ends)


def write_least(seconds: float, manner: Manner | None = None) -> str:
    """The lower end of a range whose upper end nobody knows, in the form that a range has.

    >>> write_least(44).split()
    ['40', 's']
    >>> write_least(98).split()
    ['1½', 'min']
    """
    low, _ = rough_range(seconds, max(seconds, _IN_SECONDS + 1.0))
    if either(manner).strokes or low < _IN_MINUTES:
        return write_bite(low, manner)
    return f"{_minutes(low)}{HARD_SPACE}min"


def rough_range(low_s: float, high_s: float) -> tuple[int, int]:
    """The ends of a range, whole seconds, each rounded outwards to what it is known to."""
    high = ceil(high_s / _rough(high_s)) * _rough(high_s)
    step = _rough(low_s)
    if high > _IN_SECONDS and low_s >= _IN_MINUTES:
        step = max(step, 15)
    return floor(low_s / step) * step, high


def write_time_of_day(minutes: float) -> str:
    """Minutes after midnight as the clock shows them; days pass midnight.

    >>> write_time_of_day(24 * 60 + 75)
    '01:15'
    """
    hours, rest = divmod(floor(minutes) % (24 * 60), 60)
    return f"{hours:02}:{rest:02}"


def _rough(seconds: float) -> int:
    """The step, seconds, to which a bite as long as this is known."""
    return 1 if seconds < 30 else 5 if seconds <= _IN_SECONDS else 15 if seconds <= 600 else 60


def _minutes(seconds: int) -> str:
    whole, quarter = divmod(seconds // 15, 4)
    return f"{whole or ''}{_QUARTERS[quarter]}" or "0"


def _of_clock(clock: re.Match[str], text: str) -> float:
    hours, minutes, seconds = (int(part or 0) for part in clock.groups())
    if seconds > 59 or (clock[1] and minutes > 59):
        raise unreadable(text, _EXAMPLE)
    return 3600.0 * hours + 60.0 * minutes + seconds


def _of_strokes(stroked: re.Match[str], text: str) -> float:
    minutes, seconds = stroked[1], stroked[2]
    rest = number(seconds, _EXAMPLE) if seconds else 0.0
    if minutes and rest >= 60.0:
        raise unreadable(text, _EXAMPLE)
    return 60.0 * int(minutes or 0) + rest


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
            "Write {value} min or {value} s.",
            typed=quoted(text),
            value=written().plain(value),
        )
    )
