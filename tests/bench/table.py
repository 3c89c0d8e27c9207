"""The table: a row for each thing a person does, ours and the floor beside it."""

import sys
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from tests.bench.clock import Spent

PAGE = Path(__file__).parents[2] / "DEVELOPERS.md"
START, END = "<!-- speeds -->\n", "<!-- end of speeds -->\n"


@dataclass(frozen=True, slots=True)
class Row:
    """One line: what is done, how long it takes us, and what is done beside it.

    ``goal`` says what is wanted: times the floor, or milliseconds, or megabytes, as its unit
    says. ``megabytes`` is the most memory that ours held above what was held before.
    """

    what: str
    ours: Spent
    beside: str = ""
    floor: Spent | None = None
    goal: str = ""
    megabytes: float | None = None


@dataclass(frozen=True, slots=True)
class Table:
    """A heading, the heads of the columns, cells, and what is to be said below."""

    title: str
    heads: tuple[str, ...]
    cells: tuple[tuple[str, ...], ...]
    said: tuple[str, ...] = ()


_HEADS = (
    "what",
    "ours, ms",
    "±",
    "CPU, ms",
    "beside it",
    "floor, ms",
    "×",
    "× by CPU",
    "goal",
    "MB",
)


def speeds(title: str, rows: Iterable[Row], said: tuple[str, ...] = ()) -> Table:
    """The rows as a table of times and ratios."""
    return Table(title, _HEADS, tuple(_cells(row) for row in rows), said)


def _cells(row: Row) -> tuple[str, ...]:
    ours, floor = row.ours, row.floor
    wall = cpu = floor_ms = ""
    if floor is not None:
        floor_ms = figure(floor.wall * 1e3)
        wall = figure(ours.wall / floor.wall)
        cpu = figure(ours.cpu / floor.cpu) if ours.cpu and floor.cpu else ""
    megabytes = "" if row.megabytes is None else f"{row.megabytes:.0f}"
    spread = f"{100.0 * ours.spread:.0f} %"
    return (
        row.what,
        figure(ours.wall * 1e3),
        spread,
        figure(ours.cpu * 1e3) if ours.cpu else "",
        row.beside,
        floor_ms,
        wall,
        cpu,
        row.goal,
        megabytes,
    )


def figure(number: float) -> str:
    """Three figures, or two below one.

    >>> figure(1234.5), figure(12.345), figure(0.0623)
    ('1234', '12.3', '0.062')
    """
    if abs(number) >= 100.0:
        return f"{number:.0f}"
    return f"{number:.3g}" if abs(number) >= 1.0 else f"{number:.2g}"


def printed(table: Table) -> str:
    """The table for a terminal."""
    rows = [table.heads, *table.cells]
    widths = [max(len(row[column]) for row in rows) for column in range(len(table.heads))]
    lines = [
        "  ".join(
            cell.ljust(width) if _is_words(table, column) else cell.rjust(width)
            for column, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in rows
    ]
    return "\n".join([table.title, *lines, *table.said, ""])


def markdown(table: Table) -> str:
    """The table for the page."""
    rule = ["---" if _is_words(table, column) else "---:" for column in range(len(table.heads))]
    rows = [table.heads, rule, *table.cells]
    lines = ["| " + " | ".join(row) + " |" for row in rows]
    return "\n".join([f"**{table.title}**", "", *lines, "", *table.said, *[""] * bool(table.said)])


def _is_words(table: Table, column: int) -> bool:
    return column == 0 or table.heads[column] in {"beside it", "goal"}


def write(tables: Sequence[Table], head: str) -> None:
    """Put the tables into ``DEVELOPERS.md``, between their two marks."""
    page = PAGE.read_text(encoding="utf-8")
    before, after = page.split(START)[0], page.split(END)[1]
    body = "\n".join([head, "", *(markdown(table) for table in tables)])
    PAGE.write_text(before + START + body + END + after, encoding="utf-8")


def tell(words: str) -> None:
    """Say how far the work is."""
    sys.stderr.write(f"{words}\n")
    sys.stderr.flush()
