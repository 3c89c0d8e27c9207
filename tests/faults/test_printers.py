"""No printer, one that goes away, one that refuses, one that is a file on a disk that is full."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtCore import QTimer
from PySide6.QtPrintSupport import QPrinter, QPrinterInfo
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot
from tests.faults.people import small_disk

from toneladder.errors import OutputError
from toneladder.lettering import Face
from toneladder.sheets.documents import Document
from toneladder.sheets.marks import A4, Sheet, Text
from toneladder_desktop.bench.beside import Beside
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.output.printer import print_sheets
from toneladder_desktop.sheets.pages_window import SheetsWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", "QPainter::begin")

PAGES = tuple(
    Sheet(A4, (Text(20.0, 20.0, f"page {number}", Face.SANS, 5.0),), "Boats", number, 3)
    for number in (1, 2, 3)
)


class Gone(QPrinter):
    """A printer that was there when it was chosen."""

    def outputFormat(self) -> QPrinter.OutputFormat:  # noqa: N802 (Qt's)
        return QPrinter.OutputFormat.NativeFormat

    def printerName(self) -> str:  # noqa: N802 (Qt's)
        return "the one in the corner"


@dataclass(frozen=True, eq=False)
class Opened:
    sheets: SheetsWindow
    beside: Beside


@pytest.fixture
def opened(qtbot: QtBot, tmp_path: Path) -> Iterator[Opened]:
    """A window of three pages."""
    parent, beside = QWidget(), Beside()
    qtbot.addWidget(parent)
    sheets = SheetsWindow(
        Preferences(tmp_path / "preferences.ini"), str, lambda *_: None, beside, parent
    )
    sheets.show_documents([Document("order.pdf", PAGES)])
    yield Opened(sheets, beside)
    beside.stop()


def test_a_letter_that_no_font_here_has_is_told_of_beside_the_pages(opened: Opened) -> None:
    assert opened.sheets.notice.isHidden()
    page = Sheet(A4, (Text(20.0, 20.0, "quay \ue000", Face.SANS, 5.0),), "Boats", 1, 1)
    opened.sheets.show_documents([Document("order.pdf", (page,))])
    assert opened.sheets.notice.sentence.text().startswith("No font here has \ue000: on the sheets")


def to_file(path: Path) -> QPrinter:
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(path))
    return printer


def test_without_a_printer_a_pdf_is_proposed(opened: Opened) -> None:
    if QPrinterInfo.availablePrinterNames():
        pytest.skip("there is a printer here")
    QTimer.singleShot(0, QApplication.closeAllWindows)
    opened.sheets.print_button.click()
    assert "No printer is set up here" in opened.sheets.said.text()
    assert opened.sheets.sheets == PAGES


def test_a_printer_that_is_gone_when_it_is_wanted_is_told_of(opened: Opened) -> None:
    opened.sheets.send(PAGES, Gone())
    assert opened.sheets.said.text().startswith("The printer the one in the corner is not there")
    assert "Nothing was printed" in opened.sheets.said.text()


def test_a_printer_that_does_not_begin_is_told_of(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="did not take all sheets"):
        print_sheets(PAGES, to_file(tmp_path / "nowhere" / "printed.pdf"))


def test_a_printer_that_stops_after_a_page_is_told_of(tmp_path: Path) -> None:
    class Stopping(QPrinter):
        def newPage(self) -> bool:  # noqa: N802 (Qt's)
            return False

    printer = Stopping()
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    with pytest.raises(OutputError, match="did not take all sheets"):
        print_sheets(PAGES, printer)


def test_pages_printed_to_a_file_are_whole(opened: Opened, tmp_path: Path, qtbot: QtBot) -> None:
    opened.sheets.send(PAGES[1:], to_file(tmp_path / "printed.pdf"))
    qtbot.waitUntil(lambda: "Saved as printed.pdf" in opened.sheets.said.text())
    found = PdfReader(tmp_path / "printed.pdf").pages
    assert [page.extract_text().split() for page in found] == [["page", "2"], ["page", "3"]]


def test_a_printed_file_on_a_full_disk_is_not_said_to_be_printed(
    opened: Opened, qtbot: QtBot
) -> None:
    with small_disk("64k") as disk:
        (disk / "printed.pdf").write_bytes(b"older")
        with (disk / "filling").open("wb", buffering=0) as file:
            while file.write(b"\0" * 4096) == 4096 and file.tell() < 56 * 1024:
                pass
        opened.sheets.send(PAGES, to_file(disk / "printed.pdf"))
        qtbot.waitUntil(lambda: "no room is left" in opened.sheets.said.text())
        assert (disk / "printed.pdf").read_bytes() == b"older"
