"""The foot of the sheet by the tank: the ladder of tones, what follows the last bite, cautions."""

from collections.abc import Mapping, Sequence

from toneladder.boxes import Box
from toneladder.lettering import Face, text_width, wrapped
from toneladder.order.values import Order
from toneladder.quantities import write_bite, write_minutes, write_temperature
from toneladder.sheets.hatch import tone_hatch
from toneladder.sheets.marks import Anchor, Ink, Mark, Text, frame, line
from toneladder.sheets.order_row import LEAST_FIGURE_EM
from toneladder.sheets.setting import (
    BODY_MM,
    HAIR_MM,
    RULE_MM,
    SMALL_MM,
    Block,
    boxed,
    gridded,
    in_two_columns,
    moved,
    paragraph,
    stacked,
)
from toneladder.wording import say

_BAR_MM = 9.0
_NAMES_MM = 27.0
_LEADING_MM = 1.15 * SMALL_MM


def ladder(order: Order, bath_bites: Mapping[float, Sequence[float]], width: float) -> Block:
    """All tones in their hatch, under each its total bite and its bite in other baths.

    Parameters
    ----------
    order : Order
        Tones and steps.
    bath_bites : mapping of bath temperature (°C) to one bite per step (s)
        What each bite would be in a bath of that temperature; shown as a guess.
    width : float
        Room, millimetres.
    """
    count = len(order.tones)
    field = (width - _NAMES_MM) / count
    marks: list[Mark] = list(_bar(count, field))
    rows = [(say("total bite"), [tone.total_bite_s for tone in order.tones[1:]])]
    for bath in sorted(bath_bites):
        name = say("bite at {temperature}", temperature=write_temperature(bath))
        rows.append((name, list(bath_bites[bath])))
    y = _BAR_MM + 1.0
    for at, (name, bites) in enumerate(rows):
        row = _bites_row(name, bites, field, Face.SANS if at else Face.SANS_BOLD)
        marks += moved(row, 0.0, y)
        y += row.height
        marks.append(line((0.0, y), (width, y), HAIR_MM / 2))
    table = Block(width, y, tuple(marks))
    if not bath_bites:
        return table
    guess = paragraph(
        say("The bites at other bath temperatures are a guess until strips show it."), width
    )
    return stacked([table, guess], 1.0)


def after_last_bite(order: Order, width: float) -> Block:
    """What is left to do, with boxes to tick."""
    never = say("Never stopped out: tone {tone}.", tone=len(order.tones) - 1)
    head = _head(f"{say('After the last bite')}. {never}", width)
    return stacked([head, gridded(order.after, width)], 0.8)


def soft_passages(order: Order, width: float) -> Block:
    """What is done where the picture fades, step by step, with boxes to tick."""
    texts = [
        say("Step {step}: {remedy}", step=step.step, remedy=remedy)
        for step in order.steps
        for remedy in step.remedies
    ]
    return stacked([_head(say("Soft passages"), width), gridded(texts, width)], 0.8)


def day_before(order: Order, width: float) -> Block:
    """The companion strip of the day before: what is done, in boxes to tick, with its minutes."""
    companion = order.companion
    if companion is None:
        return Block(width, 0.0)
    bites = ", ".join(write_bite(bite) for bite in companion.bites_s)
    head = _head(say("The day before: a companion strip, grained beside the plate"), width)
    patches = paragraph(say("Its patches, total bites: {bites}.", bites=bites), width)
    tasks = gridded(day_before_words(order), width)
    return stacked([head, patches, tasks], 0.8)


def day_before_words(order: Order) -> tuple[str, ...]:
    """What is done on the day before, each with its minutes."""
    companion = order.companion
    if companion is None:
        return ()
    return tuple(
        say("{task} About {time}.", task=task.doing, time=write_minutes(task.minutes))
        if task.minutes
        else task.doing
        for task in companion.tasks
    )


def warnings(order: Order, width: float, tallest: float) -> tuple[Block, ...]:
    """What is wrong or in doubt about this plate, in boxes no taller than ``tallest``."""
    inner = width - 8.0
    head = paragraph(say("About this plate"), inner, Face.SANS_BOLD, BODY_MM)
    boxes: list[list[Block]] = []
    for text in order.warnings:
        block = paragraph(text, inner, size=BODY_MM)
        if not boxes or _in_box([*boxes[-1], block], width).height > tallest:
            boxes.append([head])
        boxes[-1].append(block)
    return tuple(_in_box(box, width) for box in boxes)


def cautions(order: Order, width: float) -> Block:
    """The cautions for this metal, mordant, grain and varnish, in two columns."""
    if not order.cautions:
        return Block(width, 0.0)
    gap = 6.0
    room = (width - gap) / 2
    texts = [Block(room, text.height + 0.7, text.marks) for text in _sentences(order, room)]
    last = paragraph(order.cautions[-1], width, Face.SANS_BOLD)
    return stacked([_head(say("Cautions"), width), in_two_columns(texts, width, gap), last], 0.8)


def notes(width: float, height: float) -> Block:
    """Lines for the pencil that fill the rest of a page."""
    head = Text(0.0, 0.75 * SMALL_MM, say("notes"), Face.SANS, SMALL_MM)
    pitch = 8.5
    count = min(int((height - 2.0) // pitch), 8)
    rules = [
        line((0.0, 2.0 + at * pitch), (width, 2.0 + at * pitch), HAIR_MM / 2)
        for at in range(1, count + 1)
    ]
    return Block(width, height, (head, *rules))


def _in_box(blocks: Sequence[Block], width: float) -> Block:
    return boxed(stacked(blocks, 0.6), width)


def _sentences(order: Order, room: float) -> list[Block]:
    return [paragraph(text, room) for text in order.cautions[:-1]]


def _head(words: str, width: float) -> Block:
    return paragraph(words, width, Face.SANS_BOLD, BODY_MM)


def _bar(count: int, field: float) -> list[Mark]:
    marks: list[Mark] = []
    for tone in range(count):
        box = Box(_NAMES_MM + tone * field, RULE_MM / 2, field, _BAR_MM)
        marks += (*tone_hatch(box, tone, count), frame(box, HAIR_MM))
        middle = box.x + box.width / 2
        plaque = Box(middle - 3.2, box.y + _BAR_MM / 2 - 2.5, 6.4, 5.0)
        marks.append(frame(plaque, HAIR_MM, Ink.WHITE))
        baseline = plaque.y + plaque.height / 2 + LEAST_FIGURE_EM / 2 * BODY_MM
        marks.append(Text(middle, baseline, str(tone), Face.SANS_BOLD, BODY_MM, Anchor.MIDDLE))
    marks.append(frame(Box(_NAMES_MM, RULE_MM / 2, count * field, _BAR_MM), RULE_MM))
    marks.append(Text(0.0, RULE_MM / 2 + _BAR_MM / 2 + 1.1, say("tone"), Face.SANS, SMALL_MM))
    return marks


def _bites_row(name: str, bites: Sequence[float], field: float, face: Face) -> Block:
    """One bite under each tone but white."""
    first = 0.6 + 0.75 * SMALL_MM
    cells = [_cell(bite, field) for bite in bites]
    marks: list[Mark] = [Text(0.0, first, name, Face.SANS, SMALL_MM)]
    for tone, cell in enumerate(cells, start=1):
        middle = _NAMES_MM + (tone + 0.5) * field
        for at, words in enumerate(cell):
            y = first + at * _LEADING_MM
            marks.append(Text(middle, y, words, face, SMALL_MM, Anchor.MIDDLE))
    height = _LEADING_MM * max(len(cell) for cell in cells) + 1.2
    return Block(_NAMES_MM + (len(bites) + 1) * field, height, tuple(marks))


def _cell(bite_s: float, room: float) -> tuple[str, ...]:
    """A bite that breaks between its units, never within one."""
    words = write_bite(bite_s).split()
    pairs = [" ".join(words[at : at + 2]) for at in range(0, len(words), 2)]
    whole = " ".join(pairs)
    if text_width(whole, Face.SANS_BOLD, SMALL_MM) <= room - 1.0:
        return (whole,)
    return tuple(part for pair in pairs for part in wrapped(pair, Face.SANS_BOLD, SMALL_MM, room))
