"""The record sheet: what became of a plate, to be kept with its prints."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date

import numpy as np
from numpy.typing import NDArray

from toneladder.book.record import PlateRecord
from toneladder.boxes import Box
from toneladder.lettering import Face
from toneladder.order.values import Order
from toneladder.plate.values import Plate
from toneladder.quantities import Manner
from toneladder.sheets.marks import A4, Mark, Paper, Sheet, frame, line, picture
from toneladder.sheets.order_head import Folio
from toneladder.sheets.record_words import (
    Table,
    bites_tables,
    facts,
    prints_counted,
    prints_table,
    proofs_table,
    stay_notes,
)
from toneladder.sheets.setting import (
    BODY_MM,
    HAIR_MM,
    HEADING_MM,
    RULE_MM,
    Block,
    beside,
    moved,
    paragraph,
    stacked,
)
from toneladder.sheets.true_size import MARGIN_MM
from toneladder.sheets.true_size_frame import Heading, head
from toneladder.wording import say

PICTURE_MM = 84.0
"""The longest side of the plate's picture."""

DOTS_PER_MM = 5.0
"""Dots of the picture: coarse enough for a copier. An assumption."""

_GAP_MM = 3.2
_COLUMN_GAP_MM = 3.0
_MOST_OF_WIDTH = 0.34


@dataclass(frozen=True, slots=True, eq=False)
class Told:
    """What a record sheet tells.

    ``plate`` and ``order`` are None if the plate's file is not to be had; ``grey`` is the print,
    (rows, columns) of uint8, 0 for black, or None.
    """

    record: PlateRecord
    plate: Plate | None = None
    order: Order | None = None
    grey: NDArray[np.uint8] | None = field(default=None, repr=False)


def record_sheets(
    told: Told, *, made_on: date, paper: Paper = A4, manner: Manner | None = None
) -> tuple[Sheet, ...]:
    """The record of a plate on as few pages as it needs, black alone.

    Parameters
    ----------
    told : Told
        Everything known.
    made_on : date
        The day that the sheet carries.
    paper : Paper
        The office paper, upright.
    manner : Manner
        How numbers are written.
    """
    width = paper.width_mm - 2 * MARGIN_MM
    title = " ".join(told.record.kept.plate.title.split()) or say("Untitled plate")
    folio = Folio(title, made_on, say("the picture is not true size"), width)
    room = paper.height_mm - 2 * MARGIN_MM - _head(folio, (1, 1)).height
    pages = _pages(_blocks(told, width, manner), room)
    return tuple(
        Sheet(
            paper,
            moved(stacked([_head(folio, (at, len(pages))), *page], _GAP_MM), MARGIN_MM, MARGIN_MM),
            title,
            at,
            len(pages),
        )
        for at, page in enumerate(pages, start=1)
    )


def dithered(grey: NDArray[np.uint8], width: int, height: int) -> NDArray[np.bool_]:
    """``grey`` brought to ``height`` rows of ``width`` dots, True where a dot is black."""
    from PIL import Image

    small = Image.fromarray(grey).resize((width, height), Image.Resampling.LANCZOS)
    return ~np.asarray(small.convert("1"), dtype=np.bool_)


def _head(folio: Folio, page: tuple[int, int]) -> Block:
    return head(Heading(say("Record"), say("Keep it with the prints.")), folio, page)


def _blocks(told: Told, width: float, manner: Manner | None) -> list[list[Block]]:
    """What stands below the head: groups that begin a page together, rows of tables alone."""
    record = told.record
    notes = [paragraph(text, width) for text in stay_notes(record)]
    counted = prints_counted([kept.pull for kept in record.pulls])
    return [
        [_top(told, width, manner)],
        *(
            group
            for table in bites_tables(record, told.order, manner)
            for group in _table(table, width)
        ),
        *([note] for note in notes),
        *_table(proofs_table(record, manner), width),
        *_table(prints_table(record), width),
        *([[paragraph(counted, width, Face.SANS_BOLD)]] if counted else []),
    ]


def _pages(groups: Sequence[Sequence[Block]], room: float) -> list[list[Block]]:
    """Groups one after the other; one that does not fit begins the next page."""
    pages: list[list[Block]] = [[]]
    left = room
    for group in groups:
        needed = sum(block.height + _GAP_MM for block in group)
        if needed > left and pages[-1]:
            pages.append([])
            left = room
        pages[-1].extend(group)
        left -= needed
    return pages


def _top(told: Told, width: float, manner: Manner | None) -> Block:
    """The picture, and beside it what the plate is."""
    known = facts(told.record, told.plate, manner)
    if told.grey is None:
        return _facts(known, width)
    shown = _picture(told.grey)
    return beside([shown, _facts(known, width - shown.width - 6.0)], 6.0)


def _picture(grey: NDArray[np.uint8]) -> Block:
    rows, columns = grey.shape
    scale = PICTURE_MM / max(rows, columns)
    box = Box(0.0, 0.0, columns * scale, rows * scale)
    dots = dithered(
        grey, max(1, round(box.width * DOTS_PER_MM)), max(1, round(box.height * DOTS_PER_MM))
    )
    return Block(box.width, box.height, (picture(box, dots), frame(box, HAIR_MM)))


def _facts(known: Sequence[tuple[str, str]], width: float) -> Block:
    name_width = 0.38 * width
    rows = [
        beside(
            [
                _padded(paragraph(name, name_width), name_width),
                paragraph(value, width - name_width - 2.0, Face.SANS_BOLD),
            ],
            2.0,
        )
        for name, value in known
    ]
    return stacked(rows, 1.0)


def _table(table: Table, width: float) -> list[list[Block]]:
    """The name and heads of a table with its first row, then every row."""
    name = paragraph(table.name, width, Face.SANS_BOLD, HEADING_MM)
    if not table.rows:
        return [[name, paragraph(table.empty, width, size=BODY_MM)]]
    widths = _widths(table, width)
    heads = _row(table.heads, widths, Face.SANS, RULE_MM)
    first, *rest = (_row(row, widths, Face.SANS_BOLD, HAIR_MM) for row in table.rows)
    return [[stacked([name, heads, first], 1.2)], *([row] for row in rest)]


def _widths(table: Table, width: float) -> list[float]:
    """Room of each column: as wide as its texts, the wide one what is left."""
    columns = [
        [table.heads[at], *(row[at] for row in table.rows)] for at in range(len(table.heads))
    ]
    most = _MOST_OF_WIDTH * width if len(columns) < 5 else width / len(columns)
    wanted = [
        min(max(paragraph(text, 1e4, Face.SANS_BOLD).width for text in texts), most)
        for texts in columns
    ]
    spare = width - sum(wanted) - _COLUMN_GAP_MM * (len(wanted) - 1)
    wanted[table.wide] = max(wanted[table.wide] + spare, 12.0)
    return wanted


def _row(texts: Sequence[str], widths: Sequence[float], face: Face, rule_mm: float) -> Block:
    cells = [
        _padded(paragraph(text, width, face), width)
        for text, width in zip(texts, widths, strict=True)
    ]
    row = beside(cells, _COLUMN_GAP_MM)
    foot = row.height + 0.6
    wide = sum(widths) + _COLUMN_GAP_MM * (len(widths) - 1)
    marks: tuple[Mark, ...] = (*row.marks, line((0.0, foot), (wide, foot), rule_mm))
    return Block(wide, foot + rule_mm / 2, marks)


def _padded(block: Block, width: float) -> Block:
    return Block(width, block.height, block.marks)
