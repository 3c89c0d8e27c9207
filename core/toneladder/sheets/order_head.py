"""The head of the sheet by the tank: which plate this is, and what its times rest on."""

from dataclasses import dataclass
from datetime import date

from toneladder.bite.values import Standing
from toneladder.boxes import Box
from toneladder.lettering import Face, text_width, wrapped
from toneladder.order.values import Order
from toneladder.plate.values import Plate
from toneladder.sheets.marks import Anchor, Mark, Text, filled, line
from toneladder.sheets.order_stages import lines_first
from toneladder.sheets.order_words import conditions_words, standing_words, written_date
from toneladder.sheets.setting import (
    BODY_MM,
    HAIR_MM,
    HEAVY_MM,
    Block,
    beside,
    boxed,
    flowing,
    label,
    moved,
    paragraph,
    stacked,
    ticked,
)
from toneladder.sheets.step_picture import covered_swatch, now_swatch, open_swatch
from toneladder.wording import say

_TITLE_SIZES = ((9.0, 1), (7.4, 1), (6.2, 2), (5.2, 2))
_TITLE_GAP_MM = 8.0
_BLANK_MM = 15.0


@dataclass(frozen=True, slots=True)
class Folio:
    """What every page of one sheet carries: the plate's name, the day, the pictures' scale."""

    title: str
    made_on: date
    scale: str
    width: float


def first_head(
    folio: Folio, plate: Plate, order: Order, standing: Standing, source: str, pages: int
) -> Block:
    """The head of the first page, down to the first row."""
    width = folio.width
    facts = [
        *(label(words, size=BODY_MM) for words in conditions_words(plate.size, plate.conditions)),
        blank(say("grain laid")),
    ]
    return stacked(
        [
            _title(folio, 1, pages),
            flowing(facts, width, 4.5, 1.4),
            _standing(standing, source, width),
            lines_first(order, plate.rates, width),
            flowing([ticked(text, width) for text in order.before], width, 5.0, 1.5),
            every_step(order, width),
            _rule(width),
            key(folio),
        ],
        2.2,
    )


def next_head(folio: Folio, page: int, pages: int, *, rows: bool) -> Block:
    """The head of a later page, with the key to the pictures if there are rows on it."""
    parts = [_title(folio, page, pages), _rule(folio.width)]
    return stacked([*parts, key(folio)] if rows else parts, 2.2)


def key(folio: Folio) -> Block:
    """How to read the small pictures, and the line under which the rows begin."""
    field = Box(0.0, 0.3, 7.5, 3.9)
    tip = filled([[(0.0, 3.6), (2.6, 3.6), (1.3, 1.4)]])
    signs = (
        (Block(field.width, field.bottom, now_swatch(field)), say("paint now")),
        (Block(field.width, field.bottom, covered_swatch(field)), say("covered already")),
        (Block(field.width, field.bottom, open_swatch(field)), say("open, bites")),
        (Block(2.6, field.bottom, (tip,)), say("this edge up")),
    )
    items = [
        label(say("Mirrored, as on the plate:"), Face.SANS_BOLD),
        *(beside([sign, label(words)], 1.4) for sign, words in signs),
    ]
    return stacked([flowing(items, folio.width, 5.0, 1.0), _rule(folio.width, HAIR_MM)], 1.2)


def every_step(order: Order, width: float) -> Block:
    """The inner order of one step, in one run of words."""
    if not order.within:
        return Block(width, 0.0)
    words = say("Every step: {doings}", doings=" ".join(order.within))
    return paragraph(words, width, size=BODY_MM)


def blank(words: str, unit: str = "") -> Block:
    """``words`` and a line for the pencil."""
    letters = label(words, size=BODY_MM)
    baseline = 0.78 * BODY_MM + 0.6
    rule = Block(
        _BLANK_MM, letters.height, (line((0.0, baseline), (_BLANK_MM, baseline), HAIR_MM),)
    )
    return beside([letters, rule, *([label(unit, size=BODY_MM)] if unit else [])], 1.2)


def _title(folio: Folio, page: int, pages: int) -> Block:
    day = say(
        "{date} · {page} · {scale}",
        date=written_date(folio.made_on),
        page=say("page {page} of {pages}", page=page, pages=pages),
        scale=folio.scale,
    )
    corner = (
        Text(folio.width, 4.4, say("Tank sheet"), Face.SANS_BOLD, 5.6, Anchor.RIGHT),
        Text(folio.width, 9.6, day, Face.SANS, BODY_MM, Anchor.RIGHT),
    )
    room = folio.width - max(text.width for text in corner) - _TITLE_GAP_MM
    size = next(
        (
            size
            for size, most in _TITLE_SIZES
            if len(wrapped(folio.title, Face.SERIF_BOLD, size, room)) <= most
        ),
        _TITLE_SIZES[-1][0],
    )
    name = paragraph(folio.title, room, Face.SERIF_BOLD, size)
    height = max(10.6, name.height)
    return Block(folio.width, height, (*moved(name, 0.0, height - name.height), *corner))


def _standing(standing: Standing, source: str, width: float) -> Block:
    words, advice = standing_words(standing)
    if standing is Standing.STRIP:
        text = say("{words}: {source}", words=words, source=source)
        return paragraph(text, width, Face.SANS_BOLD, BODY_MM)
    head = label(words, Face.SANS_BOLD, 5.6)
    beneath = paragraph(source, width - 8.0)
    room = width - 8.0 - head.width - 4.0
    if text_width(advice, Face.SANS, BODY_MM + 0.2) <= room:
        lead = beside([head, Block(room, 6.0, _at(advice, 0.78 * 5.6))], 4.0)
        return boxed(stacked([lead, beneath], 0.4), width)
    return boxed(stacked([head, paragraph(advice, width - 8.0, size=BODY_MM), beneath], 0.4), width)


def _at(text: str, baseline: float) -> tuple[Mark, ...]:
    return (Text(0.0, baseline, text, Face.SANS, BODY_MM + 0.2),)


def _rule(width: float, stroke: float = HEAVY_MM) -> Block:
    return Block(width, stroke, (line((0.0, stroke / 2), (width, stroke / 2), stroke),))
