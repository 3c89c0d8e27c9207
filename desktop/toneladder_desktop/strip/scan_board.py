"""A scan with the strip that was found on it: its patches outlined, its corners to be dragged."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QImage,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
    QPolygonF,
)
from PySide6.QtWidgets import QWidget

from toneladder.wording import say
from toneladder_desktop.drawing.style import ON_SURROUND, SURROUND, Type, colours_of, font

if TYPE_CHECKING:
    from toneladder.scans.values import Corners, FoundStrip

_REACH = 16.0
_HANDLE = 6.0
_STEP, _LEAP = 1.0, 10.0
_PAD = 10.0


class ScanBoard(QWidget):
    """The scan; ``moved(corners)`` says where somebody has put the strip's corners."""

    moved = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(say("The scan, with the patches found on it"))
        self.setMinimumSize(200, 120)
        self._pixmap = QPixmap()
        self._sides = (1, 1)
        self._found: FoundStrip | None = None
        self._corner: int | None = None
        self._taken = False

    @property
    def found(self) -> "FoundStrip | None":
        """The strip that is shown."""
        return self._found

    def show_scan(self, image: QImage, width: int, height: int) -> None:
        """Another scan: a small copy, and its true sides in pixels."""
        self._pixmap, self._sides = QPixmap.fromImage(image), (width, height)
        self._found = None
        self.update()

    def show_found(self, found: "FoundStrip | None") -> None:
        """The strip and its patches."""
        self._found = found
        self.setAccessibleDescription(
            "" if found is None else say("{n} patches found", n=len(found.patches))
        )
        self.update()

    def lay_by_hand(self, patches: int) -> None:
        """No strip was found: begin with one in the middle, for its corners to be dragged."""
        from toneladder.scans.finding import strip_between

        width, height = self._sides
        x, y, w, h = 0.1 * width, 0.4 * height, 0.8 * width, 0.2 * height
        corners = ((x, y), (x + w, y), (x + w, y + h), (x, y + h))
        self.show_found(strip_between(corners, patches))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Space goes from corner to corner, the arrows move it, with Shift farther."""
        ways = {
            Qt.Key.Key_Left: (-1.0, 0.0),
            Qt.Key.Key_Right: (1.0, 0.0),
            Qt.Key.Key_Up: (0.0, -1.0),
            Qt.Key.Key_Down: (0.0, 1.0),
        }
        key = Qt.Key(event.key())
        if self._found is not None and key == Qt.Key.Key_Space:
            self._corner = ((-1 if self._corner is None else self._corner) + 1) % 4
            self.update()
        elif self._found is not None and self._corner is not None and key in ways:
            shift = event.modifiers() & Qt.KeyboardModifier.ShiftModifier
            step = (_LEAP if shift else _STEP) / self._scale()
            dx, dy = ways[key]
            x, y = self._found.corners[self._corner]
            self._put(QPointF(x + dx * step, y + dy * step))
            if self._found is not None:
                self.moved.emit(self._found.corners)
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take the nearest corner."""
        if self._found is None or event.button() is not Qt.MouseButton.LeftButton:
            return
        at = event.position()
        away = [(self._px(c) - at).manhattanLength() for c in self._found.corners]
        near = min(range(4), key=away.__getitem__)
        if away[near] <= _REACH:
            self._corner, self._taken = near, True
            self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """The corner goes with the hand."""
        if self._taken:
            self._put((event.position() - self._frame().topLeft()) / self._scale())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go: the strip is read anew."""
        if self._taken and event.button() is Qt.MouseButton.LeftButton:
            self._taken = False
            if self._found is not None:
                self.moved.emit(self._found.corners)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw scan, patches, corners."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.fillRect(self.rect(), QColor(SURROUND))
        if self._pixmap.isNull():
            painter.setPen(QColor(ON_SURROUND))
            painter.setFont(font(Type.NOTE))
            words = say("Drop a scan or a photograph of the strip here, or open one.")
            inside = self.rect().adjusted(20, 10, -20, -10)
            flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
            painter.drawText(inside, flags, words)
        else:
            painter.drawPixmap(self._frame(), self._pixmap, QRectF(self._pixmap.rect()))
        if self._found is not None:
            self._paint_strip(painter, self._found)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(colours_of(self).ink), 2.0))
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))

    def _paint_strip(self, painter: QPainter, found: "FoundStrip") -> None:
        for colour, width in (("white", 3.0), (ON_SURROUND, 1.2)):
            painter.setPen(QPen(QColor(colour), width))
            for quad in (*found.patches, *found.steps):
                painter.drawPolygon(QPolygonF([self._px(corner) for corner in quad]))
        painter.setFont(font(Type.STRONG))
        for number, quad in enumerate(found.patches, start=1):
            self._paint_number(painter, number, QPolygonF([self._px(c) for c in quad]))
        for k, corner in enumerate(found.corners):
            at = self._px(corner)
            picked = k == self._corner
            painter.setPen(QPen(QColor(ON_SURROUND), 2.0))
            painter.setBrush(QColor(ON_SURROUND if picked else "white"))
            painter.drawRect(QRectF(at.x() - _HANDLE, at.y() - _HANDLE, 2 * _HANDLE, 2 * _HANDLE))
            painter.setBrush(Qt.BrushStyle.NoBrush)

    def _paint_number(self, painter: QPainter, number: int, quad: QPolygonF) -> None:
        middle = quad.boundingRect().center()
        box = QRectF(middle.x() - 10.0, middle.y() - 9.0, 20.0, 18.0)
        painter.fillRect(box, QColor("white"))
        painter.setPen(QColor(ON_SURROUND))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, str(number))

    def _put(self, at: QPointF) -> None:
        if self._found is None or self._corner is None:
            return
        from toneladder.scans.finding import strip_between

        width, height = self._sides
        corners = list(self._found.corners)
        corners[self._corner] = (min(max(at.x(), 0.0), width), min(max(at.y(), 0.0), height))
        laid: Corners = (corners[0], corners[1], corners[2], corners[3])
        self.show_found(strip_between(laid, len(self._found.patches)))

    def _px(self, corner: tuple[float, float]) -> QPointF:
        return self._frame().topLeft() + QPointF(*corner) * self._scale()

    def _scale(self) -> float:
        width, height = self._sides
        return min((self.width() - 2 * _PAD) / width, (self.height() - 2 * _PAD) / height)

    def _frame(self) -> QRectF:
        scale = self._scale()
        width, height = (side * scale for side in self._sides)
        return QRectF((self.width() - width) / 2.0, (self.height() - height) / 2.0, width, height)
