"""The sheets to print, looked at before anything is printed: page by page, as they will be."""

from collections.abc import Callable, Sequence
from pathlib import Path

from PySide6.QtCore import QMarginsF, QSizeF, Qt
from PySide6.QtGui import QColor, QKeyEvent, QPageLayout, QPageSize, QPainter, QPaintEvent
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from toneladder.errors import ToneLadderError
from toneladder.sheets.marks import Sheet
from toneladder.wording import say, say_number
from toneladder_desktop.drawing.style import APART, FAR, SURROUND, WIDE, Type, font
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.output.painting import paint
from toneladder_desktop.output.pdf import write_pdf

_ON_SCREEN = 3.0
_TITLE_BAR = 40


class SheetsWindow(QWidget):
    """Pages on the grey ground, their paper, and two acts: print, or keep as a PDF."""

    def __init__(
        self,
        paper: str,
        take_paper: Callable[[str], object],
        ask_where: Callable[[QWidget, Callable[[Path], object]], object],
        parent: QWidget,
    ) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self.setWindowTitle(say("Sheets to print"))
        self.sheets: tuple[Sheet, ...] = ()
        self._ask_where = ask_where
        self.said = QLabel(self)
        self.said.setWordWrap(True)
        self.paper = Choice(
            say("Office paper"),
            [("a4", say("A4")), ("letter", say("US Letter"))],
            take_paper,
            self,
        )
        self.paper.show_value(paper)
        self.count = QLabel(self)
        self.count.setFont(font(Type.ANSWER))
        self.pages = _Pages(self)
        area = QScrollArea(self)
        area.setAccessibleName(say("The sheets"))
        area.setWidget(self.pages)
        area.setWidgetResizable(True)
        area.setAlignment(Qt.AlignmentFlag.AlignHCenter)
        self.print_button = QPushButton(say("To the printer …"), self)
        self.print_button.setProperty("act", True)
        self.print_button.clicked.connect(self.print)
        self.pdf_button = QPushButton(say("Save as a PDF …"), self)
        self.pdf_button.clicked.connect(self.save_pdf)
        side = QVBoxLayout()
        side.setContentsMargins(FAR, WIDE, FAR, FAR)
        side.setSpacing(APART)
        head = QLabel(say("Tank sheet"), self)
        head.setFont(font(Type.HEAD))
        advice = QLabel(
            say("Print at 100 %, not fitted to the page. Black ink alone will do."), self
        )
        advice.setWordWrap(True)
        for part in (head, self.count, self.paper, advice, self.print_button, self.pdf_button):
            side.addWidget(part)
        side.addWidget(self.said)
        side.addStretch(1)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        row.addWidget(area, 1)
        frame = QWidget(self)
        frame.setFixedWidth(232)
        frame.setLayout(side)
        row.addWidget(frame)
        room = self.screen().availableGeometry()
        self.resize(min(960, room.width()), min(900, room.height() - _TITLE_BAR))
        self.show_sheets(())

    def show_sheets(self, sheets: Sequence[Sheet]) -> None:
        """Other pages; none while they are being laid out."""
        self.sheets = tuple(sheets)
        self.pages.show_sheets(self.sheets)
        text = say_number("{n} page", "{n} pages", len(sheets)) if sheets else say("…")
        self.count.setText(text)
        for button in (self.print_button, self.pdf_button):
            button.setEnabled(bool(sheets))

    def save_pdf(self) -> None:
        """Keep the pages as a PDF."""
        self._ask_where(self, self._write)

    def _write(self, path: Path) -> None:
        try:
            write_pdf(self.sheets, path)
        except ToneLadderError as fault:
            self.said.setText(str(fault))
            return
        self.said.setText(say("Saved as {name}.", name=path.name))

    def print(self) -> None:
        """Send the pages to a printer, at true size, by the same painter as here."""
        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        printer.setDocName(self.sheets[0].title)
        printer.setFullPage(True)
        printer.setPageLayout(_layout(self.sheets[0]))
        dialog = QPrintDialog(printer, self)
        if dialog.exec():
            print_sheets(self.sheets, printer)
            self.said.setText(say("Sent to {printer}.", printer=printer.printerName()))
        dialog.deleteLater()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc closes it."""
        if event.key() == Qt.Key.Key_Escape:
            self.close()
        else:
            super().keyPressEvent(event)


def print_sheets(sheets: Sequence[Sheet], printer: QPrinter) -> None:
    """Draw every sheet on its own page of ``printer``, a millimetre as a millimetre."""
    painter = QPainter(printer)
    for number, sheet in enumerate(sheets):
        if number:
            printer.newPage()
        paint(sheet, painter, printer.resolution() / 25.4)
    painter.end()


def _layout(sheet: Sheet) -> QPageLayout:
    size = QPageSize(QSizeF(sheet.paper.width_mm, sheet.paper.height_mm), QPageSize.Unit.Millimeter)
    return QPageLayout(size, QPageLayout.Orientation.Portrait, QMarginsF())


class _Pages(QWidget):
    """All pages, one below the other, on the neutral ground."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._sheets: tuple[Sheet, ...] = ()

    def show_sheets(self, sheets: tuple[Sheet, ...]) -> None:
        self._sheets = sheets
        wide = max((sheet.paper.width_mm for sheet in sheets), default=210.0)
        high = sum(sheet.paper.height_mm * _ON_SCREEN + FAR for sheet in sheets)
        self.setMinimumSize(round(wide * _ON_SCREEN) + 2 * FAR, round(high) + FAR)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw it."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(SURROUND))
        top = FAR
        for sheet in self._sheets:
            width = round(sheet.paper.width_mm * _ON_SCREEN)
            height = round(sheet.paper.height_mm * _ON_SCREEN)
            left = (self.width() - width) // 2
            if top + height > event.rect().top() and top < event.rect().bottom():
                painter.fillRect(left, top, width, height, QColor("#FFFFFF"))
                painter.save()
                painter.translate(left, top)
                paint(sheet, painter, _ON_SCREEN)
                painter.restore()
            top += height + FAR
