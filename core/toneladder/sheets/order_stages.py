"""What has days of its own on the sheet by the tank: lines first, a second grain last."""

from collections.abc import Sequence

from toneladder.lettering import Face, wrapped
from toneladder.order.stages import GrainStep, LineStep
from toneladder.order.values import Order, Rates
from toneladder.quantities import write_bite
from toneladder.sheets.marks import Anchor, Mark, Text, line
from toneladder.sheets.order_row import (
    BITE_GAP_MM,
    BOXES_MM,
    LEAST_FIGURE_EM,
    LEAST_MM,
    PAD_MM,
    bite_figures,
    bite_room,
    pencil_line,
    tick_boxes,
)
from toneladder.sheets.order_words import in_dips
from toneladder.sheets.setting import (
    BODY_MM,
    HAIR_MM,
    RULE_MM,
    SMALL_MM,
    Block,
    moved,
    paragraph,
    stacked,
)
from toneladder.sheets.stage_words import (
    grain_made,
    grain_words,
    line_made,
    line_words,
    lines_head,
    painting_words,
    printed_words,
    second_head,
)
from toneladder.wording import say

_EM = round(LEAST_MM * 1.005 / LEAST_FIGURE_EM, 1)
_WORDS_AT, _HEAD_MM, _NUMBER_MM = 16.5, 4.5, 11.0
_LEAST_ROW_MM = 27.0


def lines_first(order: Order, rates: Rates, width: float) -> Block:
    """The line bites, before everything else; no height if there are none."""
    steps = order.line_steps
    if not steps:
        return Block(width, 0.0)
    rows = [
        _row(
            step,
            line_words(step, len(steps)),
            [painting_words(step), *step.sentences],
            line_made(step, len(steps)),
            width,
        )
        for step in steps
    ]
    return stacked([_head(lines_head(steps, rates), width), *rows])


def second_grain(order: Order, width: float) -> Block:
    """The second grain, after everything else; no height if there is none."""
    stage = order.second_grain
    if stage is None:
        return Block(width, 0.0)
    rows = [
        _row(step, grain_words(step), [painting_words(step)], grain_made(step, stage), width)
        for step in stage.steps
    ]
    words = " ".join((*stage.sentences, printed_words(stage, order)))
    return stacked([_head(second_head(stage), width), paragraph(words, width), *rows], 0.8)


def _row(
    step: LineStep | GrainStep, what: str, details: Sequence[str], made: str, width: float
) -> Block:
    """One bite: what is stopped out, what is done, how long, and what it makes."""
    right = width - BOXES_MM - BITE_GAP_MM
    room = right - bite_room(width) - _WORDS_AT - 3.0
    words = stacked(
        [
            paragraph(what, room, Face.SANS_BOLD, _HEAD_MM),
            *(paragraph(text, room) for text in details if text),
        ],
        0.4,
    )
    bite = _bite(step, made, width)
    height = max(words.height, bite.height + 2.2 * BODY_MM, _LEAST_ROW_MM - 2 * PAD_MM) + 2 * PAD_MM
    baseline = PAD_MM + SMALL_MM + LEAST_FIGURE_EM * _NUMBER_MM + 0.8
    marks: list[Mark] = [
        Text(0.0, PAD_MM + 0.72 * SMALL_MM, say("bite"), Face.SANS, SMALL_MM),
        Text(0.0, baseline, str(step.step), Face.SANS_BOLD, _NUMBER_MM),
        *moved(words, _WORDS_AT, PAD_MM),
        *moved(bite, right, PAD_MM),
        *pencil_line(right, height - PAD_MM - 0.9, bite_room(width)),
        *tick_boxes(width, height),
        line((0.0, height), (width, height), HAIR_MM),
    ]
    return Block(width, height, tuple(marks))


def _bite(step: LineStep | GrainStep, made: str, width: float) -> Block:
    """The bite in figures to be read from two metres, set leftwards from the origin."""
    marks: list[Mark] = list(bite_figures(write_bite(step.bite_s), _EM))
    baseline = LEAST_FIGURE_EM * _EM + 1.2 * SMALL_MM + 0.6
    for text in filter(None, (made, in_dips(step.dips_s))):
        for words in wrapped(text, Face.SANS, SMALL_MM, bite_room(width)):
            marks.append(Text(0.0, baseline, words, Face.SANS, SMALL_MM, Anchor.RIGHT))
            baseline += 1.2 * SMALL_MM
    return Block(0.0, baseline - SMALL_MM, tuple(marks))


def _head(words: str, width: float) -> Block:
    letters = paragraph(words, width, Face.SANS_BOLD, _HEAD_MM)
    y = letters.height + 0.6
    rule = line((0.0, y), (width, y), RULE_MM)
    return Block(width, y + RULE_MM / 2, (*letters.marks, rule))
