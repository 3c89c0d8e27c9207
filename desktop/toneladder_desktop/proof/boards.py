"""The scan of a proof with the plate's corners on it, and the map of what strayed."""

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
    from toneladder.proof.values import DifferenceMap, Place

Corners = tuple[tuple[float, float], ...]
_PAD, _REACH, _HANDLE = 10.0, 18.0, 6.0
_MOST = 12.0  # L* at which the map is full black or white


class ProofBoard(QWidget):
    """The scan; ``moved(corners)`` says where somebody has put the plate's corners on it."""

    moved = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(say("The scan of the proof, with the plate's corners"))
        self.setMinimumSize(220, 160)
        self._pixmap = QPixmap()
        self._sides = (1, 1)
        self._corners: Corners = ()
        self._corner: int | None = None
        self._taken = False

    @property
    def corners(self) -> Corners:
        """Where the plate's corners lie on the scan, pixels; none if it is not laid."""
        return self._corners

    def show_scan(self, image: QImage, width: int, height: int) -> None:
        """Another scan: a small copy, and its true sides in pixels."""
        self._pixmap, self._sides = QPixmap.fromImage(image), (width, height)
        self._corners = ()
        self.update()

    def show_corners(self, corners: Corners) -> None:
        """The plate's corners, from its top left clockwise."""
        self._corners = corners
        self.update()

    def mark_by_hand(self) -> None:
        """Begin with corners near those of the scan, to be dragged."""
        width, height = self._sides
        x, y = 0.12 * width, 0.12 * height
        self.show_corners(((x, y), (width - x, y), (width - x, height - y), (x, height - y)))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Space goes from corner to corner, the arrows move it; Enter lays the plate there."""
        ways = {
            Qt.Key.Key_Left: (-1.0, 0.0),
            Qt.Key.Key_Right: (1.0, 0.0),
            Qt.Key.Key_Up: (0.0, -1.0),
            Qt.Key.Key_Down: (0.0, 1.0),
        }
        key = Qt.Key(event.key())
        if not self._corners:
            super().keyPressEvent(event)
        elif key == Qt.Key.Key_Space:
            self._corner = ((-1 if self._corner is None else self._corner) + 1) % 4
            self.update()
        elif key in ways and self._corner is not None:
            shift = event.modifiers() & Qt.KeyboardModifier.ShiftModifier
            step = (10.0 if shift else 1.0) / self._scale()
            x, y = self._corners[self._corner]
            self._put(QPointF(x + ways[key][0] * step, y + ways[key][1] * step))
        elif key in {Qt.Key.Key_Return, Qt.Key.Key_Enter} and self._corner is not None:
            self.moved.emit(self._corners)
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take the nearest corner."""
        if not self._corners or event.button() is not Qt.MouseButton.LeftButton:
            return
        away = [(self._px(c) - event.position()).manhattanLength() for c in self._corners]
        near = min(range(4), key=away.__getitem__)
        if away[near] <= _REACH:
            self._corner, self._taken = near, True
            self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """The corner goes with the hand."""
        if self._taken:
            self._put((event.position() - self._frame().topLeft()) / self._scale())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go: the proof is read anew."""
        if self._taken and event.button() is Qt.MouseButton.LeftButton:
            self._taken = False
            self.moved.emit(self._corners)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw scan and corners."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.fillRect(self.rect(), QColor(SURROUND))
        if self._pixmap.isNull():
            _say_in(self, painter, say("Drop a scan of the proof here, or open one."))
        else:
            painter.drawPixmap(self._frame(), self._pixmap, QRectF(self._pixmap.rect()))
        if self._corners:
            outline = QPolygonF([self._px(corner) for corner in self._corners])
            for colour, width in (("white", 3.0), (ON_SURROUND, 1.2)):
                painter.setPen(QPen(QColor(colour), width))
                painter.drawPolygon(outline)
            for k, corner in enumerate(self._corners):
                at = self._px(corner)
                painter.setPen(QPen(QColor(ON_SURROUND), 2.0))
                painter.setBrush(QColor(ON_SURROUND if k == self._corner else "white"))
                box = QRectF(at.x() - _HANDLE, at.y() - _HANDLE, 2 * _HANDLE, 2 * _HANDLE)
                painter.drawRect(box)
                painter.setBrush(Qt.BrushStyle.NoBrush)
        if self.hasFocus():
            painter.setPen(QPen(QColor(colours_of(self).ink), 2.0))
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))

    def _put(self, at: QPointF) -> None:
        if self._corner is None:
            return
        corners = list(self._corners)
        corners[self._corner] = (at.x(), at.y())
        self.show_corners(tuple(corners))

    def _px(self, corner: tuple[float, float]) -> QPointF:
        return self._frame().topLeft() + QPointF(*corner) * self._scale()

    def _scale(self) -> float:
        width, height = self._sides
        return min((self.width() - 2 * _PAD) / width, (self.height() - 2 * _PAD) / height)

    def _frame(self) -> QRectF:
        scale = self._scale()
        width, height = (side * scale for side in self._sides)
        return QRectF((self.width() - width) / 2.0, (self.height() - height) / 2.0, width, height)


class StrayedMap(QWidget):
    """Where the print is lighter or darker than planned: light and dark about the neutral grey."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(say("Map of the differences"))
        self.setMinimumSize(220, 140)
        self._image = QImage()
        self._size_mm = (1.0, 1.0)
        self._places: tuple[Place, ...] = ()

    def show_map(self, found: "DifferenceMap | None", places: "tuple[Place, ...]") -> None:
        """The map of a proof, and its places that strayed, numbered; or nothing."""
        self._places = places
        self._image = QImage() if found is None else _grey(found)
        if found is not None:
            rows, columns = found.differences.shape
            self._size_mm = (columns * found.pitch_mm, rows * found.pitch_mm)
        self.setAccessibleDescription(say("{n} places strayed", n=len(places)))
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw it."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), QColor(SURROUND))
        if self._image.isNull():
            words = say("Where the print is darker than planned this map will be dark.")
            _say_in(self, painter, words)
            return
        across, down = self._size_mm
        scale = min((self.width() - 20) / across, (self.height() - 20) / down)
        width, height = across * scale, down * scale
        left, top = (self.width() - width) / 2.0, (self.height() - height) / 2.0
        painter.drawImage(QRectF(left, top, width, height), self._image)
        painter.setPen(QPen(QColor(ON_SURROUND), 1.0))
        painter.drawRect(QRectF(left, top, width, height))
        painter.setFont(font(Type.STRONG))
        for number, place in enumerate(self._places, start=1):
            at = QPointF(left + place.x_mm * scale, top + place.y_mm * scale)
            box = QRectF(at.x() - 9.0, at.y() - 9.0, 18.0, 18.0)
            painter.fillRect(box, QColor("white"))
            painter.drawRect(box)
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, str(number))


def _grey(found: "DifferenceMap") -> QImage:
    """Differences as greys about the surround: as planned is the surround itself."""
    import numpy as np

    share = np.clip(np.nan_to_num(found.differences) / _MOST, -1.0, 1.0)
    middle = int(SURROUND[1:3], 16)
    grey = np.where(share > 0.0, middle + share * (255 - middle), middle * (1.0 + share))
    codes = np.ascontiguousarray(np.rint(grey).astype(np.uint8))
    height, width = codes.shape
    return QImage(codes.tobytes(), width, height, width, QImage.Format.Format_Grayscale8).copy()


def _say_in(widget: QWidget, painter: QPainter, words: str) -> None:
    painter.setPen(QColor(ON_SURROUND))
    painter.setFont(font(Type.NOTE))
    flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
    painter.drawText(widget.rect().adjusted(20, 10, -20, -10), flags, words)
