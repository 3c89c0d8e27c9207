"""Several total bites in one field, as people write them after each other."""

import re
from collections.abc import Sequence

from toneladder.quantities import read_bite, write_bite

_PARTED = re.compile(r"\s*(?:;|/|,\s|\s,|\n|\band\b)\s*")


def read_bites(text: str) -> tuple[float, ...]:
    """Total bites, parted by commas, semicolons or strokes; a decimal comma has no space after it.

    Raises
    ------
    QuantityError
        One of them cannot be read.

    >>> read_bites("1,5 min, 3 min; 0:30")
    (90.0, 180.0, 30.0)
    """
    return tuple(read_bite(part) for part in _PARTED.split(text.strip()) if part)


def write_bites(bites_s: Sequence[float]) -> str:
    """The same bites, written so that ``read_bites`` reads them again.

    >>> write_bites((90.0, 180.0)).split()
    ['1', 'min', '30', 's,', '3', 'min']
    """
    return ", ".join(write_bite(bite) for bite in bites_s)
