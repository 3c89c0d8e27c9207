"""What is pencilled over the print: numbered leaders, dotted passages, a line being drawn."""

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from toneladder_desktop.drawing.style import ON_SURROUND, Type, font
from toneladder_desktop.paper.laid import LaidPaper

_TAG = 18.0
_REACH = 34.0
_WHITE = "#FFFFFF"

Way = tuple[tuple[float, float], ...]
"""Points of the plate as it prints, mm."""


@dataclass(frozen=True, slots=True)
class Leader:
    """A number that leads to a place: its point, and outlines that are shown if it is picked."""

    number: int
    x_mm: float
    y_mm: float
    outline: tuple[Way, ...] = ()
    picked: bool = False
    doubtful: bool = False


class Pencil(QWidget):
    """Lies over the paper like tracing film; every line is white with black inside it."""

    def __init__(self, paper: LaidPaper) -> None:
        super().__init__(paper)
        self._paper = paper
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setGeometry(paper.rect())
        self._leaders: tuple[Leader, ...] = ()
        self._passages: tuple[tuple[Way, bool], ...] = ()
        self._drawn: Way = ()
        self._cross: tuple[float, float] | None = None
        paper.scaled.connect(self._follow)

    def show_leaders(self, leaders: tuple[Leader, ...]) -> None:
        """Numbers that lead to places."""
        self._leaders = leaders
        self.update()

    def show_passages(self, passages: tuple[tuple[Way, bool], ...]) -> None:
        """Soft passages as dotted lines; True picks one out."""
        self._passages = passages
        self.update()

    def show_drawn(self, drawn: Way, cross: tuple[float, float] | None = None) -> None:
        """A line that a hand is drawing, or the cross that keys move."""
        self._drawn, self._cross = drawn, cross
        self.update()

    @property
    def leaders(self) -> tuple[Leader, ...]:
        """What is shown."""
        return self._leaders

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw it."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for way, picked in self._passages:
            self._dots(painter, way, picked=picked)
        for leader in self._leaders:
            if leader.picked:
                for way in leader.outline:
                    self._line(painter, way, closed=True)
        if len(self._drawn) > 1:
            self._line(painter, self._drawn, closed=False)
        if self._cross is not None:
            self._paint_cross(painter, self._paper.spot_of(*self._cross))
        for leader in self._leaders:
            self._lead(painter, leader)

    def _follow(self) -> None:
        self.setGeometry(self._paper.rect())
        self.update()

    def _seen(self, way: Way) -> QPolygonF:
        return QPolygonF([self._paper.spot_of(x, y) for x, y in way])

    def _line(self, painter: QPainter, way: Way, *, closed: bool) -> None:
        line = self._seen(way)
        draw = painter.drawPolygon if closed else painter.drawPolyline
        for colour, width in ((_WHITE, 3.0), (ON_SURROUND, 1.2)):
            painter.setPen(QPen(QColor(colour), width))
            draw(line)

    def _dots(self, painter: QPainter, way: Way, *, picked: bool) -> None:
        line = self._seen(way)
        rim, dot, apart = (8.0, 5.0, 9.0) if picked else (4.0, 2.4, 5.5)
        for colour, width in ((_WHITE, rim), (ON_SURROUND, dot)):
            pen = QPen(QColor(colour), width)
            pen.setCapStyle(Qt.PenCapStyle.RoundCap)
            unit = apart / width
            pen.setDashPattern([0.01, unit])
            painter.setPen(pen)
            painter.drawPolyline(line)

    def _lead(self, painter: QPainter, leader: Leader) -> None:
        end = self._paper.spot_of(leader.x_mm, leader.y_mm)
        inside = QRectF(self.rect()).adjusted(_TAG, _TAG, -_TAG, -_TAG)
        right = end.x() + _REACH < inside.right()
        start = end + QPointF(_REACH if right else -_REACH, -_REACH * 0.7)
        if start.y() < inside.top():
            start.setY(end.y() + _REACH * 0.7)
        for colour, width in ((_WHITE, 3.0), (ON_SURROUND, 1.2)):
            painter.setPen(QPen(QColor(colour), width))
            painter.drawLine(start, end)
            painter.drawEllipse(end, 2.0, 2.0)
        tag = QRectF(start.x() - _TAG / 2.0, start.y() - _TAG / 2.0, _TAG, _TAG)
        painter.setPen(QPen(QColor(ON_SURROUND), 1.2))
        painter.setBrush(QColor(ON_SURROUND if leader.picked else _WHITE))
        painter.drawRect(tag)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QColor(_WHITE if leader.picked else ON_SURROUND))
        painter.setFont(font(Type.STRONG))
        text = f"{leader.number}?" if leader.doubtful else str(leader.number)
        painter.drawText(tag.adjusted(-6, 0, 6, 0), Qt.AlignmentFlag.AlignCenter, text)

    def _paint_cross(self, painter: QPainter, at: QPointF) -> None:
        for colour, width in ((_WHITE, 4.0), (ON_SURROUND, 1.5)):
            painter.setPen(QPen(QColor(colour), width))
            for away in (QPointF(12.0, 0.0), QPointF(0.0, 12.0)):
                painter.drawLine(at - away, at - away / 3.0)
                painter.drawLine(at + away / 3.0, at + away)
