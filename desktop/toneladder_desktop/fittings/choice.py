"""One answer out of a few: a list that opens, drawn in the window's own manner."""

from collections.abc import Callable, Sequence
from typing import Generic, TypeVar

from PySide6.QtCore import QPointF, QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QComboBox, QVBoxLayout, QWidget

from toneladder_desktop.drawing.style import CONTROL, CORNER, NEAR, TIGHT, Type, colours_of, font
from toneladder_desktop.fittings.label import Label

Value = TypeVar("Value")

NOTHING = "–"
"""Stands in a list from which nothing is chosen."""

_WRAPPED = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap


class Choice(QWidget, Generic[Value]):
    """A question and the list of its answers; ``take`` gets the one that was chosen."""

    def __init__(
        self,
        question: str,
        answers: Sequence[tuple[Value, str]],
        take: Callable[[Value], object],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.list = _List(self)
        self.list.setAccessibleName(question)
        self._take = take
        self._values = [value for value, _ in answers]
        self.list.addItems([text for _, text in answers])
        self.list.activated.connect(self._chosen)
        label = Label(question, self)
        label.setFont(font(Type.SMALL))
        label.setWordWrap(True)
        label.setAlignment(Qt.AlignmentFlag.AlignBottom)
        label.setBuddy(self.list)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(TIGHT)
        rows.addWidget(label)
        rows.addWidget(self.list)
        self.setFocusProxy(self.list)
        self._shown: Value | None = None

    def show_value(self, value: Value) -> None:
        """What the plate says now."""
        self._shown = value
        known = value in self._values
        self.list.setCurrentIndex(self._values.index(value) if known else -1)

    def offer(self, answers: Sequence[tuple[Value, str]]) -> None:
        """Other answers than before; what the plate says is shown again after this."""
        texts = [text for _, text in answers]
        self._values = [value for value, _ in answers]
        if texts != [self.list.itemText(row) for row in range(self.list.count())]:
            self.list.clear()
            self.list.addItems(texts)

    def _chosen(self, number: int) -> None:
        value, before = self._values[number], self._shown
        if value == before:
            return
        self._take(value)
        if before is not None and self._shown is before:
            self.show_value(before)


class _List(QComboBox):
    """A list in the manner of the other controls; the wheel does nothing, so nothing slips.

    An answer that is too long for one line has as many as it needs.
    """

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setFixedHeight(CONTROL)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(6)
        self.currentIndexChanged.connect(self._fit)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Turn nothing: a list must not slip while the card is scrolled."""
        event.ignore()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit the answer into another width."""
        super().resizeEvent(event)
        self._fit()

    def showPopup(self) -> None:
        """Open it as wide as its longest answer."""
        view = self.view()
        view.setMinimumWidth(view.sizeHintForColumn(0) + 2 * NEAR)
        super().showPopup()

    def _fit(self) -> None:
        high = self._inside().height()
        needed = self.fontMetrics().boundingRect(
            QRect(0, 0, self._inside().width(), high), _WRAPPED, self.currentText()
        )
        self.setFixedHeight(max(CONTROL, needed.height() + NEAR))

    def _inside(self) -> QRect:
        """Where the answer stands."""
        return QRect(self.rect()).adjusted(NEAR + 2, 0, -NEAR - 14, 0)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw it."""
        colours = colours_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        focused = self.hasFocus()
        edge = 2.0 if focused else 1.0
        painter.setPen(QPen(QColor(colours.accent if focused else colours.edge), edge))
        painter.setBrush(QColor(colours.sheet))
        half = edge / 2.0
        painter.drawRoundedRect(
            self.rect().toRectF().adjusted(half, half, -half, -half), CORNER, CORNER
        )
        painter.setPen(QColor(colours.ink if self.isEnabled() else colours.edge))
        painter.drawText(self._inside(), _WRAPPED, self.currentText() or NOTHING)
        across, middle = self.width() - NEAR - 9.0, self.height() / 2.0
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.ink))
        painter.drawPolygon(
            QPolygonF(
                [
                    QPointF(across, middle - 2.5),
                    QPointF(across + 8, middle - 2.5),
                    QPointF(across + 4, middle + 2.5),
                ]
            )
        )
