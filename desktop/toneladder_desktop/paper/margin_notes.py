"""Notes in pencil in the margin of the paper, such as a printer leaves for the next one."""

from collections.abc import Mapping
from enum import Enum, auto

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from toneladder.lettering import Face
from toneladder_desktop.drawing.style import FAR, LIGHT, NEAR, letters
from toneladder_desktop.paper.laid import LaidPaper

_PX = 15
_LEAST_MARGIN = 24.0


class Margin(Enum):
    """Where a note stands: above the print at the left or right end, or beside it at the right."""

    TOP_LEFT = auto()
    TOP_RIGHT = auto()
    RIGHT = auto()


class MarginNotes(QWidget):
    """Lies over the paper and is in nobody's way; a note that has no room is left out."""

    def __init__(self, paper: LaidPaper) -> None:
        super().__init__(paper)
        self._paper = paper
        self._notes: Mapping[Margin, str] = {}
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setGeometry(paper.rect())
        paper.scaled.connect(self._follow)
        self.hide()

    def show_notes(self, notes: Mapping[Margin, str]) -> None:
        """These notes, each in its margin, and no others."""
        self._notes = dict(notes)
        self.setAccessibleName(". ".join(self._notes.values()))
        self.setVisible(bool(self._notes))
        self.update()

    @property
    def notes(self) -> tuple[str, ...]:
        """What is written."""
        return tuple(self._notes.values())

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw it."""
        plate, sheet = self._paper.plate(), QRectF(self._paper.sheet())
        margin = plate.top() - sheet.top()
        if margin < _LEAST_MARGIN:
            return
        painter = QPainter(self)
        painter.setFont(letters(Face.SERIF_ITALIC, _PX))
        light = self._paper.paper_colour().lightnessF() > 0.5
        painter.setPen(QColor(LIGHT.pencil if light else "#FFFFFF"))
        above = QRectF(plate.left(), sheet.top() + NEAR / 2.0, plate.width(), margin - NEAR)
        self._write_above(painter, above)
        beside = QRectF(plate.right() + NEAR, plate.top(), margin - NEAR - 2.0, plate.height())
        self._write_beside(painter, beside)

    def _write_above(self, painter: QPainter, box: QRectF) -> None:
        left, right = self._notes.get(Margin.TOP_LEFT), self._notes.get(Margin.TOP_RIGHT)
        wide = QFontMetricsF(painter.font()).horizontalAdvance
        middle = Qt.AlignmentFlag.AlignVCenter
        if right and wide(right) <= box.width():
            painter.drawText(box, middle | Qt.AlignmentFlag.AlignRight, right)
        taken = wide(right) + FAR if right else 0.0
        if left and wide(left) + taken <= box.width():
            painter.drawText(box, middle | Qt.AlignmentFlag.AlignLeft, left)

    def _write_beside(self, painter: QPainter, box: QRectF) -> None:
        """Read with the head to the right, from the foot of the print upwards."""
        note = self._notes.get(Margin.RIGHT)
        if not note or QFontMetricsF(painter.font()).horizontalAdvance(note) > box.height():
            return
        painter.save()
        painter.translate(QPointF(box.left(), box.bottom()))
        painter.rotate(-90.0)
        painter.drawText(
            QRectF(0.0, 0.0, box.height(), box.width()),
            Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft,
            note,
        )
        painter.restore()

    def _follow(self) -> None:
        self.setGeometry(self._paper.rect())
        self.update()
