"""Events as rows of the studio book, and back."""

import json
from collections.abc import Mapping
from typing import NamedTuple

from toneladder.errors import TankError
from toneladder.tank.values import Event, Kind, Moment
from toneladder.wording import say

_FARTHEST = 1e11
"""Seconds, and whatever else is read at a tank, from nought; three thousand years."""


class EventRow(NamedTuple):
    """One event as neutral values: number, kind, both clocks, and the rest as JSON."""

    number: int
    kind: str
    boottime_s: float
    utc_s: float
    detail: str


def event_row(event: Event) -> EventRow:
    """An event as a row; only what it carries is in the detail."""
    carried = {
        "boot": event.at.boot,
        "seconds": event.seconds,
        "reading": event.reading,
        "of": event.of,
        "text": event.text,
    }
    detail = json.dumps({key: value for key, value in carried.items() if value}, ensure_ascii=False)
    return EventRow(event.number, event.kind.value, event.at.boottime_s, event.at.utc_s, detail)


def event_from(row: EventRow) -> Event:
    """The event of a row.

    Raises
    ------
    TankError
        The kind is not known, or the detail is not what it was written as.
    """
    try:
        tree = json.loads(row.detail)
        kind = Kind(row.kind)
        return _event(row, kind, tree)
    except (ValueError, TypeError, AttributeError, RecursionError) as fault:
        raise TankError(
            say(
                "Event {number} of this session cannot be read ({reason}). The others were kept. "
                "A later version of the program may have written it.",
                number=row.number,
                reason=fault,
            )
        ) from fault


def _event(row: EventRow, kind: Kind, tree: Mapping[str, object]) -> Event:
    numbers = (row.boottime_s, row.utc_s, tree.get("seconds", 0.0), tree.get("reading", 0.0))
    if not all(abs(float(str(one))) <= _FARTHEST for one in numbers):  # nor is what is no number
        raise ValueError(row.detail)
    return Event(
        number=row.number,
        kind=kind,
        at=Moment(float(row.boottime_s), float(row.utc_s), str(tree.get("boot", ""))),
        seconds=float(str(tree.get("seconds", 0.0))),
        reading=float(str(tree.get("reading", 0.0))),
        of=int(str(tree.get("of", 0))),
        text=str(tree.get("text", "")),
    )
