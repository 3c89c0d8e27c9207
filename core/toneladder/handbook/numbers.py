"""What is this number: a sentence about every figure that is not the etcher's own, and its source.

The figures themselves are taken from where they are used, so that the sentence cannot drift.
"""

from collections.abc import Callable, Mapping

from toneladder.handbook.explained import Explained, Source
from toneladder.handbook.numbers_of_bath import (
    curve_numbers,
    reading_numbers,
    strip_numbers,
    tank_numbers,
)
from toneladder.handbook.numbers_of_work import (
    brush_numbers,
    edition_numbers,
    line_numbers,
    order_numbers,
    pace_numbers,
    soft_numbers,
    tone_numbers,
)

__all__ = ["Explained", "Source", "every_number", "number"]

_ABOUT: Mapping[str, Callable[[], Mapping[str, Explained]]] = {
    "tones": tone_numbers,
    "brush": brush_numbers,
    "soft": soft_numbers,
    "lines": line_numbers,
    "order": order_numbers,
    "pace": pace_numbers,
    "curve": curve_numbers,
    "reading": reading_numbers,
    "strip": strip_numbers,
    "tank": tank_numbers,
    "edition": edition_numbers,
}


def number(name: str) -> Explained:
    """What the number of that name means, and where it comes from.

    Parameters
    ----------
    name : str
        What it is about and which it is, such as ``pace.fill_cm2_per_min``.

    Raises
    ------
    KeyError
        Nothing is called so.
    """
    about, _, which = name.partition(".")
    return _ABOUT[about]()[which]


def every_number() -> dict[str, Explained]:
    """All of them by their names, in the order of the handbook."""
    return {
        f"{about}.{which}": explained
        for about, those in _ABOUT.items()
        for which, explained in those().items()
    }
