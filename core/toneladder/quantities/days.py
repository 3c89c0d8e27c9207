"""Days of the calendar, as people write them."""

import re
from datetime import date

from toneladder.quantities.typed import clean, unreadable
from toneladder.wording import say

_EXAMPLE = "2026-03-15"
_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
_DOTTED = re.compile(r"(\d{1,2})\.\s*(\d{1,2})\.\s*(\d{4})")


def read_day(text: str) -> str:
    """A day as ``YYYY-MM-DD``: typed so, or day first with dots; empty where nothing is typed.

    A day with strokes is refused: which comes first, day or month, nobody can tell.

    Raises
    ------
    QuantityError
        It is no day.

    Examples
    --------
    >>> read_day("15. 3. 2026")
    '2026-03-15'
    """
    if not text.strip():
        return ""
    plain = clean(text, write_day(_EXAMPLE))
    if found := _ISO.fullmatch(plain):
        year, month, day = found.groups()
    elif found := _DOTTED.fullmatch(plain):
        day, month, year = found.groups()
    else:
        raise unreadable(text, write_day(_EXAMPLE))
    try:
        return date(int(year), int(month), int(day)).isoformat()
    except ValueError as fault:
        raise unreadable(text, write_day(_EXAMPLE)) from fault


def write_day(day: str) -> str:
    """A kept day in figures, as the language writes them; `read_day` reads it again.

    What is no day is left as it is, empty where nobody noted one.

    >>> write_day("2026-03-15"), write_day("")
    ('2026-03-15', '')
    """
    found = _ISO.fullmatch(day)
    if found is None:
        return day
    year, month, number = found.groups()
    return say("{year}-{month}-{day}", year=year, month=month, day=number)
