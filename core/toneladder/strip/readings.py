"""Readings as people type them or paste them from a table, and back."""

import csv
import io
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from toneladder.bite.fitting.values import USUAL_SPREAD, Patch
from toneladder.errors import QuantityError, StripError
from toneladder.optics import density, lightness, luminance
from toneladder.quantities.times import read_bite, write_bite
from toneladder.quantities.typed import clean, number, quoted, unreadable
from toneladder.wording import say

LONGEST_TABLE = 200_000
MOST_DENSITY = 5.0

_BITE = "total_bite"
_SPREAD = "spread"
_FORMULA = ("=", "+", "-", "@", "\t", "\r")
_STEP = re.compile(r"(?:step\s*)?(\d+(?:[.,]5)?)")
_EXAMPLES = {"lightness": "63.5", "density": "0.45", "step": "7"}
_DIFFER = 1e-9


class Unit(StrEnum):
    """What a reading is given in."""

    LIGHTNESS = "lightness"
    DENSITY = "density"
    STEP = "step"


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


def lightness_of_density(reading: float) -> float:
    """CIE L* of a reflection density.

    References
    ----------
    [ISO5-3], [CIE15].
    """
    return float(lightness(10.0**-reading))


def density_of_lightness(reading: float) -> float:
    """Reflection density of a CIE L* above 0; see :func:`lightness_of_density`."""
    return float(density(luminance(reading)))


def read_reading(
    text: str, unit: Unit = Unit.LIGHTNESS, grey_scale: Sequence[float] = ()
) -> tuple[float, float]:
    """Lightness (CIE L*) of one typed reading, and the spread that goes with its unit.

    Parameters
    ----------
    text : str
        A number; for :attr:`Unit.STEP` the number of the step that matches, counted from 1,
        or a half where it lies between two.
    unit : Unit
        What the number is.
    grey_scale : sequence of float
        Densities of the etcher's own grey scale, for :attr:`Unit.STEP`.

    Raises
    ------
    QuantityError
        It cannot be read, or no print is that light or that dark.
    """
    if unit is Unit.STEP:
        return _of_step(text, grey_scale)
    example = _EXAMPLES[unit]
    value = number(clean(text, example).removesuffix(" l*"), example)
    if unit is Unit.DENSITY:
        _require_within(text, value, MOST_DENSITY)
        return lightness_of_density(value), USUAL_SPREAD
    _require_within(text, value, 100.0)
    return value, USUAL_SPREAD


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
        If it is no table at all, far too long, or its readings may be densities and nothing
        says what they are.
    """
    if len(text) > LONGEST_TABLE:
        raise StripError(
            say("This table is far too long for a strip. Nothing was read. Choose another.")
        )
    rows = list(_rows(text.removeprefix("\ufeff")))
    named = _columns(rows[0][1]) if rows else None
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


def _of_step(text: str, grey_scale: Sequence[float]) -> tuple[float, float]:
    found = _STEP.fullmatch(clean(text, _EXAMPLES["step"]))
    if found is None:
        raise unreadable(text, _EXAMPLES["step"])
    step = float(found[1].replace(",", "."))
    if not 1.0 <= step <= len(grey_scale):
        raise QuantityError(
            say(
                "{typed} is no step of a grey scale of {n} steps. Nothing was changed. Write a"
                " step it has.",
                typed=quoted(text),
                n=len(grey_scale),
            )
        )
    steps = np.arange(1.0, len(grey_scale) + 1.0)
    shades = lightness(10.0 ** -np.asarray(grey_scale, dtype=np.float64))
    near = np.interp([step - 0.5, step, step + 0.5], steps, shades)
    half_step = float(np.abs(np.diff(near)).max())
    return float(near[1]), max(half_step / 3.0**0.5, USUAL_SPREAD)  # even law of a half step


def _require_within(text: str, value: float, most: float) -> None:
    if not 0.0 <= value <= most:
        raise QuantityError(
            say(
                "{typed} is outside 0 to {most:g}. Nothing was changed. Write a value in between.",
                typed=quoted(text),
                most=most,
            )
        )


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


def _patch(
    cells: Sequence[str], columns: Sequence[str], unit: Unit | None, grey_scale: Sequence[float]
) -> Patch:
    while len(cells) > len(columns) and not cells[-1]:
        cells = cells[:-1]
    if len(cells) < 2:
        raise QuantityError(say("it has no reading beside the bite."))
    if len(cells) > len(columns):
        raise QuantityError(
            say(
                "it has {n} columns instead of {wanted}. Put a number with a decimal comma in"
                " quotation marks, or part the columns by semicolons.",
                n=len(cells),
                wanted=len(columns),
            )
        )
    by_name = dict(zip(columns, cells, strict=False))
    read_as = next(known for known in Unit if known in columns)
    tone, spread = read_reading(by_name[read_as], read_as, grey_scale)
    if by_name.get(_SPREAD):
        typed = by_name[_SPREAD]
        spread = number(clean(typed, "0.6"), "0.6")
        _require_within(typed, spread, 30.0)
    return Patch(read_bite(by_name[_BITE]), tone, spread)


def _written_bite(seconds: float) -> str:
    if seconds == round(seconds):
        return " ".join(write_bite(seconds).split())
    return f"{seconds:g} s"
