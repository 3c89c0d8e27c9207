"""A strip that is being read: rows as typed, and what else is known of it, as frozen values."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from toneladder.bite.session import USUAL_SPREAD, Patch
from toneladder.bite.values import Conditions
from toneladder.errors import ToneLadderError
from toneladder.quantities import read_bite, write_bite, written
from toneladder.strip.limits import LONGEST_LINE, MOST_PATCHES
from toneladder.strip.values import Dryness, Means, Strip, Wiping
from toneladder.wording import say

GREY_SCALE = tuple(round(0.05 + 0.15 * step, 2) for step in range(21))
"""Densities of the usual printed grey scale of 21 steps."""

_LONGEST_PIECE = 1_000_000
"""Letters that are looked at of what was pasted."""


@dataclass(frozen=True, slots=True)
class Row:
    """One patch as typed: its total bite and its reading; ``spread`` where a scan told it."""

    bite: str = ""
    reading: str = ""
    spread: float | None = None


@dataclass(frozen=True, slots=True)
class Told:
    """A row made out: its patch, or why it is none; a row without a reading is neither."""

    patch: Patch | None = None
    fault: str = ""


@dataclass(frozen=True, slots=True)
class Draft:
    """Everything about a strip that is being read.

    ``unit`` is "lightness", "density" or "step" of the grey scale.
    """

    conditions: Conditions
    rows: tuple[Row, ...]
    unit: str = "lightness"
    means: Means = Means.TYPED
    dryness: Dryness = Dryness.DRY
    bitten_on: str = ""
    grained_on: str = ""
    pull: int = 2
    wiping: Wiping = Wiping.HAND
    ink: str = ""
    paper: str = ""
    bath: str = ""
    note: str = ""

    def told(self) -> tuple[Told, ...]:
        """Every row made out."""
        return tuple(map(self._told, self.rows))

    def strip(self) -> Strip | None:
        """The strip that is on the page, if every row that has a reading can be made out."""
        told = self.told()
        patches = tuple(row.patch for row in told if row.patch is not None)
        if not patches or any(row.fault for row in told):
            return None
        return Strip(
            conditions=self.conditions,
            patches=tuple(sorted(patches, key=lambda patch: patch.total_bite_s)),
            dryness=self.dryness,
            means=self.means,
            bitten_on=self.bitten_on,
            grained_on=self.grained_on,
            pull=self.pull,
            wiping=self.wiping,
            ink=self.ink,
            paper=self.paper,
            bath=self.bath,
            note=self.note,
        )

    def with_cell(self, row: int, column: int, text: str) -> "Draft":
        """A cell typed anew; a reading typed over a scan's has the usual spread."""
        old = self.rows[row] if row < len(self.rows) else Row()
        new = Row(text, old.reading, old.spread) if column == 0 else Row(old.bite, text)
        rows = list(self.rows) + [Row()] * (row + 1 - len(self.rows))
        rows[row] = new
        return replace(self, rows=tuple(rows))

    def without(self, row: int) -> "Draft":
        """One row less."""
        return replace(self, rows=(*self.rows[:row], *self.rows[row + 1 :]))

    def pasted(self, text: str, row: int, column: int) -> "Draft":
        """Rows of a spreadsheet put in from a cell downwards; what cannot be read stays typed.

        Of more rows than any strip has patches, so many come that the strip is told to be too long.
        """
        draft = self
        lines = text[:_LONGEST_PIECE].replace("\r", "").rstrip("\n").split("\n")
        for down, line in enumerate(lines[: MOST_PATCHES + 1]):
            parted = next((mark for mark in ("\t", ";") if mark in line), None)
            cells = line.split(parted) if parted else [line]
            for across, cell in enumerate(cells[: 2 - column]):
                draft = draft.with_cell(row + down, column + across, cell.strip()[:LONGEST_LINE])
        return draft

    def bites_s(self) -> tuple[float, ...] | None:
        """Total bites of all rows, seconds; None while one of them cannot be read."""
        try:
            return tuple(read_bite(row.bite) for row in self.rows if row.bite.strip())
        except ToneLadderError:
            return None

    def with_patches(self, patches: tuple[Patch, ...], means: Means) -> "Draft":
        """The readings of a scan in place of what was typed."""
        rows = tuple(
            Row(write_bite(patch.total_bite_s), written().rounded(patch.lightness, 1), patch.spread)
            for patch in patches
        )
        return replace(self, rows=rows, unit="lightness", means=means)

    def _told(self, row: Row) -> Told:
        from toneladder.strip.readings import Unit, read_reading

        if not row.reading.strip():
            return Told()
        if not row.bite.strip():
            return Told(fault=say("This reading has no bite beside it."))
        try:
            lightness, spread = read_reading(row.reading, Unit(self.unit), GREY_SCALE)
            spread = spread if row.spread is None else row.spread
            return Told(Patch(read_bite(row.bite), lightness, spread))
        except ToneLadderError as fault:
            return Told(fault=str(fault))


def blank(conditions: Conditions, bites_s: tuple[float, ...]) -> Draft:
    """A strip that was planned with these bites and is not read yet."""
    return Draft(conditions, tuple(Row(write_bite(bite) if bite else "0") for bite in bites_s))


def draft_of(strip: Strip) -> Draft:
    """A strip that was read before, to be looked at or mended."""
    rows = tuple(
        Row(
            write_bite(patch.total_bite_s) if patch.total_bite_s else "0",
            written().rounded(patch.lightness, 1),
            None if patch.spread == USUAL_SPREAD else patch.spread,
        )
        for patch in strip.patches
    )
    return Draft(
        strip.conditions,
        rows,
        means=strip.means,
        dryness=strip.dryness,
        bitten_on=strip.bitten_on,
        grained_on=strip.grained_on,
        pull=strip.pull,
        wiping=strip.wiping,
        ink=strip.ink,
        paper=strip.paper,
        bath=strip.bath,
        note=strip.note,
    )


def open_rows(draft: Draft) -> Iterator[int]:
    """Rows that still want a reading."""
    for number, row in enumerate(draft.rows):
        if row.bite.strip() and not row.reading.strip():
            yield number
