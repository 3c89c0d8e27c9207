"""Rules, frames and words set exactly on the pixels of the screen."""

from collections.abc import Iterable
from enum import Enum
from functools import cache
from math import ceil, floor, inf

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPen, QPolygonF

from toneladder.lettering import CAPITAL_EM, text_width
from toneladder_desktop.drawing.style import Type, font

_SMOOTH = QPainter.RenderHint.Antialiasing


class Set(Enum):
    """Which end of a line of words stands at its place."""

    LEFT = 0.0
    MIDDLE = 0.5
    RIGHT = 1.0


class Ruling:
    """Draws with ``painter`` so that every straight edge falls between two pixels.

    Places are those of the painter; thicknesses are at least one pixel of the screen.
    """

    def __init__(self, painter: QPainter) -> None:
        self.painter = painter
        painter.setRenderHint(_SMOOTH)
        device = painter.deviceTransform()
        self._scale, self._dx, self._dy = device.m11(), device.dx(), device.dy()

    def across(self, x: float) -> float:
        """The nearest edge of a pixel to ``x``."""
        return (floor(x * self._scale + self._dx + 0.5) - self._dx) / self._scale

    def down(self, y: float) -> float:
        """The nearest edge of a pixel to ``y``."""
        return (floor(y * self._scale + self._dy + 0.5) - self._dy) / self._scale

    def thick(self, thickness: float) -> float:
        """The nearest whole number of pixels, at least one."""
        return max(1.0, floor(thickness * self._scale + 0.5)) / self._scale

    def fill(self, x: float, y: float, width: float, height: float, colour: str) -> None:
        """A plain area."""
        left, top = self.across(x), self.down(y)
        self._area(left, top, self.across(x + width) - left, self.down(y + height) - top, colour)

    def level(self, x: float, right: float, y: float, colour: str, thickness: float = 1.0) -> None:
        """A level rule about ``y``."""
        t = self.thick(thickness)
        left = self.across(x)
        self._area(left, self.down(y - t / 2.0), self.across(right) - left, t, colour)

    def upright(self, x: float, y: float, low: float, colour: str, thickness: float = 1.0) -> None:
        """An upright rule about ``x``."""
        t = self.thick(thickness)
        top = self.down(y)
        self._area(self.across(x - t / 2.0), top, t, self.down(low) - top, colour)

    def dotted(self, x: float, y: float, low: float, colour: str, thickness: float = 1.0) -> None:
        """An upright rule about ``x`` as dots; dots of overlapping rules fall on each other."""
        t = self.thick(thickness)
        left, top, end = self.across(x - t / 2.0), self.down(y), self.down(low)
        dot = self.thick(1.5)
        number = ceil((top - self.down(0.0)) / (2.0 * dot) - 1e-6)
        top = self.down(0.0) + 2.0 * dot * number
        dots = []
        while top + dot <= end + 1e-6:
            dots.append(QRectF(left, top, t, dot))
            top += 2.0 * dot
        self._areas(dots, colour)

    def frame(
        self, x: float, y: float, width: float, height: float, colour: str, thickness: float = 1.0
    ) -> None:
        """A frame whose outer edge is the given rectangle."""
        t = self.thick(thickness)
        left, top, right, low = (
            self.across(x),
            self.down(y),
            self.across(x + width),
            self.down(y + height),
        )
        inner = low - top - 2.0 * t
        sides = (
            QRectF(left, top, right - left, t),
            QRectF(left, low - t, right - left, t),
            QRectF(left, top + t, t, inner),
            QRectF(right - t, top + t, t, inner),
        )
        self._areas(sides, colour)

    def slant(
        self,
        start: tuple[float, float],
        end: tuple[float, float],
        colour: str,
        thickness: float = 1.0,
        *,
        dashed: bool = False,
    ) -> None:
        """A line in any direction; its ends lie on the middles of pixels."""
        pen = QPen(QColor(colour), self.thick(thickness))
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        if dashed:
            pen.setDashPattern([3.0, 2.0])
        half = self.thick(thickness) / 2.0
        self.painter.setPen(pen)
        (x, y), (right, low) = start, end
        self.painter.drawLine(
            QLineF(
                self.across(x),
                self.down(y - half) + half,
                self.across(right),
                self.down(low - half) + half,
            )
        )

    def line(self, start: tuple[float, float], end: tuple[float, float], colour: str) -> None:
        """A thin line in any direction, exactly where it is said to be."""
        self.painter.setPen(QPen(QColor(colour), self.thick(1.0)))
        self.painter.drawLine(QPointF(*start), QPointF(*end))

    def curve(self, points: list[tuple[float, float]], colour: str, thickness: float = 1.0) -> None:
        """A line through points, its corners rounded."""
        pen = QPen(QColor(colour), self.thick(thickness))
        pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        self.painter.setPen(pen)
        self.painter.drawPolyline(QPolygonF([QPointF(x, y) for x, y in points]))

    def ring(self, x: float, y: float, radius: float, colour: str, inside: str) -> None:
        """A small open ring."""
        self.painter.setPen(QPen(QColor(colour), self.thick(1.5)))
        self.painter.setBrush(QColor(inside))
        self.painter.drawEllipse(QPointF(x, y), radius, radius)
        self.painter.setBrush(Qt.BrushStyle.NoBrush)

    def shape(self, corners: list[tuple[float, float]], colour: str) -> None:
        """A filled polygon."""
        self.painter.setPen(Qt.PenStyle.NoPen)
        self.painter.setBrush(QColor(colour))
        self.painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in corners]))
        self.painter.setBrush(Qt.BrushStyle.NoBrush)

    def words(
        self,
        x: float,
        middle: float,
        text: str,
        kind: Type,
        colour: str,
        at: Set = Set.LEFT,
        room: float = inf,
    ) -> None:
        """A line of words whose capitals are centred on the height ``middle``.

        What is wider than ``room`` is cut, and three dots say so.
        """
        face, size = kind.value
        text = fitted(text, kind, room)
        left = x - at.value * text_width(text, face, size)
        baseline = self.down(middle + CAPITAL_EM * size / 2.0)
        self.painter.setFont(_letters(kind))
        self.painter.setPen(QColor(colour))
        self.painter.drawText(QPointF(self.across(left), baseline), text)

    def _area(self, x: float, y: float, width: float, height: float, colour: str) -> None:
        self._areas((QRectF(x, y, width, height),), colour)

    def _areas(self, areas: Iterable[QRectF], colour: str) -> None:
        """Plain areas whose edges fall between pixels; what has no width or height is nothing."""
        ink = QColor(colour)
        self.painter.setRenderHint(_SMOOTH, on=False)
        for area in areas:
            if area.width() > 0.0 and area.height() > 0.0:
                self.painter.fillRect(area, ink)
        self.painter.setRenderHint(_SMOOTH)


def fitted(text: str, kind: Type, room: float) -> str:
    """``text``, or as much of its beginning as has room before three dots."""
    if width_of(text, kind) <= room:
        return text
    for end in range(len(text) - 1, 0, -1):
        cut = text[:end].rstrip() + "…"
        if width_of(cut, kind) <= room:
            return cut
    return "…"


def width_of(text: str, kind: Type) -> float:
    """Width of a line of words, in pixels."""
    face, size = kind.value
    return text_width(text, face, size)


@cache
def _letters(kind: Type) -> QFont:
    return font(kind)
