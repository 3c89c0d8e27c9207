"""The plate's outline over the picture: dragged, grown, turned, stood straight."""

from math import atan2, degrees

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QBrush,
    QColor,
    QImage,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPainterPath,
    QPaintEvent,
    QPen,
    QPixmap,
    QWheelEvent,
)
from PySide6.QtWidgets import QApplication, QWidget

from toneladder.picture.placing import placing_of
from toneladder.wording import say
from toneladder_desktop.drawing.style import ON_SURROUND, SURROUND, colours_of
from toneladder_desktop.laying.hand import Act, Lain, act_of, grow, turn
from toneladder_desktop.laying.outline import Outline, outline_in, under

_WHEEL = 1.0015
_DIMMED = 0.55


class LayingBoard(QWidget):
    """Shows the picture under the plate's outline and takes the hand that moves it.

    Signals
    -------
    acted(Act)
        The picture shall lie otherwise.
    hand_on(bool)
        A hand has taken the picture, or has let it go.
    straightened(bool)
        Two points are being asked for, or no more.
    """

    acted = Signal(object)
    hand_on = Signal(bool)
    straightening = Signal(bool)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(say("The picture under the plate"))
        self.setMinimumSize(320, 240)
        self.setMouseTracking(True)
        self._pixmap = QPixmap()
        self._lain: Lain | None = None
        self._taken: tuple[QPointF, Lain, bool] | None = None
        self._points: list[QPointF] | None = None
        self._pointer = QPointF()

    @property
    def lain(self) -> Lain | None:
        """What lies under the plate, as it lies now."""
        return self._lain

    def show_copy(self, copy: QImage) -> None:
        """The picture to be laid, as small as a screen needs it."""
        self._pixmap = QPixmap.fromImage(copy)
        self.update()

    def show_lain(self, lain: Lain | None) -> None:
        """How it lies now."""
        self._lain = lain
        self.update()

    def straighten(self, *, on: bool = True) -> None:
        """Ask for two points of one upright or level thing, or no more."""
        self._points = [] if on else None
        self.setCursor(Qt.CursorShape.CrossCursor if on else Qt.CursorShape.OpenHandCursor)
        self.straightening.emit(on)
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows move, + and - grow, page keys turn, Home lays all, End fills."""
        if event.key() == Qt.Key.Key_Escape and self._points is not None:
            self.straighten(on=False)
            return
        leap = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        act = None
        if self._lain is not None:
            act = act_of(self._lain, Qt.Key(event.key()), leap=leap, text=event.text())
        if act is None:
            super().keyPressEvent(event)
        else:
            self.acted.emit(act)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """The wheel grows the picture about the pointer."""
        if self._lain is not None and event.angleDelta().y():
            about = self._outline(self._lain).mm(event.position())
            self.acted.emit(grow(self._lain, _WHEEL ** event.angleDelta().y(), about))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take the picture: inside the outline it is moved, outside it is turned."""
        if self._lain is None or event.button() is not Qt.MouseButton.LeftButton:
            return
        at = event.position()
        if self._points is not None:
            self._point(self._lain, at)
            return
        inside = self._outline(self._lain).rect.contains(at)
        self._taken = (at, self._lain, inside)
        self.setCursor(Qt.CursorShape.ClosedHandCursor)
        self.hand_on.emit(True)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """What is taken goes with the hand."""
        self._pointer = event.position()
        if self._points:
            self.update()
        if self._taken is None:
            return
        start, lain, inside = self._taken
        outline, at = self._outline(lain), event.position()
        if inside:
            way = (at - start) / outline.px_per_mm
            act = Act(say("Move the picture"), lain.moved(way.x(), way.y()), "move")
        else:
            act = turn(lain, _angle(outline, at) - _angle(outline, start))
        self.acted.emit(act)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go; far from the first of two points it is the second one."""
        if self._points and self._lain is not None:
            away = (event.position() - self._points[0]).manhattanLength()
            if away >= QApplication.startDragDistance():
                self._point(self._lain, event.position())
            return
        if self._taken is not None and event.button() is Qt.MouseButton.LeftButton:
            self._taken = None
            self.setCursor(Qt.CursorShape.OpenHandCursor)
            self.hand_on.emit(False)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The picture, what is left out of it dimmed and hatched, the plate's outline."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(SURROUND))
        if self._lain is None:
            return
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        outline = self._outline(self._lain)
        painter.fillRect(outline.rect, QColor("white"))
        self._paint_picture(painter, outline, self._lain)
        self._dim(painter, outline)
        painter.setPen(QPen(QColor("white"), 3.0))
        painter.drawRect(outline.rect)
        painter.setPen(QPen(QColor(ON_SURROUND), 1.0))
        painter.drawRect(outline.rect)
        if self._points is not None:
            self._paint_points(painter)
        if self.hasFocus():
            painter.setPen(QPen(QColor(colours_of(self).ink), 2.0))
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))

    def _paint_picture(self, painter: QPainter, outline: Outline, lain: Lain) -> None:
        if self._pixmap.isNull():
            return
        placing = placing_of(lain.laying, lain.size, lain.picture)
        painter.save()
        painter.setTransform(
            under(outline, placing, (self._pixmap.width(), self._pixmap.height())), combine=True
        )
        painter.drawPixmap(0, 0, self._pixmap)
        painter.restore()

    def _dim(self, painter: QPainter, outline: Outline) -> None:
        beyond = QPainterPath()
        beyond.addRect(QRectF(self.rect()))
        beyond.addRect(outline.rect)
        ground = QColor(SURROUND)
        ground.setAlphaF(_DIMMED)
        painter.fillPath(beyond, ground)
        lines = QColor(ON_SURROUND)
        lines.setAlphaF(0.35)
        painter.fillPath(beyond, QBrush(lines, Qt.BrushStyle.BDiagPattern))

    def _paint_points(self, painter: QPainter) -> None:
        points = [*(self._points or ()), self._pointer]
        for colour, width in (("white", 3.0), (ON_SURROUND, 1.0)):
            painter.setPen(QPen(QColor(colour), width))
            if len(points) > 1:
                painter.drawLine(points[0], points[-1])
            for at in points[:-1]:
                painter.drawEllipse(at, 5.0, 5.0)

    def _point(self, lain: Lain, at: QPointF) -> None:
        points = [*(self._points or ()), at]
        self._points = points
        if len(points) == 2:
            outline = self._outline(lain)
            laying = lain.straightened(*(outline.mm(point) for point in points))
            self.straighten(on=False)
            self.acted.emit(Act(say("Stand it straight"), laying))
        self.update()

    def _outline(self, lain: Lain) -> Outline:
        return outline_in(self.width(), self.height(), lain.size)


def _angle(outline: Outline, at: QPointF) -> float:
    """Degrees, clockwise, of a place about the plate's middle."""
    away = at - outline.rect.center()
    return degrees(atan2(away.y(), away.x()))
