"""The line under the print, as a printer pencils it in the margin: each part opens a menu."""

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRect, QSize, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QHBoxLayout, QLabel, QMenu, QPushButton, QSizePolicy, QWidget

from toneladder_desktop.drawing.style import APART, LIGHT, NEAR, SURROUND, TIGHT, Type, font

_TRIANGLE = (8, 5)
_HEIGHT = 30


class Caption(QWidget):
    """What is seen: view, step, side and scale, separated by points; each a button with a menu."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self._row = QHBoxLayout(self)
        self.parts: list[CaptionPart] = []
        self._points: list[QWidget] = []
        self._paper, self._from, self._to = QColor(LIGHT.ground), 0, 0

    def hang(self, menus: Sequence[tuple[str, QMenu]]) -> None:
        """One part for each question, with the menu of its answers."""
        row = self._row
        row.setContentsMargins(APART, 0, APART, 0)
        row.setSpacing(TIGHT)
        for number, (question, menu) in enumerate(menus):
            if number:
                point = _Point("·", self)
                self._points.append(point)
                row.addWidget(point)
            part = CaptionPart(question, self)
            part.setMenu(menu)
            row.addWidget(part)
            self.parts.append(part)

    def tell(self, words: Sequence[str], short: Sequence[str], width: int) -> None:
        """Another text for each part: the short one if the whole would be wider than ``width``.

        A part without words is left out.
        """
        for number, (part, text) in enumerate(zip(self.parts, words, strict=True)):
            part.setHidden(not text)
            if number:
                self._points[number - 1].setHidden(not text)
        for texts in (words, short):
            for part, text, spoken in zip(self.parts, texts, words, strict=True):
                part.tell(text, spoken)
            if self.sizeHint().width() <= width:
                break

    def lie_on(self, paper: QColor, start: int, end: int) -> None:
        """Written on paper of this colour, in black or white, whichever is read better.

        The paper reaches from ``start`` to ``end`` (pixels of the caption); a caption that is
        wider goes on over the surround.
        """
        self._paper, self._from, self._to = paper, start, end
        self.update()

    def ink(self) -> QColor:
        """What the caption is written in."""
        return QColor(LIGHT.ink) if self._paper.lightnessF() > 0.5 else QColor("#FFFFFF")

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw it."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(SURROUND))
        paper = QRect(self._from, 0, self._to - self._from, self.height())
        painter.fillRect(paper.intersected(self.rect()), self._paper)


class CaptionPart(QPushButton):
    """One part of the caption: words on a dotted line, and a mark that more is under it."""

    def __init__(self, question: str, caption: Caption) -> None:
        super().__init__(caption)
        self._question, self._caption = question, caption
        self.setFont(font(Type.CAPTION))
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def tell(self, text: str, spoken: str) -> None:
        """The part's words for the eye, and for a reader."""
        self.setText(text)
        self.setAccessibleName(f"{self._question}: {spoken}")
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        """What room it would like."""
        words = QFontMetrics(self.font()).horizontalAdvance(self.text())
        return QSize(words + _TRIANGLE[0] + 2 * TIGHT + NEAR, _HEIGHT)

    def minimumSizeHint(self) -> QSize:
        """No less than it likes."""
        return self.sizeHint()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw it."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        ink = self._caption.ink()
        painter.setPen(ink)
        words = QFontMetrics(self.font()).horizontalAdvance(self.text())
        box = QRect(TIGHT, 0, words, _HEIGHT)
        painter.drawText(
            box, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, self.text()
        )
        line = QPen(ink, 1.2, Qt.PenStyle.DotLine)
        painter.setPen(line)
        painter.drawLine(QPointF(box.left(), _HEIGHT - 5.5), QPointF(box.right(), _HEIGHT - 5.5))
        across, middle = box.right() + TIGHT + 1, _HEIGHT / 2.0 + 1
        wide, high = _TRIANGLE
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(ink)
        painter.drawPolygon(
            QPolygonF(
                [
                    QPointF(across, middle - high / 2),
                    QPointF(across + wide, middle - high / 2),
                    QPointF(across + wide / 2, middle + high / 2),
                ]
            )
        )
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(LIGHT.accent) if ink != QColor("#FFFFFF") else ink, 2))
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))


class _Point(QLabel):
    """The point between two parts."""

    def __init__(self, text: str, caption: Caption) -> None:
        super().__init__(text, caption)
        self._caption = caption
        self.setFont(font(Type.CAPTION))

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw it."""
        painter = QPainter(self)
        painter.setPen(self._caption.ink())
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, self.text())
