"""The sheet that hangs by the tank: the stop-out order, to be read with wet gloves."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

import numpy as np
from numpy.typing import NDArray

from toneladder.bite.values import Standing
from toneladder.boxes import Box
from toneladder.lettering import Face, wrapped
from toneladder.order.values import Order
from toneladder.plate.values import Plate
from toneladder.quantities import written
from toneladder.sheets.marks import A4, Anchor, Mark, Paper, Sheet, Text
from toneladder.sheets.order_foot import (
    after_last_bite,
    cautions,
    day_before,
    ladder,
    notes,
    soft_passages,
    warnings,
)
from toneladder.sheets.order_head import Folio, first_head, next_head
from toneladder.sheets.order_row import (
    COMFORTABLE_MM,
    LEAST_FIGURE_EM,
    LEAST_MM,
    PAD_MM,
    PICTURE_MM,
    Row,
    drawn,
    row_of,
)
from toneladder.sheets.order_stages import second_grain
from toneladder.sheets.pages import Closing, Page, level, shared_out
from toneladder.sheets.setting import SMALL_MM, Block, moved
from toneladder.sheets.step_picture import plate_in
from toneladder.wording import say

MARGIN_MM = 12.0
TOP_MM = 11.0

_GAP_MM = 3.2
_ELSEWHERE_MM, _ELSEWHERE_LEADING_MM = 6.0, 4.4
_LEAST_NOTES_MM = 20.0
_SIZES_MM = tuple(
    round(height * 1.005 / LEAST_FIGURE_EM, 1) for height in (COMFORTABLE_MM, 11.0, LEAST_MM)
)


@dataclass(frozen=True, slots=True)
class _Facts:
    """Everything the sheet tells, unset."""

    plate: Plate
    order: Order
    tones: NDArray[np.uint8]
    standing: Standing
    source: str
    folio: Folio
    bath_bites: Mapping[float, Sequence[float]]
    paper: Paper


def order_sheet(
    plate: Plate,
    order: Order,
    tones: NDArray[np.uint8],
    *,
    standing: Standing,
    source: str,
    made_on: date,
    paper: Paper = A4,
    bath_bites: Mapping[float, Sequence[float]] | None = None,
) -> tuple[Sheet, ...]:
    """The stop-out order on as many pages as it needs to be read from two metres.

    Parameters
    ----------
    plate : Plate
        Its title, size and conditions stand at the head.
    order : Order
        Tones, steps and every sentence that goes with them; nothing of it is left out.
    tones : (h, w) array of uint8
        The tone of every cell, as the print is seen; the sheet shows it mirrored.
    standing, source : Standing, str
        What the times rest on; untested ones are boxed and say so.
    made_on : date
        The day that the sheet carries.
    paper : Paper
        The office paper.
    bath_bites : mapping of bath temperature (°C) to the bites of all steps (s), optional
        Shown under the tones as a guess.

    Returns
    -------
    tuple of Sheet
        One page if it can be; never more than six steps on the first, never a smaller bite
        than 9.3 mm high [ISO9241-303].
    """
    title = " ".join(plate.title.split()) or say("Untitled plate")
    width = paper.width_mm - 2 * MARGIN_MM
    folio = Folio(title, made_on, _scale_words(10.0), width)
    facts = _Facts(plate, order, tones, standing, source, folio, bath_bites or {}, paper)
    return _set(facts, _best(facts))


@dataclass(frozen=True, slots=True)
class _Layout:
    """Rows and closing blocks, and the pages that they are shared out over."""

    rows: tuple[Row, ...]
    closings: tuple[Closing, ...]
    pages: tuple[Page, ...]


def _best(facts: _Facts) -> _Layout:
    """The fewest pages; among those, the largest bites."""
    rooms = _rooms(facts)
    closings = _closings(facts, rooms[1])
    tries = []
    for em in _SIZES_MM:
        width = facts.folio.width
        rows = tuple(row_of(step, facts.order, width, em) for step in facts.order.steps)
        if em == _SIZES_MM[-1] or all(row.figures_fit for row in rows):
            tries.append(_Layout(rows, closings, _pages(rows, closings, rooms)))
    return min(tries, key=lambda layout: len(layout.pages))


def _closings(facts: _Facts, room: float) -> tuple[Closing, ...]:
    order, width = facts.order, facts.folio.width
    boxes = warnings(order, width, room - _GAP_MM)
    return (
        *_first_day(order, width),
        *(Closing(say("warnings"), box, turn=0, after_rows=False) for box in boxes),
        Closing(say("total bites"), ladder(order, facts.bath_bites, width), 3, after_rows=True),
        Closing(say("after the last bite"), after_last_bite(order, width), 2, after_rows=True),
        *_soft(order, width),
        *_last_stage(order, width),
        Closing(say("cautions"), cautions(order, width), 1, after_rows=False),
    )


def _soft(order: Order, width: float) -> tuple[Closing, ...]:
    if not any(step.remedies for step in order.steps):
        return ()
    return (Closing(say("soft passages"), soft_passages(order, width), 5, after_rows=True),)


def _first_day(order: Order, width: float) -> tuple[Closing, ...]:
    if order.companion is None:
        return ()
    block = day_before(order, width)
    return (Closing(say("the day before"), block, turn=0, after_rows=False),)


def _last_stage(order: Order, width: float) -> tuple[Closing, ...]:
    if order.second_grain is None:
        return ()
    return (Closing(say("second grain"), second_grain(order, width), 4, after_rows=True),)


def _pages(
    rows: Sequence[Row], closings: Sequence[Closing], rooms: tuple[float, float]
) -> tuple[Page, ...]:
    heights = [row.height for row in rows]
    pages = shared_out(heights, closings, rooms, _GAP_MM)
    if len(pages) > 1:
        foot = _ELSEWHERE_MM + (len(pages) > 2) * _ELSEWHERE_LEADING_MM
        pages = shared_out(heights, closings, (rooms[0] - foot, rooms[1]), _GAP_MM)
    return tuple(pages)


def _rooms(facts: _Facts) -> tuple[float, float]:
    """The room below the head, on the first page and on a later one."""
    height = facts.paper.height_mm - 2 * TOP_MM
    heads = (_head(facts, 1, 1, rows=True), _head(facts, 2, 2, rows=True))
    return height - heads[0].height, height - heads[1].height


def _set(facts: _Facts, layout: _Layout) -> tuple[Sheet, ...]:
    """The pages, their rows grown into the spare room, all pictures at one scale."""
    rows = layout.rows
    tall = min(
        level([rows[at].height for at in page.rows], _room_for_rows(page, layout.closings))
        for page in layout.pages
        if page.rows
    )
    heights = [max(row.height, tall) for row in rows]
    picture_mm = min(heights) - 2 * PAD_MM
    size = facts.plate.size
    shown = plate_in(Box(0.0, 0.0, PICTURE_MM, picture_mm), size.width_mm, size.height_mm)
    shrunk = max(size.width_mm, size.height_mm) / max(shown.width, shown.height)
    facts = replace(facts, folio=replace(facts.folio, scale=_scale_words(shrunk)))
    blocks = [
        drawn(row, facts.tones, size, height, picture_mm)
        for row, height in zip(rows, heights, strict=True)
    ]
    return tuple(
        _sheet(facts, layout, number, [blocks[at] for at in page.rows])
        for number, page in enumerate(layout.pages, start=1)
    )


def _sheet(facts: _Facts, layout: _Layout, number: int, rows: Sequence[Block]) -> Sheet:
    pages = layout.pages
    head = _head(facts, number, len(pages), rows=bool(rows))
    marks: list[Mark] = list(moved(head, MARGIN_MM, TOP_MM))
    y = TOP_MM + head.height
    for row in rows:
        marks += moved(row, MARGIN_MM, y)
        y += row.height
    for closing in pages[number - 1].closings:
        block = layout.closings[closing].block
        marks += moved(block, MARGIN_MM, y + _GAP_MM)
        y += _GAP_MM + block.height
    foot = facts.paper.height_mm - TOP_MM
    if number == 1 and len(pages) > 1:
        right = facts.paper.width_mm - MARGIN_MM
        lines = wrapped(_elsewhere(layout), Face.SANS_BOLD, SMALL_MM, facts.folio.width)
        for words in reversed(lines):
            marks.append(Text(right, foot - 0.8, words, Face.SANS_BOLD, SMALL_MM, Anchor.RIGHT))
            foot -= _ELSEWHERE_LEADING_MM
        foot -= _ELSEWHERE_MM - _ELSEWHERE_LEADING_MM
    spare = foot - y - 2 * _GAP_MM
    if spare >= _LEAST_NOTES_MM:
        marks += moved(notes(facts.folio.width, spare), MARGIN_MM, y + 2 * _GAP_MM)
    return Sheet(facts.paper, tuple(marks), facts.folio.title, number, len(pages))


def _head(facts: _Facts, page: int, pages: int, *, rows: bool) -> Block:
    if page > 1:
        return next_head(facts.folio, page, pages, rows=rows)
    return first_head(facts.folio, facts.plate, facts.order, facts.standing, facts.source, pages)


def _room_for_rows(page: Page, closings: Sequence[Closing]) -> float:
    return page.room - sum(_GAP_MM + closings[at].block.height for at in page.closings)


def _elsewhere(layout: _Layout) -> str:
    """What stands on each later page."""
    named: set[str] = set()
    pages = []
    for number, page in enumerate(layout.pages[1:], start=2):
        names = [_steps_words(layout, page)] if page.rows else []
        names += [layout.closings[at].name for at in page.closings]
        new = [name for name in dict.fromkeys(names) if name not in named]
        named.update(new)
        if new:
            pages.append(say("page {page}: {what}", page=number, what=", ".join(new)))
    return " · ".join(pages)


def _steps_words(layout: _Layout, page: Page) -> str:
    first, last = (layout.rows[page.rows[at]].step.step for at in (0, -1))
    if first == last:
        return say("step {step}", step=first)
    return say("steps {first} to {last}", first=first, last=last)


def _scale_words(shrunk: float) -> str:
    number = written().number(shrunk, 1 if shrunk < 10.0 else 0)
    return say("pictures 1 : {number}", number=number)
