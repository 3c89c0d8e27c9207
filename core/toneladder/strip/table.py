"""Readings of a whole strip as a table: pasted, or a CSV file, and back."""

import csv
import io
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from toneladder.bite.fitting.values import USUAL_SPREAD, Patch
from toneladder.errors import QuantityError, StripError
from toneladder.quantities.times import read_bite, write_bite
from toneladder.strip.readings import (
    MOST_DENSITY,
    Unit,
    density_of_lightness,
    read_reading,
    read_spread,
)
from toneladder.wording import say

LONGEST_TABLE = 200_000

_BITE = "total_bite"
_SPREAD = "spread"
_FORMULA = ("=", "+", "-", "@", "\t", "\r")
_DIFFER = 1e-9


@dataclass(frozen=True, slots=True)
class BadRow:
    """A row that could not be read: its number, counted from 1, and why."""

    row: int
    reason: str


@dataclass(frozen=True, slots=True)
class Table:
    """What a table held: its patches in the order of its rows, and the rows that are not in."""

    patches: tuple[Patch, ...]
    bad: tuple[BadRow, ...]

    @property
    def sentence(self) -> str:
        """All bad rows in one sentence; empty if there are none."""
        return " ".join(
            say("Row {row}: {reason}", row=bad.row, reason=bad.reason) for bad in self.bad
        )


def read_table(text: str, unit: Unit | None = None, grey_scale: Sequence[float] = ()) -> Table:
    """Patches from a pasted table or a CSV file.

    Parameters
    ----------
    text : str
        Rows of a total bite and a reading, parted by tabs, semicolons or commas, quoted or not.
        A first row may name the columns, in any order: ``total_bite``, and ``lightness``,
        ``density`` or ``step``, and perhaps ``spread`` (of the reading, CIE L*).
    unit : Unit, optional
        What the readings are where no first row tells; lightness it is else.
    grey_scale : sequence of float
        As in :func:`read_reading`.

    Returns
    -------
    Table
        Every row is in it, as a patch or as a bad row; empty rows are neither.

    Raises
    ------
    StripError
        If it is no table at all, far too long, its columns have other names, or its readings
        may be densities and nothing says what they are.
    """
    if len(text) > LONGEST_TABLE:
        raise StripError(
            say("This table is far too long for a strip. Nothing was read. Choose another.")
        )
    rows = list(_rows(text.removeprefix("\ufeff")))
    named = _columns(rows[0][1]) if rows else None
    if named is None and rows:
        _refuse_unknown_head(rows[0][1])
    columns = named or _usual_columns(unit)
    patches: list[Patch] = []
    bad: list[BadRow] = []
    for row, cells in rows[1:] if named else rows:
        try:
            patches.append(_patch(cells, columns, grey_scale))
        except QuantityError as fault:
            bad.append(BadRow(row, str(fault)))
    if not patches and not bad:
        raise StripError(
            say(
                "There are no readings in this table. Nothing was changed. Write one row for"
                " every patch: its total bite and its lightness."
            )
        )
    if named is None and unit is None and _may_be_densities(patches):
        raise StripError(
            say(
                "These readings may be densities, and nothing says so. Nothing was changed. Write"
                " “total_bite,density” above them, or “total_bite,lightness”."
            )
        )
    return Table(tuple(patches), tuple(bad))


def _refuse_unknown_head(cells: Sequence[str]) -> None:
    """Words alone in a first row are names of columns, though others than are known."""
    if len(cells) > 1 and all(cells) and not any(map(str.isdigit, "".join(cells))):
        raise StripError(
            say(
                "The columns of this table are not known: {names}. Nothing was read. Name them"
                " total_bite, and lightness, density or step; or leave the names out.",
                names=", ".join(cell[:40] for cell in cells[:6]),
            )
        )


def write_table(patches: Sequence[Patch], unit: Unit = Unit.LIGHTNESS) -> str:
    """Patches as CSV, to be read again by :func:`read_table` or opened as a spreadsheet.

    Raises
    ------
    StripError
        If readings are asked for as steps of a grey scale, which patches do not keep.
    """
    if unit is Unit.STEP:
        raise StripError(
            say("Readings are written as lightness or as density. Nothing was written.")
        )
    spreads = any(abs(patch.spread - USUAL_SPREAD) > _DIFFER for patch in patches)
    file = io.StringIO()
    rows = csv.writer(file, lineterminator="\r\n")
    rows.writerow([_BITE, unit.value, _SPREAD] if spreads else [_BITE, unit.value])
    for patch in patches:
        reading = f"{patch.lightness:.2f}"
        if unit is Unit.DENSITY:
            reading = f"{density_of_lightness(max(patch.lightness, 0.01)):.4f}"
        cells = [_written_bite(patch.total_bite_s), reading, f"{patch.spread:g}"]
        rows.writerow([safe_cell(cell) for cell in cells[: 3 if spreads else 2]])
    return file.getvalue()


def safe_cell(text: str) -> str:
    """``text`` so that no spreadsheet takes it for a formula."""
    return f"'{text}" if text.startswith(_FORMULA) else text


def _rows(text: str) -> Iterator[tuple[int, list[str]]]:
    """Rows with anything in them, numbered as in the file."""
    first = next((line for line in text.splitlines() if line.strip()), "")
    unquoted = re.sub(r'"[^"]*"', "", first)
    parted = next((mark for mark in "\t;," if mark in unquoted), ",")
    try:
        for row, cells in enumerate(csv.reader(io.StringIO(text), delimiter=parted), start=1):
            plain = [cell.strip().removeprefix("'") for cell in cells]
            if any(plain):
                yield row, plain
    except csv.Error as fault:
        raise StripError(
            say(
                "This is no table that can be read ({reason}). Nothing was changed. Save it"
                " again as CSV.",
                reason=fault,
            )
        ) from fault


def _columns(cells: Sequence[str]) -> list[str] | None:
    """Names of the columns, if the first row holds names."""
    names = [re.sub(r"[\s_]+", "_", cell.strip().lower()) for cell in cells]
    known = {_BITE, _SPREAD, *Unit}
    readings = [name for name in names if name in set(Unit)]
    return names if _BITE in names and len(readings) == 1 and set(names) <= known else None


def _usual_columns(unit: Unit | None) -> list[str]:
    return [_BITE, (unit or Unit.LIGHTNESS).value]


def _may_be_densities(patches: Sequence[Patch]) -> bool:
    return bool(patches) and all(patch.lightness < MOST_DENSITY for patch in patches)


def _patch(cells: list[str], columns: Sequence[str], grey_scale: Sequence[float]) -> Patch:
    while len(cells) > len(columns) and not cells[-1]:
        cells = cells[:-1]
    if len(cells) > len(columns):
        raise QuantityError(
            say(
                "it has {n} columns instead of {wanted}. Put a number with a decimal comma in"
                " quotation marks, or part the columns by semicolons.",
                n=len(cells),
                wanted=len(columns),
            )
        )
    by_name = dict.fromkeys(columns, "") | dict(zip(columns, cells, strict=False))
    read_as = next(known for known in Unit if known in columns)
    if not by_name[read_as]:
        raise QuantityError(say("it has no reading beside the bite."))
    tone, spread = read_reading(by_name[read_as], read_as, grey_scale)
    if by_name.get(_SPREAD):
        spread = read_spread(by_name[_SPREAD])
    return Patch(read_bite(by_name[_BITE]), tone, spread)


def _written_bite(seconds: float) -> str:
    if seconds == round(seconds):
        return " ".join(write_bite(seconds).split())
    return f"{seconds:.3f}".rstrip("0").rstrip(".") + " s"
