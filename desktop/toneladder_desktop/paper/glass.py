"""The loupe on the print: a square glass with ruled edges, ten ticks to the millimetre."""

from math import floor
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from toneladder.wording import say
from toneladder_desktop.drawing.ruling import Ruling, Set
from toneladder_desktop.drawing.style import LIGHT, Type
from toneladder_desktop.paper.aim import Aim
from toneladder_desktop.paper.body import PaperBody

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

INNER = 200
"""Side of the glass, in the window's pixels."""

_FRAME, _RULE, _FOOT, _SIDE = 2, 18, 26, 10
_TICKS = {10: 12.0, 5: 9.0, 1: 5.0}
_EDGE_MM = 0.05


class Glass(QWidget):
    """Lies on the paper where it is aimed, and shows that place as large as it was told.

    At once it shows the paper's own cells; ``show_grain`` lays a finer picture over them. It
    lets every press through to the paper.
    """

    def __init__(self, paper: PaperBody) -> None:
        super().__init__(paper)
        self._paper = paper
        self.aim: Aim | None = None
        self._grain: tuple[QPoint, QImage] | None = None
        self._words = ""
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setAccessibleName(say("Loupe"))
        self.setFixedSize(2 * _FRAME + _RULE + INNER + _SIDE, 2 * _FRAME + _RULE + INNER + _FOOT)
        self.hide()

    @property
    def pixels(self) -> int:
        """Side of the glass in the screen's own pixels."""
        return round(INNER * self._paper.devicePixelRatioF())

    def look_at(self, aim: Aim, words: str) -> None:
        """Lie over another place; ``words`` say what is seen there."""
        if self.aim is not None and aim.um_per_px != self.aim.um_per_px:
            self._grain = None
        self.aim, self._words = aim, words
        if words != self.accessibleDescription():
            self.setAccessibleDescription(words)
        middle = self._paper.spot_of(aim.x_mm, aim.y_mm).toPoint()
        corner = middle - QPoint(_FRAME + _RULE + INNER // 2, _FRAME + _RULE + INNER // 2)
        room = self._paper.rect().size() - self.size()
        self.move(
            min(max(corner.x(), 0), max(room.width(), 0)),
            min(max(corner.y(), 0), max(room.height(), 0)),
        )
        self.update()

    def show_grain(self, image: "NDArray[np.uint8]", left: int, top: int) -> None:
        """A finer picture, (height, width, 3) sRGB bytes, from so many pixels of the plate on."""
        height, width = image.shape[:2]
        fine = QImage(image.tobytes(), width, height, 3 * width, QImage.Format.Format_RGB888)
        self._grain = QPoint(left, top), fine.convertToFormat(QImage.Format.Format_RGB32)
        self.update()

    def forget_grain(self) -> None:
        """The finer picture shows something that is no more."""
        self._grain = None
        self.update()

    @property
    def grained(self) -> bool:
        """Whether a finer picture is shown."""
        return self._grain is not None

    def seen(self) -> QImage:
        """What is seen through the glass, in the screen's own pixels."""
        aim, paper = self.aim, self._paper
        image = QImage(self.pixels, self.pixels, QImage.Format.Format_RGB32)
        image.fill(paper.paper_colour())
        if aim is None:
            return image
        painter = QPainter(image)
        painter.translate(-aim.left, -aim.top)
        self._paint_plate(painter, aim)
        if self._grain is not None:
            painter.drawImage(*self._grain)
        painter.end()
        return image.flipped(Qt.Orientation.Horizontal) if paper.mirrored else image

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw it."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(LIGHT.sheet))
        ruling = Ruling(painter)
        ruling.frame(0, 0, self.width(), self.height(), LIGHT.ink, _FRAME)
        start = _FRAME + _RULE
        if self.aim is not None:
            self._paint_ticks(ruling, self.aim.width_mm)
        foot = start + INNER + _FOOT / 2.0
        middle = self.width() / 2.0
        ruling.words(
            middle, foot, self._words, Type.SMALL, LIGHT.ink, Set.MIDDLE, self.width() - 2 * _SIDE
        )
        ratio = self.devicePixelRatioF()
        painter.scale(1.0 / ratio, 1.0 / ratio)
        at = floor(start * ratio + 0.5)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=False)
        painter.drawImage(at, at, self.seen())

    def _paint_plate(self, painter: QPainter, aim: Aim) -> None:
        """The paper's own cells, and the rim that the plate's edge leaves in the paper."""
        flat = self._paper.flat(aim)
        if flat is None:
            return
        plate = _between(aim, flat.plate)
        rim = max(1, aim.pixel(_EDGE_MM))
        paper = self._paper.paper_colour()
        painter.fillRect(plate.adjusted(-rim, -rim, rim, rim), paper.darker(118))
        painter.drawImage(_between(aim, flat.place), flat.image)

    @staticmethod
    def _paint_ticks(ruling: Ruling, width_mm: float) -> None:
        start, tenths = _FRAME + _RULE, round(10.0 * width_mm)
        for tick in range(tenths + 1):
            at = start + tick * INNER / tenths
            long = next(size for every, size in _TICKS.items() if tick % every == 0)
            ruling.upright(at, start - 2.0 - long, start - 2.0, LIGHT.ink)
            ruling.level(start - 2.0 - long, start - 2.0, at, LIGHT.ink)


def _between(aim: Aim, mm: QRectF) -> QRect:
    """A rectangle of the plate in the pixels of an aim."""
    left, top = aim.pixel(mm.left()), aim.pixel(mm.top())
    return QRect(left, top, aim.pixel(mm.right()) - left, aim.pixel(mm.bottom()) - top)
