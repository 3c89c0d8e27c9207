"""What a strip card is made of: the strip at true size, its table, the lines to write on."""

from collections.abc import Sequence

from toneladder.boxes import Box
from toneladder.lettering import Face, text_width
from toneladder.picture.values import PlateSize
from toneladder.quantities import write_bite
from toneladder.sheets.marks import Anchor, Mark, Text, filled, frame, line
from toneladder.sheets.setting import (
    BODY_MM,
    HAIR_MM,
    HEAVY_MM,
    RULE_MM,
    SMALL_MM,
    Block,
    beside,
    label,
    moved,
    stacked,
    ticked,
)
from toneladder.strip.planning import StripPlan
from toneladder.wording import say

LEAST_ROW_MM, TALLEST_ROW_MM = 6.2, 10.5

_HEADS_MM = 5.4
_TICK_MM = 4.0
_NUMBER_EM = 6.0
_STAY_EM = 5.4
_LINE_MM = 7.2
_COLUMNS = (0.0, 0.07, 0.24, 0.51, 0.62, 0.74, 0.86)
"""Where the columns of the table begin, as shares of its width."""


def strip_at_true_size(plan: StripPlan, size: PlateSize, width: float) -> Block:
    """The strip's outline with its patches, to lay the metal on and mark their edges."""
    patches = len(plan.bites_s)
    each = size.width_mm / patches
    left, top = (width - size.width_mm) / 2, _TICK_MM + SMALL_MM
    metal = Box(left, top, size.width_mm, size.height_mm)
    marks: list[Mark] = [frame(metal, RULE_MM), *_tape(metal)]
    for at in range(1, patches):
        x = left + at * each
        marks.append(line((x, top - _TICK_MM / 2), (x, metal.bottom + _TICK_MM / 2), HAIR_MM))
    bites = [_in_field(bite, each - 1.0) for bite in plan.bites_s]
    told = all(bites)
    for at, words in enumerate(bites):
        middle = left + (at + 0.5) * each
        y = top + size.height_mm / 2 + (0.0 if told else 0.3 * _NUMBER_EM)
        marks.append(Text(middle, y, str(at + 1), Face.SANS_BOLD, _NUMBER_EM, Anchor.MIDDLE))
        for row, word in enumerate(words if told else ()):
            below = y + (row + 1.1) * 1.15 * SMALL_MM
            marks.append(Text(middle, below, word, Face.SANS, SMALL_MM, Anchor.MIDDLE))
    return Block(width, metal.bottom + _TICK_MM / 2, tuple(marks))


def table(plan: StripPlan, width: float, room: float) -> Block:
    """A row for every patch: how long, what then, and its readings; no higher than ``room``."""
    patches = len(plan.bites_s)
    high = min(max((room - _HEADS_MM) / patches, LEAST_ROW_MM), TALLEST_ROW_MM)
    columns = [share * width for share in _COLUMNS]
    heads = (
        say("patch"),
        say("total bite"),
        say("bite, then cover it"),
        say("lifted"),
        say("2nd pull"),
        say("3rd pull"),
        say("seen"),
    )
    marks: list[Mark] = [
        Text(x, 0.78 * SMALL_MM, words, Face.SANS, SMALL_MM)
        for x, words in zip(columns, heads, strict=True)
    ]
    marks.append(line((0.0, _HEADS_MM), (width, _HEADS_MM), HEAVY_MM))
    for at, bite in enumerate(plan.bites_s):
        top = _HEADS_MM + at * high
        row = _row(at, bite, plan.stays_s, columns, high)
        marks += moved(Block(width, high, row), 0.0, top)
        marks.append(line((0.0, top + high), (width, top + high), HAIR_MM))
    for x in columns[3:]:
        end = _HEADS_MM + patches * high
        marks.append(line((x - 2.0, _HEADS_MM), (x - 2.0, end), HAIR_MM))
    return Block(width, _HEADS_MM + patches * high, tuple(marks))


def least_table_height(plan: StripPlan) -> float:
    """The height of the lowest table of ``plan``, millimetres."""
    return _HEADS_MM + len(plan.bites_s) * LEAST_ROW_MM


def to_write(width: float) -> Block:
    """Lines for everything that makes the strip this strip, to be filled in by pencil."""
    gap = 6.0
    rows = (
        (say("bath"), say("bath temperature"), say("strength")),
        (say("plates and strips it has bitten before"), say("bitten on")),
        (say("metal, its gauge"), say("grain laid on"), say("coverage")),
        (say("ink, oil"), say("paper, soaked"), say("press")),
        (say("read on"), say("read with"), say("pulls were")),
    )
    lines = []
    for names in rows:
        room = (width - gap * (len(names) - 1)) / len(names)
        lines.append(beside([_to_fill(name, room) for name in names], gap))
    choices = (say("upright"), say("tray"), say("wiped by tarlatan"), say("by hand"), say("paper"))
    boxes = [ticked(words, text_width(words, Face.SANS, BODY_MM) + 8.0) for words in choices]
    return stacked([*lines, Block(width, 1.0), beside(boxes, 7.0)])


def _row(
    at: int, bite_s: float, stays_s: Sequence[float], columns: Sequence[float], high: float
) -> tuple[Mark, ...]:
    baseline = high / 2 + 0.32 * _STAY_EM
    number = Text(columns[0], baseline, str(at + 1), Face.SANS_BOLD, _STAY_EM)
    if at == 0:
        never = say("never bitten: cover it first")
        return (number, Text(columns[1], baseline, never, Face.SANS, BODY_MM))
    stay = Text(columns[2], baseline, write_bite(stays_s[at - 1]), Face.SANS_BOLD, _STAY_EM)
    last = at == len(stays_s)
    then = say("then lift: done") if last else say("then cover {n}", n=at + 1)
    box = Box(columns[3], high / 2 - 2.0, 4.0, 4.0)
    return (
        number,
        Text(columns[1], baseline, write_bite(bite_s), Face.SANS, BODY_MM),
        stay,
        Text(columns[3] - 4.0, baseline, then, Face.SANS, SMALL_MM, Anchor.RIGHT),
        frame(box, RULE_MM),
    )


def _tape(metal: Box) -> tuple[Mark, ...]:
    """Which way the tape moves."""
    y = metal.y - _TICK_MM
    words = Text(metal.x, y, say("the tape moves this way"), Face.SANS, SMALL_MM)
    x = metal.x + words.width + 2.0
    tip = filled([[(x, y - 2.0), (x + 2.8, y - 1.0), (x, y)]])
    return (words, tip)


def _in_field(bite_s: float, room: float) -> tuple[str, ...]:
    """A bite on as many lines as it has units; nothing if one does not fit into the room."""
    words = write_bite(bite_s).split()
    pairs = tuple("\u00a0".join(words[at : at + 2]) for at in range(0, len(words), 2))
    fits = all(text_width(pair, Face.SANS, SMALL_MM) <= room for pair in pairs)
    return pairs if fits else ()


def _to_fill(name: str, width: float) -> Block:
    """A name and a line for the pencil up to ``width``."""
    words = label(name)
    y = _LINE_MM - 0.6
    low = moved(words, 0.0, y - 0.78 * SMALL_MM - 0.4)
    rule = line((words.width + 1.4, y), (width, y), HAIR_MM)
    return Block(width, _LINE_MM, (*low, rule))
