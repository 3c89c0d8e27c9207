"""One step of the order as a row: what to paint, what it looks like, how long to bite."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from toneladder.boxes import Box
from toneladder.lettering import Face, wrapped
from toneladder.order.values import Order, Step
from toneladder.picture.values import PlateSize
from toneladder.quantities import write_bite
from toneladder.sheets.hatch import tone_hatch
from toneladder.sheets.marks import Anchor, Ink, Mark, Text, filled, frame, line
from toneladder.sheets.order_words import doubt, in_dips, painting_lines, stopped_out
from toneladder.sheets.setting import (
    BODY_MM,
    HAIR_MM,
    RULE_MM,
    SMALL_MM,
    Block,
    label,
    moved,
    paragraph,
    stacked,
)
from toneladder.sheets.step_picture import plate_in, step_picture
from toneladder.wording import say

LEAST_FIGURE_EM = 0.586
"""Height of the lowest digit, the 4, as a share of the bold letters' size."""

COMFORTABLE_MM, LEAST_MM = 12.8, 9.3
"""Height of a bite's digits to be read from two metres: 22 and 16 minutes of arc [ISO9241-303]."""

PICTURE_MM = 37.0
PAD_MM = 2.3
_STOP_OUT_AT, _STOP_OUT_MM = 16.5, 49.5
_PICTURE_AT = 70.0
BOXES_MM = 9.0
BITE_GAP_MM = 7.0
_UNIT_SHARE = 0.45
_UNIT_GAP, _NUMBER_GAP = 0.085, 0.2
_NUMBER_MM = 15.0
_CHIP = Box(0.0, 0.0, 10.5, 7.0)


@dataclass(frozen=True, slots=True)
class Row:
    """One step, set but for its height.

    ``em`` is the size of the bite's figures; ``height`` the least the row needs.
    """

    step: Step
    width: float
    em: float
    paint: Block
    bite: Block

    @property
    def height(self) -> float:
        """The least height of the row, millimetres."""
        pencil = 2.2 * BODY_MM
        return max(self.paint.height, self.bite.height + pencil, 24.0) + 2 * PAD_MM

    @property
    def figures_fit(self) -> bool:
        """Whether the bite finds room beside the picture."""
        return self.bite.width <= bite_room(self.width)


def bite_room(width: float) -> float:
    """The width left for the bite on a sheet whose text is ``width`` wide."""
    return width - BOXES_MM - BITE_GAP_MM - _PICTURE_AT - PICTURE_MM - 3.0


def row_of(step: Step, order: Order, width: float, em: float) -> Row:
    """The row of ``step``, its figures ``em`` millimetres in size."""
    return Row(step, width, em, _to_paint(step, order), _to_bite(step, order, width, em))


def drawn(
    row: Row, tones: NDArray[np.uint8], size: PlateSize, height: float, picture_mm: float
) -> Block:
    """The row, ``height`` millimetres high, with a rule below it.

    Its picture is at most ``picture_mm`` high, so that all rows show the plate at one scale.
    """
    right = row.width - BOXES_MM - BITE_GAP_MM
    foot = height - PAD_MM - 0.9
    marks: list[Mark] = [*_number(row)]
    marks += moved(row.paint, _STOP_OUT_AT, PAD_MM)
    marks += _picture(row, tones, size, picture_mm)
    marks += moved(row.bite, right, PAD_MM)
    marks += pencil_line(right, foot, bite_room(row.width))
    marks += tick_boxes(row.width, height)
    marks.append(line((0.0, height), (row.width, height), HAIR_MM))
    return Block(row.width, height, tuple(marks))


def chip(tone: int, count: int, box: Box) -> tuple[Mark, ...]:
    """A field in the tone's hatch with its number knocked out."""
    inner = box.inset(1.6)
    middle = inner.y + inner.height / 2
    size = min(BODY_MM, 1.1 * inner.height)
    return (
        *tone_hatch(box, tone, count),
        frame(box, HAIR_MM),
        frame(inner, HAIR_MM, Ink.WHITE),
        Text(
            inner.x + inner.width / 2,
            middle + LEAST_FIGURE_EM / 2 * size,
            str(tone),
            Face.SANS_BOLD,
            size,
            Anchor.MIDDLE,
        ),
    )


def _number(row: Row) -> tuple[Mark, ...]:
    head = Text(0.0, PAD_MM + 0.72 * SMALL_MM, say("step"), Face.SANS, SMALL_MM)
    least = SMALL_MM + LEAST_FIGURE_EM * _NUMBER_MM + 0.4
    baseline = PAD_MM + max(LEAST_FIGURE_EM * row.em, least)
    return (head, Text(0.0, baseline, str(row.step.step), Face.SANS_BOLD, _NUMBER_MM))


def _to_paint(step: Step, order: Order) -> Block:
    chips: list[Mark] = []
    x = 0.0
    for tone in step.stop_out:
        chips += chip(tone, len(order.tones), Box(x, 0.0, _CHIP.width, _CHIP.height))
        x += _CHIP.width + 2.2
    words = stopped_out(step, order.tones)
    head = paragraph(say("stop out {what}", what=words), _STOP_OUT_MM - x, Face.SANS_BOLD, 4.5)
    top = max((_CHIP.height - head.height) / 2, 0.0)
    chips += moved(head, x, top)
    lines = [paragraph(text, _STOP_OUT_MM) for text in painting_lines(step, order)]
    height = max(_CHIP.height, top + head.height)
    return stacked([Block(_STOP_OUT_MM, height, tuple(chips)), stacked(lines)], 1.4)


def _to_bite(step: Step, order: Order, width: float, em: float) -> Block:
    """Everything about the bite, set leftwards from the origin."""
    figures = bite_figures(write_bite(step.bite_s), em)
    made = say("makes tone {tone}", tone=step.step)
    tone = order.tones[step.step]
    lines = wrapped(f"{made} · {doubt(step, tone)}", Face.SANS, SMALL_MM, bite_room(width))
    if dips := in_dips(step.dips_s):
        lines += wrapped(dips, Face.SANS, SMALL_MM, bite_room(width))
    marks: list[Mark] = list(figures)
    baseline = LEAST_FIGURE_EM * em + 1.2 * SMALL_MM + 0.6
    for words in lines:
        marks.append(Text(0.0, baseline, words, Face.SANS, SMALL_MM, Anchor.RIGHT))
        baseline += 1.2 * SMALL_MM
    run = -min(figure.x for figure in figures)
    return Block(run, baseline - SMALL_MM, tuple(marks))


def bite_figures(bite: str, em: float) -> tuple[Text, ...]:
    """A bite with its numbers large and its units small, ending at the origin.

    The gaps are wide enough for a PDF's reader to see a space in them.
    """
    texts: list[Text] = []
    x = 0.0
    baseline = LEAST_FIGURE_EM * em
    for word in reversed(bite.split()):
        number = word[0].isdigit()
        text = Text(x, baseline, word, Face.SANS_BOLD, em if number else _UNIT_SHARE * em)
        texts.append(replace(text, x=x - text.width))
        x = texts[-1].x - em * (_NUMBER_GAP if number else _UNIT_GAP)
    return tuple(reversed(texts))


def _picture(
    row: Row, tones: NDArray[np.uint8], size: PlateSize, picture_mm: float
) -> tuple[Mark, ...]:
    room = Box(_PICTURE_AT, PAD_MM, PICTURE_MM, picture_mm)
    box = plate_in(room, size.width_mm, size.height_mm)
    return (*step_picture(tones, row.step.step, box), _edge_up(box, head_up=row.step.step % 2 == 1))


def _edge_up(box: Box, *, head_up: bool) -> Mark:
    """A small triangle beside the picture that points to the edge that goes up."""
    x, wide, high = box.x - 1.9, 1.3, 2.2
    base, tip = (box.y + high, box.y) if head_up else (box.bottom - high, box.bottom)
    return filled([[(x - wide, base), (x + wide, base), (x, tip)]])


def pencil_line(right: float, baseline: float, room: float) -> tuple[Mark, ...]:
    """``in __ out __ bath __°`` for the pencil, ending at ``right``."""
    words = [label(word, size=BODY_MM) for word in (say("in"), say("out"), say("bath"))]
    unit = label("°", size=BODY_MM)
    blank = (room - sum(word.width for word in words) - unit.width - 6 * 1.2 - 4.0) / 3
    marks: list[Mark] = []
    x = right - room + 4.0
    top = baseline - 0.78 * BODY_MM
    for word in words:
        marks += moved(word, x, top)
        x += word.width + 1.2
        marks.append(line((x, baseline + 0.6), (x + blank, baseline + 0.6), HAIR_MM))
        x += blank + 1.2
    marks += moved(unit, right - unit.width, top)
    return tuple(marks)


def tick_boxes(width: float, height: float) -> tuple[Mark, ...]:
    """The two boxes of a step: its varnish is dry, it has been bitten."""
    x = width - BOXES_MM
    letters = 1.15 * SMALL_MM
    room = (height - 2 * PAD_MM) / 2
    side = min(BOXES_MM, room - letters - 0.6)
    marks: list[Mark] = []
    for top, word in ((PAD_MM, say("dry")), (PAD_MM + room + 0.6, say("bitten"))):
        marks.append(frame(Box(x + BOXES_MM - side, top + RULE_MM / 2, side, side), RULE_MM))
        middle = x + BOXES_MM - side / 2
        marks.append(
            Text(middle, top + side + letters - 0.4, word, Face.SANS, SMALL_MM, Anchor.MIDDLE)
        )
    return tuple(marks)
