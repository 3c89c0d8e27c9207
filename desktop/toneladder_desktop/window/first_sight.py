"""The window's first moment: the picture on its paper, and the edges of what comes round it.

What is imported here, and how it is painted, is what the first window waits for. So areas are
painted as images of one pixel: the first call that could be given a colour makes the whole of
Qt's own namespace, which takes longer than everything else here.
"""

import sys
from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, QTimer, Signal
from PySide6.QtGui import QImage, QPainter
from PySide6.QtWidgets import QWidget

from toneladder.picture.values import PlateSize
from toneladder.preview.values import InkAndPaper
from toneladder_desktop.drawing.style import APART, CARD, DAY, HAIR, LADDER, NEAR, SURROUND
from toneladder_desktop.paper.framing import FOOT_PX, fitted, snapped

if TYPE_CHECKING:
    from PySide6.QtGui import QPaintEvent

    from toneladder_desktop.drawing.style import Colours

MENUS, HEAD = 26, 48
"""Height of the menu bar and of the title's line, in pixels, before there are letters."""

_LONGEST_MM = 200.0


class FirstSight(QWidget):
    """Painted with Qt alone; everything in it lies where the bench will have it.

    ``seen`` says, once, that it was painted.
    """

    seen = Signal()

    def __init__(self, picture: QImage, colours: "Colours", parent: QWidget) -> None:
        super().__init__(parent)
        self.picture = picture
        self._colours = colours
        self._painted = False

    def place_of_paper(self) -> QRect:
        """Between card, ladder and day."""
        top, right = MENUS + HAIR + HEAD + HAIR, HAIR + LADDER + APART + NEAR
        return QRect(CARD, top, self.width() - CARD - right, self.height() - top - HAIR - DAY)

    def paintEvent(self, _event: "QPaintEvent") -> None:
        """Draw the ground, its rules, and the picture."""
        painter, paper = QPainter(self), self.place_of_paper()
        painter.drawImage(self.rect(), _pixel(self._colours.ground))
        self._rule(painter, paper)
        painter.drawImage(paper, _pixel(SURROUND))
        if not self.picture.isNull():
            self._lay(painter, paper)
        painter.end()
        if not self._painted:
            self._painted = True
            QTimer.singleShot(0, self.seen.emit)

    def _rule(self, painter: QPainter, paper: QRect) -> None:
        width, height, rule = self.width(), self.height(), _pixel(self._colours.rule)
        for box in (
            (0, MENUS, width, HAIR),
            (0, paper.top() - HAIR, paper.right() + 1, HAIR),
            (paper.left(), paper.bottom() + 1, paper.width(), HAIR),
            (paper.left() - HAIR, paper.top(), HAIR, height),
            (paper.right() + 1, MENUS, HAIR, height),
        ):
            painter.drawImage(QRect(*box), rule)

    def _lay(self, painter: QPainter, paper: QRect) -> None:
        """The picture on a sheet in its proportions, as the paper frames it."""
        picture, view = self.picture, (float(paper.width()), float(paper.height()))
        longest = max(picture.width(), picture.height())
        size = PlateSize(
            _LONGEST_MM * picture.width() / longest, _LONGEST_MM * picture.height() / longest
        )
        framing, ratio = fitted(view, size), self.devicePixelRatioF()
        plate = framing.plate(view, size)
        margin = framing.margin_mm * framing.px_per_mm
        foot = max(margin, FOOT_PX)
        painter.translate(paper.topLeft())
        sheet = QRect(
            round(plate.left - margin),
            round(plate.top - margin),
            round(plate.width + 2.0 * margin),
            round(plate.height + margin + foot),
        )
        painter.drawImage(sheet, _pixel(InkAndPaper().paper))
        painter.scale(1.0 / ratio, 1.0 / ratio)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.drawImage(QRect(*snapped(plate, ratio)), picture)


def _pixel(colour: str) -> QImage:
    """One pixel of a colour written ``#RRGGBB``."""
    value = int(colour.removeprefix("#"), 16) | 0xFF000000
    return QImage(value.to_bytes(4, sys.byteorder), 1, 1, 4, QImage.Format.Format_RGB32).copy()
