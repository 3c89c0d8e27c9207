"""Pages at true size: a head, a drawing in millimetres, its marks, and a bar to check with.

What is larger than a page is spread over several, and never shrunk. The page is turned where that
takes fewer pieces; the drawing never is.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date

from toneladder.boxes import Box
from toneladder.sheets.edge_marks import GUTTER_MM, corner_marks, outline, piece_marks
from toneladder.sheets.marks import Mark, Paper, Sheet
from toneladder.sheets.order_head import Folio
from toneladder.sheets.setting import Block, moved
from toneladder.sheets.tiling import Tile, tiles
from toneladder.sheets.true_size_frame import Heading, foot, head
from toneladder.wording import say

MARGIN_MM = 9.0
"""Bare paper round every page: the printer's own margin, and a little."""

_ALONE = Tile(0, 0, 1, 1, Box(0, 0, 1, 1), Box(0, 0, 1, 1))
_AMONG = Tile(1, 1, 3, 3, Box(0, 0, 1, 1), Box(0, 0, 1, 1))


@dataclass(frozen=True, slots=True)
class Drawing:
    """What is drawn at true size, under its heading.

    ``width_mm`` and ``height_mm`` are the whole drawing's; ``plate`` is where the plate lies in
    it; ``marks`` gives what lies in a piece of it, in millimetres from the drawing's top left.
    """

    heading: Heading
    width_mm: float
    height_mm: float
    plate: Box
    marks: Callable[[Box], Sequence[Mark]]

    @property
    def whole(self) -> Box:
        """All of the drawing."""
        return Box(0.0, 0.0, self.width_mm, self.height_mm)


def true_size_sheets(
    drawings: Sequence[Drawing], *, title: str, made_on: date, paper: Paper
) -> tuple[Sheet, ...]:
    """The drawings of one file, each on one page or spread over several.

    Parameters
    ----------
    drawings : sequence of Drawing
        In order; each begins a page.
    title : str
        The plate's.
    made_on : date
        The day that every page carries.
    paper : Paper
        The office paper, upright; pages may lie the other way.
    """
    name = " ".join(title.split()) or say("Untitled plate")
    lying = [
        (lies, Folio(name, made_on, say("true size, 1 : 1"), lies.width_mm - 2 * MARGIN_MM))
        for lies in (paper, paper.turned)
    ]
    pages = [
        (drawing, tile, folio, lies)
        for drawing in drawings
        for spread, folio, lies in [_best_spread(drawing, lying)]
        for tile in spread
    ]
    return tuple(
        Sheet(lies, _page(drawing, tile, folio, (at, len(pages))), name, at, len(pages), tile)
        for at, (drawing, tile, folio, lies) in enumerate(pages, start=1)
    )


def _best_spread(
    drawing: Drawing, lying: Sequence[tuple[Paper, Folio]]
) -> tuple[tuple[Tile, ...], Folio, Paper]:
    """The first way for a page to lie that takes the fewest pieces."""
    ways = [(_spread(drawing, folio, paper), folio, paper) for paper, folio in lying]
    return min(ways, key=lambda way: len(way[0]))


def _spread(drawing: Drawing, folio: Folio, paper: Paper) -> tuple[Tile, ...]:
    """How a drawing falls into pages; only where there are several does the foot explain them."""
    top = head(drawing.heading, folio, (99, 99)).height
    found: tuple[Tile, ...] = ()
    for sample in (_ALONE, _AMONG):
        low = foot(drawing.heading, folio.width, sample).height
        height = paper.height_mm - 2 * MARGIN_MM - 2 * GUTTER_MM - top - low
        room = (folio.width - 2 * GUTTER_MM, height)
        found = tiles(drawing.width_mm, drawing.height_mm, room)
        if len(found) == 1:
            break
    return found


def _page(drawing: Drawing, tile: Tile, folio: Folio, page: tuple[int, int]) -> tuple[Mark, ...]:
    """Everything on one page: the head, the piece in the middle, the foot below it."""
    above, below = head(drawing.heading, folio, page), foot(drawing.heading, folio.width, tile)
    shown = tile.shown
    left = MARGIN_MM + (folio.width - shown.width) / 2
    top = MARGIN_MM + above.height + GUTTER_MM
    marks = (
        *drawing.marks(shown),
        *outline(drawing.plate, shown),
        *(corner_marks(drawing.plate, shown) if drawing.plate != drawing.whole else ()),
        *piece_marks(tile),
    )
    return (
        *moved(above, MARGIN_MM, MARGIN_MM),
        *moved(Block(shown.width, shown.height, marks), left - shown.x, top - shown.y),
        *moved(below, MARGIN_MM, top + shown.height + GUTTER_MM),
    )
