"""Where everything of the test strip lies: whole print, columns, rows of figures, in pixels."""

from dataclasses import dataclass
from enum import IntEnum

from toneladder.boxes import Box
from toneladder_desktop.how_many.piece import Piece

ENLARGED = 2.0
"""How many times larger than in the whole print a piece is seen in its column."""

NARROW = 80.0
"""Columns below this width write their figures smaller and shorter."""

LEAST = 680, 360
"""Width and height below which the board does not go, in pixels."""

_PAD, _GAP = 16.0, 14.0
_PAPER = 12.0
_NUMBER, _TONES = 26.0, 10.0
_CAPTION = 56.0
_TAB, _GAIN = 24.0, 42.0
_SECOND_LINE = 15.0


class Row(IntEnum):
    """The rows of figures, from above."""

    STEPS = 0
    PAINTING = 1
    PLACES = 2
    DAY = 3
    DISTANCE = 4
    GAIN = 5


@dataclass(frozen=True, slots=True)
class Layout:
    """The places of one test strip.

    ``band`` is the neutral grey behind the whole print (``sheet`` its paper, ``plate`` the plate
    on it), its ``caption``, and the upper part of every column: ``numbers``, ``tones`` and
    ``strips``. ``columns`` reach from the top of the band to the ground line of the bars.
    ``rows`` are in the order of ``Row``; ``heads_end`` is where their heads end.
    """

    band: Box
    sheet: Box
    plate: Box
    caption: Box
    columns: tuple[Box, ...]
    numbers: tuple[Box, ...]
    tones: tuple[Box, ...]
    strips: tuple[Box, ...]
    rows: tuple[Box, ...]
    tab: Box
    heads_end: float
    narrow: bool

    def column_at(self, x: float, y: float) -> int | None:
        """The column under a place."""
        return next((k for k, area in enumerate(self.columns) if area.holds(x, y)), None)

    def piece(self, x: float, y: float) -> Piece:
        """The piece of the picture that a column holds, about a place in shares of the plate."""
        strip = self.strips[0]
        width = min(strip.width / ENLARGED / self.plate.width, 1.0)
        height = min(strip.height / ENLARGED / self.plate.height, 1.0)
        return Piece.about(x, y, width, height)

    def frame(self, piece: Piece) -> Box:
        """Where a piece lies in the whole print."""
        plate = self.plate
        return Box(
            plate.x + piece.x * plate.width,
            plate.y + piece.y * plate.height,
            piece.width * plate.width,
            piece.height * plate.height,
        )

    def shown(self, piece: Piece, column: int) -> Box:
        """Where a piece is seen in a column: at the top of the strip, in its middle."""
        strip = self.strips[column]
        width = piece.width * self.plate.width * ENLARGED
        height = piece.height * self.plate.height * ENLARGED
        return Box(strip.centre - width / 2.0, strip.y, width, height)


def lay_out(
    width: float, height: float, count: int, proportion: float, *, hard: bool = False
) -> Layout:
    """Places for ``count`` columns.

    Parameters
    ----------
    width, height : float, pixels
        Of the whole board.
    count : int, at least 1
        Columns.
    proportion : float, above 0
        The plate's width over its height.
    hard : bool
        A column says that it is hard to paint, which needs a second line.
    """
    left = min(max(0.3 * width, 176.0), 620.0)
    pitch = (width - left - _GAP - _PAD) / count
    rows, tab = _rows(width, height, hard=hard)
    band = Box(0.0, 0.0, width, rows[0].y)
    base = rows[Row.DISTANCE].bottom
    columns = tuple(Box(left + _GAP + k * pitch, 0.0, pitch, base) for k in range(count))
    inset = min(max(0.07 * pitch, 3.0), 10.0)
    strips_top = 8.0 + _NUMBER + _TONES + 6.0
    below = max(band.height - strips_top - 12.0, 20.0)
    sheet = _sheet(left, band.height, proportion)
    return Layout(
        band=band,
        sheet=sheet,
        plate=Box(
            sheet.x + _PAPER,
            sheet.y + _PAPER,
            sheet.width - 2.0 * _PAPER,
            sheet.height - 2.0 * _PAPER,
        ),
        caption=Box(_PAD, sheet.bottom + 8.0, left - _PAD, _CAPTION),
        columns=columns,
        numbers=tuple(Box(c.x, 6.0, pitch, _NUMBER) for c in columns),
        tones=tuple(Box(c.x + inset, 8.0 + _NUMBER, pitch - 2 * inset, _TONES) for c in columns),
        strips=tuple(Box(c.x + inset, strips_top, pitch - 2 * inset, below) for c in columns),
        rows=rows,
        tab=tab,
        heads_end=left,
        narrow=pitch < NARROW,
    )


def _rows(width: float, height: float, *, hard: bool) -> tuple[tuple[Box, ...], Box]:
    """The rows of figures at the foot, and the height of the tab between the last two."""
    plain = min(max(height / 24.0, 20.0), 30.0)
    bars = min(max(height / 8.0, 44.0), 110.0)
    heights = [plain] * 4 + [bars, _GAIN]
    heights[Row.PLACES] += _SECOND_LINE if hard else 0.0
    y = height - sum(heights) - _TAB - 4.0
    rows: list[Box] = []
    tab = Box(0.0, 0.0, 0.0, 0.0)
    for row in Row:
        if row is Row.GAIN:
            tab = Box(0.0, y, width, _TAB)
            y += _TAB
        rows.append(Box(_PAD, y, width - 2.0 * _PAD, heights[row]))
        y += heights[row]
    return tuple(rows), tab


def _sheet(left: float, band: float, proportion: float) -> Box:
    """The paper of the whole print, as large as the room above its caption allows."""
    across = max(left - _PAD - 2.0 * _PAPER, 40.0)
    down = max(band - 12.0 - _CAPTION - 8.0 - 2.0 * _PAPER, 40.0)
    width = min(across, down * proportion)
    wide, high = width + 2.0 * _PAPER, width / proportion + 2.0 * _PAPER
    return Box(_PAD + (left - _PAD - wide) / 2.0, 12.0, wide, high)
