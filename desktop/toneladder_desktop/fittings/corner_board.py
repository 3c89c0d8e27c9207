"""A scan with four corners on it, that a hand or keys put where they belong."""

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

from toneladder_desktop.drawing.style import ON_SURROUND, SURROUND, Type, colours_of, font

Corners = tuple[tuple[float, float], ...]
"""Four points of the scan, in its pixels; empty if nothing lies on it."""

_REACH, _HANDLE, _PAD = 18.0, 6.0, 10.0
_STEP, _LEAP = 1.0, 10.0
_WAYS = {
    Qt.Key.Key_Left: (-1.0, 0.0),
    Qt.Key.Key_Right: (1.0, 0.0),
    Qt.Key.Key_Up: (0.0, -1.0),
    Qt.Key.Key_Down: (0.0, 1.0),
}


class CornerBoard(QWidget):
    """The scan; ``moved(corners)`` says where somebody has put the corners.

    Space goes from corner to corner, the arrows move the one that is picked, with Shift farther,
    Enter is done with it.
    """

    moved = Signal(object)

    def __init__(self, name: str, empty: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(name)
        self.setMinimumSize(220, 120)
        self._empty = empty
        self._pixmap = QPixmap()
        self._sides = (1, 1)
        self._corners: Corners = ()
        self._picked: int | None = None
        self._taken = False

    @property
    def corners(self) -> Corners:
        """Where the corners are."""
        return self._corners

    @property
    def empty(self) -> bool:
        """Whether no scan lies on it."""
        return self._pixmap.isNull()

    @property
    def sides(self) -> tuple[int, int]:
        """Width and height of the scan, in its pixels."""
        return self._sides

    def show_scan(self, image: QImage, width: int, height: int) -> None:
        """Another scan: a small copy, and its true sides in pixels."""
        self._pixmap, self._sides = QPixmap.fromImage(image), (width, height)
        self.show_corners(())

    def show_corners(self, corners: Corners) -> None:
        """Corners, or none."""
        self._corners = corners
        self.update()

    def px(self, corner: tuple[float, float]) -> QPointF:
        """Where a point of the scan is seen."""
        return self._frame().topLeft() + QPointF(*corner) * self._scale()

    def paint_over(self, painter: QPainter) -> None:
        """What lies between the scan and the corners' handles: the outline alone, unless more."""
        outline = QPolygonF([self.px(corner) for corner in self._corners])
        for colour, width in (("white", 3.0), (ON_SURROUND, 1.2)):
            painter.setPen(QPen(QColor(colour), width))
            painter.drawPolygon(outline)

    def put(self, corners: Corners) -> None:
        """A hand has moved a corner, and is not done yet."""
        self.show_corners(corners)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Space picks a corner, the arrows move it."""
        key = Qt.Key(event.key())
        if not self._corners:
            super().keyPressEvent(event)
        elif key == Qt.Key.Key_Space:
            self._picked = ((-1 if self._picked is None else self._picked) + 1) % 4
            self.update()
        elif key in _WAYS and self._picked is not None:
            shift = event.modifiers() & Qt.KeyboardModifier.ShiftModifier
            step = (_LEAP if shift else _STEP) / self._scale()
            x, y = self._corners[self._picked]
            self._move(QPointF(x + _WAYS[key][0] * step, y + _WAYS[key][1] * step))
            self.moved.emit(self._corners)
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take the nearest corner."""
        if not self._corners or event.button() is not Qt.MouseButton.LeftButton:
            return
        away = [(self.px(c) - event.position()).manhattanLength() for c in self._corners]
        near = min(range(len(away)), key=away.__getitem__)
        if away[near] <= _REACH:
            self._picked, self._taken = near, True
            self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """The corner goes with the hand."""
        if self._taken:
            self._move((event.position() - self._frame().topLeft()) / self._scale())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go."""
        if self._taken and event.button() is Qt.MouseButton.LeftButton:
            self._taken = False
            self.moved.emit(self._corners)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw scan, outline, corners."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.fillRect(self.rect(), QColor(SURROUND))
        if self._pixmap.isNull():
            say_in(self, painter, self._empty)
        else:
            painter.drawPixmap(self._frame(), self._pixmap, QRectF(self._pixmap.rect()))
        if self._corners:
            self.paint_over(painter)
            self._paint_handles(painter)
        if self.hasFocus():
            painter.setPen(QPen(QColor(colours_of(self).ink), 2.0))
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))

    def _paint_handles(self, painter: QPainter) -> None:
        painter.setPen(QPen(QColor(ON_SURROUND), 2.0))
        for number, corner in enumerate(self._corners):
            at = self.px(corner)
            painter.setBrush(QColor(ON_SURROUND if number == self._picked else "white"))
            box = QRectF(at.x() - _HANDLE, at.y() - _HANDLE, 2 * _HANDLE, 2 * _HANDLE)
            painter.drawRect(box)
        painter.setBrush(Qt.BrushStyle.NoBrush)

    def _move(self, at: QPointF) -> None:
        if self._picked is None:
            return
        width, height = self._sides
        corners = list(self._corners)
        corners[self._picked] = (min(max(at.x(), 0.0), width), min(max(at.y(), 0.0), height))
        self.put(tuple(corners))

    def _scale(self) -> float:
        width, height = self._sides
        return min((self.width() - 2 * _PAD) / width, (self.height() - 2 * _PAD) / height)

    def _frame(self) -> QRectF:
        scale = self._scale()
        width, height = (side * scale for side in self._sides)
        return QRectF((self.width() - width) / 2.0, (self.height() - height) / 2.0, width, height)


def say_in(widget: QWidget, painter: QPainter, words: str) -> None:
    """Words in the middle of an empty board."""
    painter.setPen(QColor(ON_SURROUND))
    painter.setFont(font(Type.NOTE))
    flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
    painter.drawText(widget.rect().adjusted(20, 10, -20, -10), flags, words)
