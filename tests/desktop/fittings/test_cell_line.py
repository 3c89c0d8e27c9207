"""A line below a table, for whoever cannot type into its cells."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QTableWidget, QTableWidgetItem, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from toneladder_desktop.fittings.cell_line import CellLine

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


class Page(QWidget):
    """Its act is on Enter."""

    acts = 0

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Every key is the act."""
        self.acts += event.key() == Qt.Key.Key_Return


@pytest.fixture
def page(qtbot: QtBot) -> Page:
    page = Page()
    table = QTableWidget(2, 2, page)
    table.setSelectionMode(QTableWidget.SelectionMode.SingleSelection)
    table.setHorizontalHeaderLabels(["Bite", "Says"])
    for row, texts in enumerate((("15 s", "pale"), ("30 s", "darker"))):
        for column, text in enumerate(texts):
            table.setItem(row, column, QTableWidgetItem(text))
        said = table.item(row, 1)
        assert said is not None
        said.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
    rows = QVBoxLayout(page)
    for part in (table, CellLine(table, page), QLineEdit(page)):
        rows.addWidget(part)
    qtbot.addWidget(page)
    page.show()
    qtbot.waitExposed(page)
    return page


def parts(page: QWidget) -> tuple[QTableWidget, CellLine]:
    table, line = page.findChild(QTableWidget), page.findChild(CellLine)
    assert table is not None
    assert line is not None
    return table, line


def test_it_says_which_cell_it_is_and_puts_there_what_is_typed(page: QWidget) -> None:
    table, cell = parts(page)
    table.setCurrentCell(1, 0)
    assert cell.line.accessibleName() == "Row 2, Bite"
    assert cell.line.text() == "30 s"
    cell.line.setText("45 s")
    QTest.keyClick(cell.line, Qt.Key.Key_Return)
    assert table.item(1, 0).text() == "45 s"  # type: ignore[union-attr] # it is there


def test_enter_in_it_does_not_do_the_act_of_its_page(page: Page) -> None:
    table, cell = parts(page)
    table.setCurrentCell(1, 0)
    cell.line.setText("45 s")
    QTest.keyClick(cell.line, Qt.Key.Key_Return)
    assert page.acts == 0


def test_a_cell_that_is_selected_alone_becomes_the_current_one(page: QWidget) -> None:
    table, cell = parts(page)
    table.setCurrentCell(0, 0)
    model = table.selectionModel()
    model.select(table.model().index(1, 0), model.SelectionFlag.ClearAndSelect)
    assert (table.currentRow(), cell.line.text()) == (1, "30 s")


def test_what_cannot_be_typed_has_no_line_and_is_never_written_to(page: QWidget) -> None:
    table, cell = parts(page)
    table.setCurrentCell(0, 0)
    cell.line.setFocus()
    cell.line.setText("half typed")
    table.setCurrentCell(1, 1)
    assert not cell.isVisible()
    assert table.item(1, 1).text() == "darker"  # type: ignore[union-attr] # it is there


def test_leaving_it_without_a_change_writes_nothing(page: QWidget) -> None:
    table, cell = parts(page)
    told: list[int] = []
    table.setCurrentCell(0, 0)
    table.cellChanged.connect(lambda row, _column: told.append(row))
    cell.line.setFocus()
    table.blockSignals(True)
    item = table.item(0, 0)
    assert item is not None
    item.setText("20 s")
    table.blockSignals(False)
    table.setFocus()
    assert told == []
    assert item.text() == "20 s"
