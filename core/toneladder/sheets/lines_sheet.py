"""The pen lines at true size: to trace through the hard ground, and to stop out the finest."""

from collections.abc import Sequence
from datetime import date

import numpy as np
from numpy.typing import NDArray

from toneladder.boxes import Box
from toneladder.picture.values import Grid
from toneladder.plate.values import Plate
from toneladder.sheets.cell_dots import SOLID, Layer, cells_box, dots_per_mm, dotted, field
from toneladder.sheets.guide_sheet import screen
from toneladder.sheets.marks import A4, BoolArray, Paper, Sheet, filled, frame
from toneladder.sheets.setting import Block
from toneladder.sheets.true_size import Drawing, true_size_sheets
from toneladder.sheets.true_size_frame import FIELD, Heading, sign
from toneladder.wording import say

PALE, PALE_MM = 0.25, 0.5
"""Share of black, and side of the square of two dots, in lines that are not meant."""


def line_sheets(
    plate: Plate,
    depth: NDArray[np.uint8],
    grid: Grid,
    *,
    made_on: date,
    paper: Paper = A4,
) -> tuple[Sheet, ...]:
    """All lines to be traced, then what is stopped out after every line bite but the last.

    Parameters
    ----------
    plate : Plate
        Title and size.
    depth : (h, w) array of uint8
        As the print is seen: 0 where there is no line, else the line's depth, 1 the finest.
    grid : Grid
        The cells on the plate.
    made_on : date
        The day that the sheet carries.
    paper : Paper
        The office paper, upright.

    Returns
    -------
    tuple of Sheet
        Mirrored as on the plate, each on one page if the plate fits.
    """
    seen = depth[:, ::-1]
    size = plate.size
    pale = screen(PALE, 2 * round(PALE_MM * dots_per_mm(grid) / 2))
    lying = cells_box(grid, size.width_mm)

    def drawing(heading: Heading, layers: Sequence[Layer]) -> Drawing:
        return Drawing(
            heading=heading,
            width_mm=size.width_mm,
            height_mm=size.height_mm,
            plate=Box(0.0, 0.0, size.width_mm, size.height_mm),
            marks=lambda shown: [dotted(layers, lying, shown, grid)],
        )

    drawings = [drawing(_all_lines(), [Layer(seen > 0, SOLID)])]
    for done in range(1, int(depth.max(initial=0))):
        layers = [Layer(seen == done, SOLID), Layer((seen > 0) & (seen != done), pale)]
        drawings.append(drawing(_stop_out(done, pale, dots_per_mm(grid)), layers))
    return true_size_sheets(drawings, title=plate.title, made_on=made_on, paper=paper)


def _all_lines() -> Heading:
    return Heading(
        say("Line tracing"),
        say("Mirrored, lay face up over transfer paper; left here is left on the plate."),
    )


def _stop_out(done: int, pale: BoolArray, per_mm: float) -> Heading:
    return Heading(
        say("Lines · after line bite {n}", n=done),
        say("Mirrored, as on the plate. Stop out what is black."),
        _key(pale, per_mm),
    )


def _key(pale: BoolArray, per_mm: float) -> tuple[Block, ...]:
    return (
        sign((filled([FIELD.corners]),), say("stop out now")),
        sign((field(FIELD, pale, per_mm), frame(FIELD, 0.13)), say("other lines")),
    )
