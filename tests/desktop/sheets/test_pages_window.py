"""The sheets looked at, kept as a PDF, and printed by the same painter."""

from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QColor, QPageSize
from PySide6.QtPrintSupport import QPrintDialog
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QApplication,
    QFileDialog,
    QLineEdit,
    QPushButton,
    QRadioButton,
    QScrollArea,
    QSpinBox,
)
from pytestqt.qtbot import QtBot

from toneladder_desktop.sheets.pages_window import SheetsWindow
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")

PLENTY_MS = 60_000


@pytest.fixture
def sheets(planned: BenchWindow, qtbot: QtBot) -> SheetsWindow:
    """The sheets of a small plate, opened by the one act."""
    planned.top.day_bar.act.click()
    opened = planned.findChild(SheetsWindow)
    assert isinstance(opened, SheetsWindow)
    qtbot.waitUntil(lambda: bool(opened.sheets), timeout=PLENTY_MS)
    return opened


def words_of(data: bytes) -> str:
    return " ".join(page.extract_text() for page in PdfReader(BytesIO(data)).pages)


def test_every_page_is_shown_on_white_paper(sheets: SheetsWindow) -> None:
    assert sheets.count.text() == f"{len(sheets.sheets)} page{'s' * (len(sheets.sheets) > 1)}"
    image = sheets.pages.grab().toImage()
    assert image.pixelColor(sheets.pages.width() // 2, 20) == QColor("#FFFFFF")
    assert image.pixelColor(2, 2) == QColor("#A9A9A9")


def test_ticked_kinds_are_laid_out_with_their_numbers_of_pages(
    sheets: SheetsWindow, qtbot: QtBot
) -> None:
    assert list(sheets.kinds) == ["order", "maps"]
    sheets.ticks["tracing"].click()
    qtbot.waitUntil(lambda: not sheets.svg_button.isHidden(), timeout=PLENTY_MS)
    assert "2 pages" in sheets.ticks["tracing"].text()
    sheets.ticks["maps"].click()
    sheets.ticks["order"].click()
    qtbot.waitUntil(lambda: len(sheets.sheets) == 2, timeout=PLENTY_MS)
    sheets.ticks["tracing"].click()
    qtbot.waitUntil(lambda: sheets.count.text() == "0 pages", timeout=PLENTY_MS)
    assert not sheets.print_button.isEnabled()


def test_while_pages_are_drawn_words_stand_on_the_grey(sheets: SheetsWindow, qtbot: QtBot) -> None:
    sheets.show_documents(None)
    assert sheets.count.text() == "Drawing the pages …"
    qtbot.waitUntil(lambda: len(colours_across(sheets)) > 2)
    sheets.show_documents(())
    assert colours_across(sheets) == {"#a9a9a9"}


def colours_across(sheets: SheetsWindow) -> set[str]:
    """Colours in a band across the middle of what is seen of the pages."""
    seen = sheets.pages.grab(sheets.pages.visibleRegion().boundingRect()).toImage()
    middle = seen.height() // 2
    rows = range(middle - 10, middle + 10)
    return {seen.pixelColor(x, y).name() for x in range(seen.width()) for y in rows}


def test_a_plate_without_lines_has_no_sheet_of_them(sheets: SheetsWindow) -> None:
    assert sheets.ticks["lines"].isHidden()


def type_name(path: Path, qtbot: QtBot) -> None:
    """Answer the file dialog."""
    qtbot.waitUntil(lambda: isinstance(QApplication.activeModalWidget(), QFileDialog))
    dialog = QApplication.activeModalWidget()
    assert isinstance(dialog, QFileDialog)
    line = dialog.findChild(QLineEdit, "fileNameEdit")
    assert isinstance(line, QLineEdit)
    line.setText(str(path))
    QTest.keyClick(line, Qt.Key.Key_Return)


def test_the_tracing_is_kept_as_lines(sheets: SheetsWindow, tmp_path: Path, qtbot: QtBot) -> None:
    sheets.ticks["tracing"].click()
    qtbot.waitUntil(lambda: not sheets.svg_button.isHidden(), timeout=PLENTY_MS)
    sheets.svg_button.click()
    type_name(tmp_path / "lines", qtbot)
    qtbot.waitUntil(lambda: "Saved as lines.svg" in sheets.said.text(), timeout=PLENTY_MS)
    assert "viewBox" in (tmp_path / "lines.svg").read_text(encoding="utf-8")


def test_a_place_that_cannot_be_written_to_is_told_beside_the_sheets(
    sheets: SheetsWindow, tmp_path: Path, qtbot: QtBot
) -> None:
    sheets._write(tmp_path / "nowhere" / "sheets.pdf", b"%PDF")
    qtbot.waitUntil(lambda: "could not be written" in sheets.said.text(), timeout=PLENTY_MS)
    assert not list(tmp_path.glob("nowhere"))


def test_a_strip_card_can_be_asked_for_from_the_card(planned: BenchWindow, qtbot: QtBot) -> None:
    planned.top.strip.print.click()
    opened = planned.findChild(SheetsWindow)
    assert isinstance(opened, SheetsWindow)
    qtbot.waitUntil(lambda: bool(opened.sheets), timeout=PLENTY_MS)
    assert opened.kinds == ("strip-card",)


def test_the_pdf_holds_the_order(
    sheets: SheetsWindow, planned: BenchWindow, tmp_path: Path, qtbot: QtBot
) -> None:
    sheets.pdf_button.click()
    type_name(tmp_path / "sheet", qtbot)
    path = tmp_path / "sheet.pdf"
    qtbot.waitUntil(lambda: "Saved as sheet.pdf" in sheets.said.text(), timeout=PLENTY_MS)
    said = words_of(path.read_bytes())
    assert planned.bench.name() in said
    assert len(PdfReader(path).pages) == len(sheets.sheets)


def test_another_paper_lays_them_out_anew_and_is_remembered(
    sheets: SheetsWindow, planned: BenchWindow, qtbot: QtBot
) -> None:
    wanted = "US Letter" if planned.preferences.now.paper == "a4" else "A4"
    sheets.paper.list.setCurrentText(wanted)
    sheets.paper.list.activated.emit(sheets.paper.list.currentIndex())
    qtbot.waitUntil(
        lambda: bool(sheets.sheets) and sheets.sheets[0].paper.name == wanted, timeout=PLENTY_MS
    )
    assert planned.preferences.now.paper == ("letter" if wanted == "US Letter" else "a4")


def test_a_change_of_the_plate_changes_the_sheets(
    sheets: SheetsWindow, planned: BenchWindow, qtbot: QtBot
) -> None:
    before = sheets.sheets
    planned.add_tones(-1)
    qtbot.waitUntil(lambda: bool(sheets.sheets) and sheets.sheets is not before, timeout=PLENTY_MS)
    assert sheets.sheets != before


def printing(sheets: SheetsWindow, file: Path, pages: tuple[int, int] | None = None) -> None:
    """Ask for the printer by keys, and print into a file in the system's own dialog."""

    def answer() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, QPrintDialog)
        of = dialog.findChildren
        of(QLineEdit, "filename")[0].setText(str(file))
        if pages is not None:
            of(QRadioButton, "printRange")[0].setChecked(True)
            of(QSpinBox, "from")[0].setValue(pages[0])
            of(QSpinBox, "to")[0].setValue(pages[1])
        dialog.accept()

    QTimer.singleShot(0, answer)
    QTest.keyClick(sheets, Qt.Key.Key_P, Qt.KeyboardModifier.ControlModifier)


def pages_of(path: Path) -> list[str]:
    return [page.extract_text() for page in PdfReader(path).pages]


def test_a_printer_gets_every_page_by_keys(
    sheets: SheetsWindow, tmp_path: Path, qtbot: QtBot
) -> None:
    printing(sheets, tmp_path / "printed.pdf")
    qtbot.waitUntil(lambda: "Saved as printed.pdf" in sheets.said.text(), timeout=PLENTY_MS)
    pages = PdfReader(tmp_path / "printed.pdf").pages
    assert len(pages) == len(sheets.sheets)
    width = float(pages[0].mediabox.width) / 72 * 25.4
    assert width == pytest.approx(sheets.sheets[0].paper.width_mm, abs=0.4)


def test_a_range_of_pages_can_be_printed(
    sheets: SheetsWindow, tmp_path: Path, qtbot: QtBot
) -> None:
    printing(sheets, tmp_path / "all.pdf")
    printing(sheets, tmp_path / "some.pdf", (2, 3))
    qtbot.waitUntil(lambda: "Saved as some.pdf" in sheets.said.text(), timeout=PLENTY_MS)
    assert len(sheets.sheets) > 3
    assert pages_of(tmp_path / "some.pdf") == pages_of(tmp_path / "all.pdf")[1:3]


def test_a_printer_of_other_paper_is_told_of_before_anything_is_printed(
    sheets: SheetsWindow, tmp_path: Path, qtbot: QtBot
) -> None:
    def other_paper() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, QPrintDialog)
        dialog.printer().setPageSize(QPageSize(QPageSize.PageSizeId.A5))

    QTimer.singleShot(0, other_paper)
    printing(sheets, tmp_path / "printed.pdf")
    assert "it would scale or cut them" in sheets.notice.sentence.text()
    assert not (tmp_path / "printed.pdf").exists()
    all_the_same = next(
        button for button in sheets.notice.findChildren(QPushButton) if "same" in button.text()
    )
    all_the_same.click()
    qtbot.waitUntil((tmp_path / "printed.pdf").exists, timeout=PLENTY_MS)
    assert len(PdfReader(tmp_path / "printed.pdf").pages) == len(sheets.sheets)


def test_the_pages_are_scrolled_by_keys(sheets: SheetsWindow, qtbot: QtBot) -> None:
    area = sheets.findChild(QScrollArea)
    assert isinstance(area, QScrollArea)
    area.setFocus()
    qtbot.waitUntil(area.hasFocus)
    QTest.keyClick(area, Qt.Key.Key_PageDown)
    assert area.verticalScrollBar().value() > 0
