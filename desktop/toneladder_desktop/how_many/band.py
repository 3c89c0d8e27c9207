"""Paints the upper part of the test strip: the whole print with its frame, and the columns."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF

from toneladder.boxes import Box
from toneladder.lettering import wrapped
from toneladder_desktop.drawing.colour_table import of_tones
from toneladder_desktop.drawing.ruling import Ruling, Set, width_of
from toneladder_desktop.drawing.style import HAIR, ON_SURROUND, SURROUND, Type
from toneladder_desktop.how_many.content import Content
from toneladder_desktop.how_many.layout import Layout
from toneladder_desktop.how_many.pictures import Pictures, Seen
from toneladder_desktop.how_many.piece import EVERYTHING, Piece
from toneladder_desktop.how_many.words import WAITING, beside_number, caption_of

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from toneladder.plan.comparing import Offer

_WHITE = "#FFFFFF"
_EMPTY = "#B9B9B9"
_LINE = 17.0


@dataclass(frozen=True, slots=True)
class Band:
    """What is painted on the neutral grey.

    ``cells`` is the plate's grid as the brush sees it, (height, width) of uint8; ``piece`` is the
    part of it that all columns show.
    """

    content: Content
    layout: Layout
    cells: "NDArray[np.uint8]"
    piece: Piece
    pictures: Pictures
    has_keys: bool

    def paint(self, ruling: Ruling) -> None:
        """The whole band, and the rules of the column in focus, which go on below it."""
        band = self.layout.band
        ruling.fill(band.x, band.y, band.width, band.height, SURROUND)
        self._whole(ruling)
        self._caption(ruling)
        for k in range(len(self.content.counts)):
            self._head(ruling, k)
            self._strip(ruling, k)
        self._focus(ruling)

    def _whole(self, ruling: Ruling) -> None:
        sheet, plate = self.layout.sheet, self.layout.plate
        paper = self.content.plate.printing.paper
        ruling.fill(sheet.x, sheet.y, sheet.width, sheet.height, paper)
        self._put(ruling, self.content.focus, EVERYTHING, plate)
        frame = self.layout.frame(self.piece)
        _ring(ruling, frame, 4.0, ON_SURROUND, 4.0)
        _ring(ruling, frame, 2.0, _WHITE, 2.0)

    def _caption(self, ruling: Ruling) -> None:
        area = self.layout.caption
        whole, hint = caption_of(self.content)
        lines = [whole, *wrapped(hint, *Type.SMALL.value, area.width - 4.0)]
        one = f"{whole} · {hint}"
        if width_of(one, Type.SMALL) <= area.width - 4.0:
            lines = [one]
        for k, line in enumerate(lines[:3]):
            ruling.words(
                area.centre, area.y + 8.0 + k * _LINE, line, Type.SMALL, ON_SURROUND, Set.MIDDLE
            )

    def _head(self, ruling: Ruling, k: int) -> None:
        number, tones = self.layout.numbers[k], self.layout.tones[k]
        offer = self.content.offer(k)
        text = str(self.content.counts[k])
        y = number.y + number.height / 2.0
        ruling.words(number.centre, y, text, Type.HEAD, ON_SURROUND, Set.MIDDLE)
        sign, word = beside_number(self.content, k)
        half = width_of(text, Type.HEAD) / 2.0
        ruling.words(number.centre + half + 4.0, y, sign, Type.HEAD, ON_SURROUND)
        if not self.layout.narrow:
            ruling.words(number.centre - half - 5.0, y, word, Type.SMALL, ON_SURROUND, Set.RIGHT)
        if offer is not None:
            self._tones(ruling, tones, offer)
        ruling.frame(tones.x, tones.y, tones.width, tones.height, ON_SURROUND, HAIR)

    def _tones(self, ruling: Ruling, area: Box, offer: "Offer") -> None:
        """Each tone as it prints, side by side."""
        each = area.width / offer.count
        printing = self.content.plate.printing
        for n, colour in enumerate(of_tones(offer.chosen, printing, None).tolist()):
            ruling.fill(area.x + n * each, area.y, each, area.height, "#" + bytes(colour).hex())
            if n:
                ruling.upright(area.x + n * each, area.y, area.bottom, ON_SURROUND, HAIR)

    def _strip(self, ruling: Ruling, k: int) -> None:
        shown = self.layout.shown(self.piece, k)
        self._put(ruling, k, self.piece, shown)
        if self.content.offer(k) is None:
            ruling.words(shown.centre, shown.y + 20.0, WAITING, Type.TEXT, ON_SURROUND, Set.MIDDLE)
        ruling.frame(
            shown.x - HAIR,
            shown.y - HAIR,
            shown.width + 2 * HAIR,
            shown.height + 2 * HAIR,
            ON_SURROUND,
            HAIR,
        )

    def _focus(self, ruling: Ruling) -> None:
        column, band = self.layout.columns[self.content.focus], self.layout.band
        thick = 2.0 if self.has_keys else 1.0
        for x in (column.x, column.right):
            ruling.upright(x, band.y, band.bottom, ON_SURROUND, thick)

    def _put(self, ruling: Ruling, column: int, piece: Piece, area: Box) -> None:
        """A piece of the picture in one number of tones, or plain while that is worked out."""
        left, top = ruling.across(area.x), ruling.down(area.y)
        width, height = ruling.across(area.right) - left, ruling.down(area.bottom) - top
        offered = self.content.offered[column]
        if offered is None:
            ruling.fill(left, top, width, height, _EMPTY)
            return
        printing = self.content.plate.printing
        seen = Seen(width, height, ruling.painter.deviceTransform().m11())
        image = self.pictures.picture(offered, printing, self.cells, piece, seen)
        ruling.painter.drawImage(QRectF(left, top, width, height), image)


def _ring(ruling: Ruling, area: Box, outside: float, colour: str, thick: float) -> None:
    ruling.frame(
        area.x - outside,
        area.y - outside,
        area.width + 2.0 * outside,
        area.height + 2.0 * outside,
        colour,
        thick,
    )
