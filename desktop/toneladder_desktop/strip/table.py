"""The strip's readings as a table to type in: Enter goes down, paste works, nothing moves."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QSignalBlocker, Qt, QTimer, Signal
from PySide6.QtGui import QBrush, QColor, QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)

from toneladder.quantities import Manner, scale_name, write_tone
from toneladder.wording import begins, say
from toneladder_desktop.curve.words import difference
from toneladder_desktop.drawing.style import CONTROL, Type, colours_of, font
from toneladder_desktop.fittings.explaining import as_tip
from toneladder_desktop.strip.draft import Draft, Told

if TYPE_CHECKING:
    from toneladder_desktop.curve.content import Reading

BITE, READING, DARKNESS, REMARK = range(4)


class ReadingsTable(QTableWidget):
    """Two columns to type in, two that answer.

    Signals
    -------
    typed(int, int, str)
        A cell: its row, its column, its text.
    pasted(str, int, int)
        A piece of a spreadsheet, put in at a cell.
    removed(int)
        A row is to go.
    """

    typed = Signal(int, int, str)
    pasted = Signal(str, int, int)
    removed = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(0, 4, parent)
        self.setAccessibleName(say("Readings of the strip, patch by patch"))
        self.verticalHeader().setDefaultSectionSize(CONTROL)
        self.verticalHeader().hide()
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(
            QAbstractItemView.EditTrigger.AnyKeyPressed
            | QAbstractItemView.EditTrigger.DoubleClicked
            | QAbstractItemView.EditTrigger.EditKeyPressed
        )
        head = self.horizontalHeader()
        head.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        head.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        head.setStretchLastSection(True)
        head.setMinimumSectionSize(84)
        self.cellChanged.connect(self._changed)

    def show_draft(
        self, draft: Draft, told: Sequence[Told], readings: "Sequence[Reading]", manner: Manner
    ) -> None:
        """The rows as they are, one empty one after them; a wrong row is marked where it is."""
        with QSignalBlocker(self):
            self.setHorizontalHeaderLabels(
                [
                    say("Total bite"),
                    _head(draft.unit),
                    begins(scale_name(manner)),
                    say("Against the curve"),
                ]
            )
            self.setRowCount(len(draft.rows) + 1)
            for number, row in enumerate(draft.rows):
                self._set(number, BITE, row.bite)
                self._set(number, READING, row.reading)
                self._answer(number, told[number], readings, manner)
            for column in range(4):
                self._set(len(draft.rows), column, "")

    def event(self, event: QEvent) -> bool:
        """Paste and copy belong to the table while the keys are here, not to the window."""
        if event.type() is QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            keys = QKeySequence.StandardKey
            if event.matches(keys.Paste) or event.matches(keys.Copy):
                event.accept()
                return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Paste puts a piece of a spreadsheet in; Enter goes down; Delete empties or removes."""
        if event.matches(QKeySequence.StandardKey.Paste):
            text = QGuiApplication.clipboard().text()
            self.pasted.emit(text, max(self.currentRow(), 0), min(max(self.currentColumn(), 0), 1))
        elif event.matches(QKeySequence.StandardKey.Copy):
            QGuiApplication.clipboard().setText(self.as_text())
        elif event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter} and not event.modifiers():
            if self.state() is QAbstractItemView.State.EditingState:
                QTimer.singleShot(0, self, self._go_down)  # when the cell has been written
            else:
                self._go_down()
            event.accept()
        elif event.key() == Qt.Key.Key_Delete and self.currentColumn() in {BITE, READING}:
            self._delete()
        else:
            super().keyPressEvent(event)

    def as_text(self) -> str:
        """Bites and readings, parted by tabs."""
        rows = range(self.rowCount() - 1)
        return "\n".join(f"{self._text(r, BITE)}\t{self._text(r, READING)}" for r in rows)

    def _go_down(self) -> None:
        self.setCurrentCell(min(self.currentRow() + 1, self.rowCount() - 1), READING)

    def _delete(self) -> None:
        row, column = self.currentRow(), self.currentColumn()
        if not self._text(row, READING) and column == BITE and row < self.rowCount() - 1:
            self.removed.emit(row)
        else:
            self.typed.emit(row, column, "")

    def _changed(self, row: int, column: int) -> None:
        if column in {BITE, READING}:
            self.typed.emit(row, column, self._text(row, column).strip())

    def _answer(self, row: int, told: Told, readings: "Sequence[Reading]", manner: Manner) -> None:
        darkness = "" if told.patch is None else write_tone(told.patch.lightness, manner)
        remark = told.fault.split(". ")[0]
        patch = told.patch
        if patch is not None:
            same = [
                one
                for one in readings
                if one.bite_s == patch.total_bite_s and abs(one.lightness - patch.lightness) < 1e-6
            ]
            if same:
                remark = difference(same[0], manner)
                if same[0].doubtful:
                    remark = say("{remark}: does not fit the others", remark=remark)
        self._set(row, DARKNESS, darkness)
        self._set(row, REMARK, remark)
        for column in range(4):
            item = self.item(row, column)
            if item is not None:
                item.setToolTip(as_tip(told.fault))
                item.setFont(font(Type.STRONG if told.fault else Type.TEXT))
        mark = self.item(row, READING)
        if mark is not None:
            tint = QBrush(QColor(colours_of(self).tint)) if told.fault else QBrush()
            mark.setBackground(tint)

    def _set(self, row: int, column: int, text: str) -> None:
        item = self.item(row, column)
        if item is None:
            item = QTableWidgetItem(text)
            if column in {DARKNESS, REMARK}:
                item.setFlags(item.flags() & ~Qt.ItemFlag.ItemIsEditable)
            self.setItem(row, column, item)
        elif item.text() != text:
            item.setText(text)

    def _text(self, row: int, column: int) -> str:
        item = self.item(row, column)
        return "" if item is None else item.text()


def _head(unit: str) -> str:
    return {
        "lightness": say("Lightness L*"),
        "density": say("Density"),
        "step": say("Step of my scale"),
    }[unit]
