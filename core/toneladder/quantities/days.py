"""Days of the calendar, as people write them."""

import re
from datetime import date

from toneladder.quantities.typed import clean, unreadable

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
    plain = clean(text, _EXAMPLE)
    if found := _ISO.fullmatch(plain):
        year, month, day = found.groups()
    elif found := _DOTTED.fullmatch(plain):
        day, month, year = found.groups()
    else:
        raise unreadable(text, _EXAMPLE)
    try:
        return date(int(year), int(month), int(day)).isoformat()
    except ValueError as fault:
        raise unreadable(text, _EXAMPLE) from fault
