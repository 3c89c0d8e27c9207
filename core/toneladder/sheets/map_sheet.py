"""The map of a step at true size: what to paint now, what is covered, what lies open."""

from collections.abc import Sequence
from datetime import date

import numpy as np
from numpy.typing import NDArray

from toneladder.borders.remedies import Passage
from toneladder.boxes import Box
from toneladder.order.values import Order, Step
from toneladder.picture.values import Grid
from toneladder.plate.values import Plate
from toneladder.sheets.cell_dots import (
    SOLID,
    Layer,
    cells_box,
    dots_per_mm,
    dotted,
    inner,
    lines_pattern,
)
from toneladder.sheets.hatch import stripes
from toneladder.sheets.marks import A4, Mark, Paper, Sheet, frame
from toneladder.sheets.order_words import stopped_out
from toneladder.sheets.passage_marks import passage_key, passage_marks
from toneladder.sheets.setting import Block
from toneladder.sheets.true_size import Drawing, true_size_sheets
from toneladder.sheets.true_size_frame import FIELD, Heading, sign
from toneladder.wording import say

NOW_MM = (0.5, 1.0)
"""Width and pitch of the lines, /, that say: paint this now."""

COVERED_MM = (0.2, 3.0)
"""Width and pitch of the lines, \\, that say: covered already."""

NOW_EDGE_MM = 0.6
"""Width of the solid border round what is painted now, inside it."""


def map_sheets(
    plate: Plate,
    order: Order,
    tones: NDArray[np.uint8],
    grid: Grid,
    step: int,
    *,
    made_on: date,
    paper: Paper = A4,
    passages: Sequence[Passage] = (),
) -> tuple[Sheet, ...]:
    """The stop-out map of one step, true size, mirrored as on the plate.

    Parameters
    ----------
    plate, order : Plate, Order
        Title and size; what the step stops out.
    tones : (h, w) array of uint8
        The tone of every cell, as the print is seen.
    grid : Grid
        The cells on the plate.
    step : int, >= 1
        Its areas: the cells of tone ``step`` - 1, over those of all lighter tones.
    made_on : date
        The day that the sheet carries.
    paper : Paper
        The office paper, upright.
    passages : sequence of Passage
        Soft passages of all steps; those of this one are dotted, numbered and explained.

    Returns
    -------
    tuple of Sheet
        One page if the plate fits; else pieces that overlap.
    """
    size = plate.size
    layers = _layers(tones, step, grid)
    lying = cells_box(grid, size.width_mm)
    soft = [passage for passage in passages if passage.step == step]
    drawing = Drawing(
        heading=_heading(order.steps[step - 1], order, soft),
        width_mm=size.width_mm,
        height_mm=size.height_mm,
        plate=Box(0.0, 0.0, size.width_mm, size.height_mm),
        marks=lambda shown: [
            dotted(layers, lying, shown, grid),
            *passage_marks(soft, size.width_mm, shown),
        ],
    )
    return true_size_sheets([drawing], title=plate.title, made_on=made_on, paper=paper)


def _layers(tones: NDArray[np.uint8], step: int, grid: Grid) -> Sequence[Layer]:
    """What of the plate is painted now, and what is covered, mirrored left to right."""
    per_mm = dots_per_mm(grid)
    now, covered = tones[:, ::-1] == step - 1, tones[:, ::-1] < step - 1
    edge = max(round(NOW_EDGE_MM * grid.px_per_mm), 1)
    borders = now & ~inner(now, edge) | covered & ~inner(now | covered, 1)
    return (
        Layer(borders, SOLID),
        Layer(now, lines_pattern(*NOW_MM, per_mm, rising=True)),
        Layer(covered, lines_pattern(*COVERED_MM, per_mm, rising=False)),
    )


def _heading(step: Step, order: Order, soft: Sequence[Passage]) -> Heading:
    what = stopped_out(step, order.tones)
    return Heading(
        name=say("Map · step {step}: stop out {what}", step=step.step, what=what),
        lies=say("Mirrored, as on the plate. The bite makes tone {tone}.", tone=step.step),
        key=(*_key(), *passage_key(soft)),
    )


def _key() -> tuple[Block, ...]:
    signs: tuple[tuple[tuple[Mark, ...], str], ...] = (
        (
            (stripes(FIELD, *NOW_MM, rising=True), frame(FIELD.inset(0.3), NOW_EDGE_MM)),
            say("paint now"),
        ),
        (
            (stripes(FIELD, *COVERED_MM, rising=False), frame(FIELD, 0.13)),
            say("covered already"),
        ),
        ((frame(FIELD, 0.13),), say("open metal, bites")),
    )
    return tuple(sign(marks, words) for marks, words in signs)
