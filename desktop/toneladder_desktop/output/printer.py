"""Sheets on a printer: every page at true size on upright paper, and what would spoil that."""

from collections.abc import Sequence

from PySide6.QtCore import QMarginsF, QSizeF
from PySide6.QtGui import QPageLayout, QPageSize, QPainter
from PySide6.QtPrintSupport import QPrinter, QPrinterInfo

from toneladder.errors import OutputError
from toneladder.quantities import Manner, write_length
from toneladder.sheets.marks import Paper, Sheet
from toneladder.wording import say
from toneladder_desktop.output.painting import paint

BARE_MM = 8.0
"""What every sheet leaves bare along its edges; a printer may leave as much."""

_SAME_MM = 1.0  # a page of whole points differs from its paper by a third of this


def printer_for(sheets: Sequence[Sheet], name: str) -> QPrinter:
    """A printer set to the paper of ``sheets``, upright: the one of that name if it is there."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    if name in QPrinterInfo.availablePrinterNames():
        printer.setPrinterName(name)
    printer.setDocName(sheets[0].title)
    printer.setFullPage(True)
    paper = _upright(sheets[0].paper)
    size = QPageSize(QSizeF(paper.width_mm, paper.height_mm), QPageSize.Unit.Millimeter)
    printer.setPageLayout(QPageLayout(size, QPageLayout.Orientation.Portrait, QMarginsF()))
    return printer


def doubts(layout: QPageLayout, paper: Paper, manner: Manner) -> str:
    """Why a printer set so would not print the sheets whole and at true size; empty if it would."""
    size = layout.fullRect(QPageLayout.Unit.Millimeter).size()
    held = sorted((size.width(), size.height()))
    laid = sorted((paper.width_mm, paper.height_mm))
    if any(abs(one - other) > _SAME_MM for one, other in zip(held, laid, strict=True)):
        return say(
            "The printer is set to {its}, the sheets are laid out for {paper}: it would scale or "
            "cut them. Nothing was printed. Set it to {paper}, or choose its paper for the sheets.",
            its=layout.pageSize().name(),
            paper=paper.name,
        )
    in_mm = QPageLayout(layout)
    in_mm.setUnits(QPageLayout.Unit.Millimeter)
    least = in_mm.minimumMargins()
    bare = max(least.left(), least.top(), least.right(), least.bottom())
    if bare > BARE_MM:
        return say(
            "The printer leaves {bare} bare at an edge, the sheets only {ours}: it would cut or "
            "scale them. Nothing was printed. Choose another printer, or larger paper in it.",
            bare=write_length(bare, manner),
            ours=write_length(BARE_MM, manner),
        )
    return ""


def print_sheets(sheets: Sequence[Sheet], printer: QPrinter) -> None:
    """Draw every sheet on its own page of ``printer``, a millimetre as a millimetre.

    The paper stays upright in the printer; what lies the other way is drawn turned by a quarter,
    its head along the right edge.

    Raises
    ------
    OutputError
        The printer is gone, or does not take all pages.
    """
    if printer.outputFormat() is QPrinter.OutputFormat.NativeFormat:
        _require_there(printer)
    painter = QPainter()
    if not painter.begin(printer):
        raise _refused(printer)
    px_per_mm = printer.resolution() / 25.4
    for number, sheet in enumerate(sheets):
        if number and not printer.newPage():
            painter.end()
            raise _refused(printer)
        painter.save()
        if not sheet.paper.upright:
            painter.translate(sheet.paper.height_mm * px_per_mm, 0.0)
            painter.rotate(90.0)
        paint(sheet, painter, px_per_mm)
        painter.restore()
    wrong = (QPrinter.PrinterState.Error, QPrinter.PrinterState.Aborted)
    if not painter.end() or printer.printerState() in wrong:
        raise _refused(printer)


def wished(sheets: Sequence[Sheet], printer: QPrinter) -> Sequence[Sheet]:
    """The pages that were asked for, all of them if no range was."""
    ranges = printer.pageRanges()
    if ranges.isEmpty():
        return sheets
    return [sheet for number, sheet in enumerate(sheets, start=1) if ranges.contains(number)]


def _require_there(printer: QPrinter) -> None:
    if printer.printerName() not in QPrinterInfo.availablePrinterNames():
        raise OutputError(
            say(
                "The printer {printer} is not there any more. Nothing was printed. Choose another"
                " one, or save the sheets as a PDF.",
                printer=printer.printerName(),
            )
        )


def _refused(printer: QPrinter) -> OutputError:
    return OutputError(
        say(
            "The printer {printer} did not take all sheets. Look what came out of it, and print"
            " the others again, or save the sheets as a PDF.",
            printer=printer.printerName() or printer.outputFileName(),
        )
    )


def _upright(paper: Paper) -> Paper:
    return paper if paper.upright else paper.turned
