"""The figures of the test strip as a table that a screen reader finds where they are seen."""

from PySide6.QtCore import QRect, QSignalBlocker, Qt
from PySide6.QtGui import QPaintEvent
from PySide6.QtWidgets import QAbstractItemView, QFrame, QTableWidget, QTableWidgetItem, QWidget

from toneladder.wording import say, say_number
from toneladder_desktop.how_many.content import Content
from toneladder_desktop.how_many.layout import Layout, Row
from toneladder_desktop.how_many.words import figure_of, head_of, longer_of


class FiguresTable(QTableWidget):
    """One column a number of tones, one row a figure; the board paints it and takes its mouse."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(len(Row), 0, parent)
        self._shown: object = None
        self.setAccessibleName(say("What each number of tones brings and costs"))
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectColumns)
        self.setStyleSheet("background: transparent")
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        for heads in (self.horizontalHeader(), self.verticalHeader()):
            heads.setMinimumSectionSize(1)
            heads.hide()
        self.setVerticalHeaderLabels([", ".join(filter(None, head_of(row))) for row in Row])

    def show_content(self, content: Content, layout: Layout) -> None:
        """The figures as they are now, each cell where it is seen."""
        with QSignalBlocker(self):
            if (content.offered, layout) != self._shown:
                self._shown = content.offered, layout
                self._arrange(content, layout)
            self.setCurrentCell(Row.STEPS, content.focus)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Nothing: the board draws the figures itself."""

    def _arrange(self, content: Content, layout: Layout) -> None:
        first, last = layout.columns[0], layout.columns[-1]
        top, bottom = layout.rows[0].y, layout.rows[-1].bottom
        self.setGeometry(
            QRect(round(first.x), round(top), round(last.right - first.x), round(bottom - top))
        )
        self.setColumnCount(len(content.counts))
        for column, count in enumerate(content.counts):
            self._fill(content, column, say_number("{n} tone", "{n} tones", count))
            self.setColumnWidth(column, round(first.width))
        ends = [area.y for area in layout.rows[1:]] + [bottom]
        for row in Row:
            self.setRowHeight(row, round(ends[row]) - round(layout.rows[row].y))

    def _fill(self, content: Content, column: int, head: str) -> None:
        self.setHorizontalHeaderItem(column, QTableWidgetItem(head))
        for row in Row:
            text = figure_of(row, content, column)
            if row is Row.GAIN and text:
                text = ", ".join((text, longer_of(content, column)))
            item = self.item(row, column)
            if item is None:
                self.setItem(row, column, QTableWidgetItem(text))
            elif item.text() != text:
                item.setText(text)
