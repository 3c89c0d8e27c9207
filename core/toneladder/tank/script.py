"""A table of what happened at the tank: times, events and their values."""

import csv
import io
import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace

from toneladder.errors import TankError
from toneladder.wording import say

LONGEST_SCRIPT = 500_000
MOST_FAULTS = 5
_TIME = re.compile(r"(\d{1,3}):(\d{2})(?::(\d{2}(?:\.\d+)?))?")
_DAY_S = 24 * 3600.0


@dataclass(frozen=True, slots=True)
class Row:
    """One row, counted from 1: seconds on the table's clock, what happened, and its value."""

    row: int
    at_s: float
    word: str
    value: str = ""


def read_script(text: str, known: Collection[str]) -> tuple[Row, ...]:
    """Rows of ``time,event[,value]``, in the order of time.

    Parameters
    ----------
    text : str
        Times are ``H:MM:SS`` from the start, or times of day (``14:16``, ``14:16:05``), which
        may pass midnight. A first row of names alone may head the table.
    known : collection of str
        Events there are.

    Raises
    ------
    TankError
        Rows that cannot be read, each named with its number; or no rows at all.
    """
    if len(text) > LONGEST_SCRIPT:
        raise TankError(say("This table is far too long for a day at the tank. Nothing was read."))
    rows: list[Row] = []
    wrong: list[str] = []
    for number, cells in _cells(text, known):
        try:
            rows.append(_row(number, cells, known))
        except TankError as fault:
            wrong.append(say("Row {row}: {reason}", row=number, reason=fault))
    if wrong:
        more = say(" And {n} more.", n=len(wrong) - MOST_FAULTS) if len(wrong) > MOST_FAULTS else ""
        raise TankError(
            say(
                "{rows}{more} Nothing was worked out. Mend the table and run it again.",
                rows=" ".join(wrong[:MOST_FAULTS]),
                more=more,
            )
        )
    if not rows:
        raise TankError(
            say("There is nothing in this table. Write one row for every event: time,event,value.")
        )
    return _in_order(rows)


def are_times_of_day(rows: tuple[Row, ...]) -> bool:
    """Whether the table's clock shows the time of day, rather than the time since the start."""
    return rows[0].at_s >= 3600.0


def _cells(text: str, known: Collection[str]) -> Iterator[tuple[int, list[str]]]:
    first = next((line for line in text.splitlines() if line.strip()), "")
    parted = next((mark for mark in "\t;," if mark in first), ",")
    try:
        for number, cells in enumerate(
            csv.reader(io.StringIO(text.removeprefix("\ufeff")), delimiter=parted), start=1
        ):
            plain = [cell.strip() for cell in cells]
            if any(plain) and not (number == 1 and _is_head(plain, known)):
                yield number, plain
    except csv.Error as fault:
        raise TankError(
            say("This is no table that can be read ({reason}). Save it as CSV.", reason=fault)
        ) from fault


def _is_head(cells: Sequence[str], known: Collection[str]) -> bool:
    """Names of columns, in any language: words alone, and no event among them."""
    wordy = len(cells) > 1 and not any(map(str.isdigit, "".join(cells)))
    return wordy and not any(cell.lower() in known for cell in cells)


def _row(number: int, cells: list[str], known: Collection[str]) -> Row:
    if len(cells) < 2:
        raise TankError(say("it needs a time and an event, parted by a comma."))
    found = _TIME.fullmatch(cells[0])
    if found is None or int(found[2]) > 59 or float(found[3] or 0.0) >= 60.0:
        raise TankError(say("“{text}” is not a time such as 0:01:25.", text=cells[0][:40]))
    word = " ".join(cells[1].lower().split())
    if word not in known:
        raise TankError(
            say(
                "“{text}” is not known; it may be {known}.",
                text=cells[1][:40],
                known=", ".join(known),
            )
        )
    at = 3600.0 * int(found[1]) + 60.0 * int(found[2]) + float(found[3] or 0.0)
    return Row(number, at, word, ",".join(cells[2:]).strip().rstrip(","))


def _in_order(rows: list[Row]) -> tuple[Row, ...]:
    """Times that never fall; the time of day begins anew at midnight."""
    days = are_times_of_day(tuple(rows))
    done = [rows[0]]
    for row in rows[1:]:
        at = row.at_s
        while days and at < done[-1].at_s - _DAY_S / 2.0:
            at += _DAY_S
        if at < done[-1].at_s:
            raise TankError(
                say(
                    "Row {row}: it is earlier than the row before. Nothing was worked out. Put "
                    "the rows in the order of time.",
                    row=row.row,
                )
            )
        done.append(replace(row, at_s=at))
    return tuple(done)
