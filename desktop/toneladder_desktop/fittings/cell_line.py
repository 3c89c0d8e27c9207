"""A line below a table, to type what its current cell says: for whoever cannot type into cells."""

from PySide6.QtCore import QEvent, QItemSelectionModel, QObject, Qt
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QTableWidget, QWidget

from toneladder.wording import say
from toneladder_desktop.drawing.style import NEAR, Type, font
from toneladder_desktop.fittings.label import Label


class CellLine(QWidget):
    """Which cell is current, and what it says; Enter, or leaving the line, puts it there.

    A screen reader chooses a cell of the table and finds its text here; in the table itself a
    cell can only be typed into with keys. Where nothing is to be typed, nothing is shown.
    """

    def __init__(self, table: QTableWidget, parent: QWidget) -> None:
        super().__init__(parent)
        self._table, self._shown = table, ""
        self.label, self.line = Label(self), QLineEdit(self)
        self.label.setFont(font(Type.SMALL))
        self.label.setBuddy(self.line)
        row = QHBoxLayout(self)
        row.setContentsMargins(NEAR, NEAR, NEAR, NEAR)
        row.setSpacing(NEAR)
        row.addWidget(self.label)
        row.addWidget(self.line, 1)
        self.line.returnPressed.connect(self._commit)
        self.line.installEventFilter(self)
        table.currentCellChanged.connect(self._show)
        table.itemSelectionChanged.connect(self._follow)
        table.cellChanged.connect(self._show)
        self._show()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter ends here; it never does the act of the page round about."""
        if event.key() not in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            super().keyPressEvent(event)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Leaving the line takes what was typed."""
        if isinstance(event, QFocusEvent):
            if event.type() is QEvent.Type.FocusOut:
                self._commit()
            elif self.line.text() == self._shown:
                self._show()
        return super().eventFilter(watched, event)

    def _follow(self) -> None:
        """A screen reader selects a cell without making it the current one."""
        chosen = self._table.selectedIndexes()
        if len(chosen) == 1 and chosen[0] != self._table.currentIndex():
            model = self._table.selectionModel()
            model.setCurrentIndex(chosen[0], QItemSelectionModel.SelectionFlag.NoUpdate)

    def _show(self, *_cell: int) -> None:
        item = self._table.currentItem()
        head = self._table.horizontalHeaderItem(self._table.currentColumn())
        self._shown = "" if item is None else item.text()
        self.line.setText(self._shown)
        if item is None or head is None or not item.flags() & Qt.ItemFlag.ItemIsEditable:
            self.hide()
            return
        self.label.setText(say("Row {n}, {column}", n=item.row() + 1, column=head.text()))
        self.line.setAccessibleName(self.label.text())
        self.show()

    def _commit(self) -> None:
        item = self._table.currentItem()
        if item is not None and self.line.text() != self._shown:
            self._shown = self.line.text()
            item.setText(self._shown.strip())
