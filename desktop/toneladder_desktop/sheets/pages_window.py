"""The sheets to print, looked at before anything is printed: page by page, as they will be."""

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QKeySequence, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtPrintSupport import QPrintDialog, QPrinter, QPrinterInfo
from PySide6.QtWidgets import (
    QCheckBox,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from toneladder.errors import OutputError
from toneladder.sheets.marks import Sheet, Text
from toneladder.wording import say, say_number
from toneladder.writing import write_whole
from toneladder_desktop.bench.beside import Beside
from toneladder_desktop.bench.settings import PAPERS, Preferences, paper_name
from toneladder_desktop.drawing.style import (
    APART,
    FAR,
    ON_SURROUND,
    SURROUND,
    TIGHT,
    WIDE,
    Type,
    font,
)
from toneladder_desktop.fittings.apart import Apart
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.label import Label
from toneladder_desktop.fittings.notice import Notice
from toneladder_desktop.output.lacking import boxes_told
from toneladder_desktop.output.painting import paint
from toneladder_desktop.output.pdf import pdf_bytes
from toneladder_desktop.output.printer import doubts, print_sheets, printer_for, wished

if TYPE_CHECKING:
    from toneladder.sheets.documents import Document

_ON_SCREEN = 3.0
_TITLE_BAR = 40
_SIDE = 250
_NARROWEST = 240
_BETWEEN = WIDE + TIGHT
FIRST = ("order", "maps")
_TRACING = "tracing.svg"
_STEM = {
    "order": "order",
    "maps": "map-",
    "tracing": "tracing",
    "guide": "guide",
    "lines": "lines",
    "strip-card": "strip-card",
    "registration": "registration",
}


class SheetsWindow(Apart):
    """Which sheets, their pages on the grey ground, and what becomes of them.

    ``kinds_wanted`` says that other kinds of sheets are ticked.
    """

    kinds_wanted = Signal()

    def __init__(
        self,
        preferences: Preferences,
        take_paper: Callable[[str], object],
        ask_where: Callable[[QWidget, str, Callable[[Path], object]], object],
        beside: Beside,
        parent: QWidget,
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Sheets to print"))
        self.sheets: tuple[Sheet, ...] = ()
        self._texts: dict[str, str] = {}
        self._preferences, self._ask_where, self._beside = preferences, ask_where, beside
        self.said, self.count = Label(self), Label(self)
        self.paper = Choice(
            say("Office paper"), [(paper, paper_name(paper)) for paper in PAPERS], take_paper, self
        )
        self.paper.show_value(preferences.now.paper)
        self.notice = Notice(self)
        self.ticks = {kind: QCheckBox(words, self) for kind, words in _kinds()}
        for kind, tick in self.ticks.items():
            tick.setChecked(kind in FIRST)
            tick.clicked.connect(self.kinds_wanted)
        self.pages = _Pages(self)
        self.print_button = QPushButton(say("To the printer …"), self)
        self.print_button.clicked.connect(self.print)
        self.pdf_button = QPushButton(say("Save as a PDF …"), self)
        self.pdf_button.clicked.connect(self.save_pdf)
        self.svg_button = QPushButton(say("Tracing as SVG …"), self)
        self.svg_button.clicked.connect(self.save_svg)
        self._lay_out()
        self.show_documents(None)

    @property
    def kinds(self) -> tuple[str, ...]:
        """What is ticked."""
        return tuple(kind for kind, tick in self.ticks.items() if tick.isChecked())

    def tick(self, kinds: Sequence[str]) -> None:
        """Tick these kinds and no others."""
        for kind, tick in self.ticks.items():
            tick.setChecked(kind in kinds)

    def offer_lines(self, *, there: bool) -> None:
        """A plate without pen lines has no sheet of them."""
        self.ticks["lines"].setVisible(there)
        if not there:
            self.ticks["lines"].setChecked(False)

    def show_documents(self, documents: "Sequence[Document] | None") -> None:
        """Other pages; None while they are being laid out."""
        found = documents or ()
        self.sheets = tuple(sheet for document in found for sheet in document.sheets)
        self._texts = {document.name: document.text for document in found if document.text}
        self.pages.show_sheets(self.sheets, "" if documents is not None else _drawing())
        marks = (mark for sheet in self.sheets for mark in sheet.marks)
        boxes = boxes_told(mark.text for mark in marks if isinstance(mark, Text))
        if boxes:
            self.notice.tell(boxes)
        pages = dict.fromkeys(self.ticks, 0)
        for document in found:
            kind = next(kind for kind in self.ticks if document.name.startswith(_STEM[kind]))
            pages[kind] += len(document.sheets)
        for kind, words in _kinds():
            number = pages[kind]
            text = say_number("{words}, {n} page", "{words}, {n} pages", number, words=words)
            self.ticks[kind].setText(text if number else words)
        if documents is None:
            self.count.setText(_drawing())
        else:
            self.count.setText(say_number("{n} page", "{n} pages", len(self.sheets)))
        for button in (self.print_button, self.pdf_button):
            button.setEnabled(bool(self.sheets))
        self.svg_button.setVisible(_TRACING in self._texts)

    def save_svg(self) -> None:
        """Keep the tracing as lines for other programs."""
        content = self._texts.get(_TRACING, "").encode()
        self._ask_where(self, ".svg", lambda path: self._write(path, content))

    def save_pdf(self) -> None:
        """Keep the pages as a PDF."""
        self._ask_where(self, ".pdf", lambda path: self._write(path, pdf_bytes(self.sheets)))

    def _write(self, path: Path, content: bytes) -> None:
        self.said.setText(say("Saving {name} …", name=path.name))
        self._beside.do(
            lambda: write_whole(path, lambda file: file.write(content)),
            lambda _: self.said.setText(say("Saved as {name}.", name=path.name)),
            self.said.setText,
        )

    def print(self) -> None:
        """Let a printer and a range be chosen, then send the pages by the same painter as here.

        If the printer would scale or cut them, that is said first.
        """
        self.notice.put_away()
        if not QPrinterInfo.availablePrinterNames():
            self.said.setText(
                say(
                    "No printer is set up here; the pages can only go into a file. Print that "
                    "elsewhere, or set a printer up and try again."
                )
            )
        sheets, now = self.sheets, self._preferences.now
        printer = printer_for(sheets, now.printer)
        dialog = QPrintDialog(printer, self)
        dialog.setOption(QPrintDialog.PrintDialogOption.PrintPageRange)
        dialog.setMinMax(1, len(sheets))
        agreed = dialog.exec()
        dialog.deleteLater()
        if not agreed:
            return
        pages = wished(sheets, printer)
        doubt = doubts(printer.pageLayout(), sheets[0].paper, now.manner)
        if doubt:
            send = partial(self.send, pages, printer)
            self.notice.tell(
                doubt, [(say("Print all the same"), send)], put_away=say("Do not print")
            )
        else:
            self.send(pages, printer)

    def send(self, sheets: Sequence[Sheet], printer: QPrinter) -> None:
        """Print pages, or write them where the printer would put them as a file."""
        if printer.outputFileName():
            self._write(Path(printer.outputFileName()), pdf_bytes(sheets))
            return
        try:
            print_sheets(sheets, printer)
        except OutputError as fault:
            self.said.setText(str(fault))
            return
        self._preferences.change(printer=printer.printerName())
        self.said.setText(
            say(
                "Sent to {printer}. Measure the bar on the first page that has one: 50 mm, or the "
                "printer has scaled it.",
                printer=printer.printerName(),
            )
        )

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc closes it; the desktop's own keys print it."""
        if event.matches(QKeySequence.StandardKey.Print) and self.print_button.isEnabled():
            self.print()
        else:
            super().keyPressEvent(event)

    def _lay_out(self) -> None:
        self.said.setWordWrap(True)
        self.count.setFont(font(Type.ANSWER))
        self.print_button.setProperty("act", True)
        area = QScrollArea(self)
        area.setAccessibleName(say("The sheets"))
        area.setWidget(self.pages)
        area.setWidgetResizable(True)
        area.setAlignment(Qt.AlignmentFlag.AlignHCenter)
        head = Label(say("Sheets"), self)
        head.setFont(font(Type.HEAD))
        advice = Label(
            say(
                "Print at 100 %, not fitted to the page, then measure the bar. Black ink alone"
                " will do."
            ),
            self,
        )
        advice.setWordWrap(True)
        side = QVBoxLayout()
        side.setContentsMargins(FAR, WIDE, FAR, FAR)
        side.setSpacing(APART)
        for part in (head, *self.ticks.values(), self.count, self.paper, advice):
            side.addWidget(part)
        for part in (self.print_button, self.pdf_button, self.svg_button, self.said):
            side.addWidget(part)
        side.addStretch(1)
        frame = QWidget(self)
        frame.setFixedWidth(_SIDE)
        frame.setLayout(side)
        left = QVBoxLayout()
        left.setSpacing(0)
        left.addWidget(self.notice)
        left.addWidget(area, 1)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        row.addLayout(left, 1)
        row.addWidget(frame)
        room = self.screen().availableGeometry()
        self.resize(min(1000, room.width()), min(900, room.height() - _TITLE_BAR))


def _drawing() -> str:
    return say("Drawing the pages …")


def _kinds() -> tuple[tuple[str, str], ...]:
    """Kinds of sheets by the names that files and commands give them."""
    return (
        ("order", say("Tank sheet")),
        ("maps", say("Stop-out maps")),
        ("tracing", say("Tracing")),
        ("guide", say("Value guide")),
        ("lines", say("Lines")),
        ("strip-card", say("Strip card")),
        ("registration", say("Registration sheet")),
    )


class _Pages(QWidget):
    """All pages, one below the other, on the neutral ground, as wide as there is room.

    Each is numbered as the printer's own dialog counts them.
    """

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._sheets: tuple[Sheet, ...] = ()
        self._words = ""
        self._scale = _ON_SCREEN

    def show_sheets(self, sheets: tuple[Sheet, ...], words: str) -> None:
        """These sheets; the words where there is none."""
        self._sheets, self._words = sheets, words
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Pages fit the width."""
        super().resizeEvent(event)
        self._fit()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw it."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(SURROUND))
        if not self._sheets:
            painter.setFont(font(Type.NOTE))
            painter.setPen(QColor(ON_SURROUND))
            seen = self.visibleRegion().boundingRect()
            painter.drawText(seen, Qt.AlignmentFlag.AlignCenter, self._words)
        top = FAR
        for number, sheet in enumerate(self._sheets, start=1):
            width = round(sheet.paper.width_mm * self._scale)
            height = round(sheet.paper.height_mm * self._scale)
            left = (self.width() - width) // 2
            if top + height + _BETWEEN > event.rect().top() and top < event.rect().bottom():
                painter.fillRect(left, top, width, height, QColor("#FFFFFF"))
                painter.setFont(font(Type.SMALL))
                painter.setPen(QColor(ON_SURROUND))
                words = say("page {page} of {pages}", page=number, pages=len(self._sheets))
                below = QRect(left, top + height, width, _BETWEEN)
                painter.drawText(below, Qt.AlignmentFlag.AlignCenter, words)
                painter.save()
                painter.translate(left, top)
                paint(sheet, painter, self._scale)
                painter.restore()
            top += height + _BETWEEN

    def _fit(self) -> None:
        wide = max((sheet.paper.width_mm for sheet in self._sheets), default=210.0)
        self._scale = min(_ON_SCREEN, max(self.width() - 2 * FAR, _NARROWEST) / wide)
        high = sum(round(sheet.paper.height_mm * self._scale) + _BETWEEN for sheet in self._sheets)
        self.setMinimumHeight(high + FAR)
        self.update()
