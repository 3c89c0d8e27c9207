"""Sheets as a PDF: the same painter as on the screen, at true size."""

from collections.abc import Sequence
from functools import cache
from pathlib import Path

from PySide6.QtCore import QBuffer, QIODevice, QMarginsF, QSizeF
from PySide6.QtGui import QGuiApplication, QPageLayout, QPageSize, QPainter, QPdfWriter

from toneladder.sheets.marks import Paper, Sheet
from toneladder.writing import write_whole
from toneladder_desktop.output.painting import paint

_DPI = 1200


def write_pdf(sheets: Sequence[Sheet], path: Path) -> None:
    """Write ``sheets``, one to a page, to ``path``: whole, or not at all.

    Parameters
    ----------
    sheets : sequence of Sheet, at least one
        Pages in order; each on its own paper, placed from the paper's top left corner.
    path : Path
        A file already there is replaced when the new one is complete.

    Raises
    ------
    OutputError
        The place cannot be written to; what was there is as before.
    """
    content = pdf_bytes(sheets)
    write_whole(path, lambda file: file.write(content))


def pdf_bytes(sheets: Sequence[Sheet]) -> bytes:
    """The PDF of ``sheets``, in memory."""
    _drawing_without_a_display()
    device = QBuffer()
    device.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(device)
    writer.setResolution(_DPI)
    writer.setTitle(sheets[0].title)
    writer.setCreator("Tone Ladder")
    _turn_to(writer, sheets[0].paper)
    painter = QPainter(writer)
    for index, sheet in enumerate(sheets):
        if index > 0:
            _turn_to(writer, sheet.paper)
            writer.newPage()
        paint(sheet, painter, _DPI / 25.4)
    painter.end()
    device.close()
    return bytes(device.data().data())


def _turn_to(writer: QPdfWriter, paper: Paper) -> None:
    size = QPageSize(QSizeF(paper.width_mm, paper.height_mm), QPageSize.Unit.Millimeter)
    writer.setPageLayout(QPageLayout(size, QPageLayout.Orientation.Portrait, QMarginsF()))


@cache
def _drawing_without_a_display() -> QGuiApplication | None:
    """Fonts need an application: one that asks for no display, if none is there yet."""
    if QGuiApplication.instance() is not None:
        return None
    return QGuiApplication(["toneladder", "-platform", "offscreen"])
