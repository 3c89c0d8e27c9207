"""The registration sheet: where plate and paper lie on the press bed, at true size."""

from datetime import date

from toneladder.boxes import Box, Point
from toneladder.lettering import Face
from toneladder.plate.values import Plate
from toneladder.quantities import write_size
from toneladder.sheets.edge_marks import TO_MM, outline
from toneladder.sheets.marks import A4, Mark, Paper, Path, Sheet, line
from toneladder.sheets.setting import BODY_MM, HAIR_MM, HEAVY_MM, Block, label, moved
from toneladder.sheets.tiling import OVERLAP_MM
from toneladder.sheets.true_size import Drawing, true_size_sheets
from toneladder.sheets.true_size_frame import FIELD, Heading, sign
from toneladder.wording import say

MARGINS_MM = (50.0, 80.0)
"""Usual margins of paper round a plate: common practice, no source."""

_MIDDLE_DASH_MM = (6.0, 2.5)
_INDENT_MM = 4.0


def registration_sheets(
    plate: Plate,
    *,
    made_on: date,
    paper: Paper = A4,
    margin_mm: float | None = None,
    foot_mm: float | None = None,
) -> tuple[Sheet, ...]:
    """Outlines of plate and paper, with the middle lines of both, to lie on the press bed.

    Parameters
    ----------
    plate : Plate
        Its size; the margin of its paper, if none is given here.
    made_on : date
        The day that the sheet carries.
    paper : Paper
        The office paper that it is printed on, upright.
    margin_mm : float, > 0, optional
        Bare paper round the plate; without it the plate's own, kept within what is usual.
    foot_mm : float, > 0, optional
        Bare paper below the plate, if it is to be larger.
    """
    size = plate.size
    margin = margin_mm or min(max(plate.printing.margin_mm, MARGINS_MM[0]), MARGINS_MM[1])
    foot = foot_mm or margin
    metal = Box(margin, margin, size.width_mm, size.height_mm)
    sheet = Box(0.0, 0.0, size.width_mm + 2 * margin, size.height_mm + margin + foot)
    drawing = Drawing(
        heading=Heading(
            name=say("Registration sheet"),
            lies=say("Plate face up on its outline, paper face down over it, foot towards you."),
            key=_key(),
        ),
        width_mm=sheet.width,
        height_mm=sheet.height,
        plate=metal,
        marks=lambda shown: _marks(metal, sheet, shown),
    )
    return true_size_sheets([drawing], title=plate.title, made_on=made_on, paper=paper)


def _marks(metal: Box, sheet: Box, shown: Box) -> list[Mark]:
    """The paper's outline, the middle lines, and what is what, wherever a page has room."""
    middle_x, middle_y = metal.x + metal.width / 2, metal.y + metal.height / 2
    middles: list[tuple[Point, Point]] = [
        ((middle_x, sheet.y), (middle_x, sheet.bottom)),
        ((sheet.x, middle_y), (sheet.right, middle_y)),
    ]
    marks: list[Mark] = [
        *outline(sheet, shown, HEAVY_MM),
        Path(tuple(middles), stroke_mm=HAIR_MM, dash_mm=_MIDDLE_DASH_MM, within=shown),
    ]
    size = write_size(metal.width, metal.height)
    above_plate = metal.y - TO_MM - BODY_MM - 1.5
    return [
        *marks,
        *_named(say("plate {size}", size=size), (metal.x, above_plate), middle_x, shown),
        *_named(
            say("paper {size}", size=write_size(sheet.width, sheet.height)),
            (sheet.x, sheet.y + 1.5),
            middle_x,
            shown,
        ),
        *_named(say("foot of the paper"), (sheet.x, sheet.bottom - BODY_MM - 2.5), middle_x, shown),
    ]


def _named(words: str, at: Point, middle_x: float, shown: Box) -> tuple[Mark, ...]:
    """``words`` beside an edge that begins at ``at``, wherever a page has room for them.

    They never lie across the upright middle line.
    """
    block = label(words, Face.SANS_BOLD, BODY_MM)
    x = (at[0] if at[0] >= shown.x else shown.x + OVERLAP_MM) + _INDENT_MM
    if x - 1.0 < middle_x < x + block.width + 1.0:
        before = middle_x - block.width - 1.5
        x = before if before >= shown.x else middle_x + _INDENT_MM
    fits = shown.covers(Box(x, at[1], block.width, block.height))
    return moved(block, x, at[1]) if fits else ()


def _key() -> tuple[Block, ...]:
    middle = FIELD.y + FIELD.height / 2
    ends = ((0.0, middle), (FIELD.width, middle))
    return (
        sign((line(*ends, HEAVY_MM),), say("edge of the paper")),
        sign((line(*ends, HAIR_MM),), say("edge of the plate")),
        sign(
            (Path((ends,), stroke_mm=HAIR_MM, dash_mm=(3.0, 1.5)),),
            say("middle lines of the plate"),
        ),
    )
