"""Sheets on a printer: what comes out is true to a steel rule, however the page lies."""

from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QMarginsF
from PySide6.QtGui import QPageLayout, QPageSize
from PySide6.QtPrintSupport import QPrinter
from scipy import ndimage
from tests.core.sheets.reading import edges
from tests.desktop.output.test_pdf import needs_poppler, rendered
from tests.desktop.output.test_true_size_pdf import DPI, HIGH, LONG, measured, pages

from toneladder.picture.values import PlateSize
from toneladder.quantities import Manner
from toneladder.sheets.marks import A4, LETTER, Sheet
from toneladder_desktop.output.pdf import write_pdf
from toneladder_desktop.output.printer import doubts, print_sheets, printer_for

pytestmark = pytest.mark.usefixtures("qapp")
PLAIN = Manner()


def printed(sheets: tuple[Sheet, ...], path: Path) -> list[np.ndarray]:
    """What a printer that writes files lays down, True where black."""
    printer = printer_for(sheets, "a printer that is gone")
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(path))
    print_sheets(sheets, printer)
    return [page < 128 for page in rendered(path, DPI)]


@needs_poppler
@pytest.mark.parametrize("size", [HIGH, LONG], ids=lambda size: f"{size.width_mm:g}")
def test_turned_pages_come_out_true_on_upright_paper(size: PlateSize, tmp_path: Path) -> None:
    sheets = pages(A4, size)
    assert not any(sheet.paper.upright for sheet in sheets)
    for black, sheet in zip(printed(sheets, tmp_path / "printed.pdf"), sheets, strict=True):
        assert black.shape[0] > black.shape[1]
        found = measured(np.rot90(black), sheet)
        for seen, meant in zip(found, edges(sheet), strict=True):
            assert seen == pytest.approx(meant, abs=0.1)


@needs_poppler
def test_the_printer_lays_down_what_the_pdf_shows(tmp_path: Path) -> None:
    sheets = pages(A4, LONG)
    write_pdf(sheets, tmp_path / "kept.pdf")
    kept = [page < 128 for page in rendered(tmp_path / "kept.pdf", 300)]
    printed(sheets, tmp_path / "printed.pdf")
    put = [np.rot90(page < 128) for page in rendered(tmp_path / "printed.pdf", 300)]
    for one, other in zip(kept, put, strict=True):
        high, wide = (min(sides) for sides in zip(one.shape, other.shape, strict=True))
        ours, theirs = one[:high, :wide], other[-high:, :wide]
        assert not (ours & ~ndimage.binary_dilation(theirs, np.ones((5, 5)))).any()
        assert not (theirs & ~ndimage.binary_dilation(ours, np.ones((5, 5)))).any()


def layout(size: QPageSize.PageSizeId, bare_pt: float = 0.0) -> QPageLayout:
    bare = QMarginsF(bare_pt, bare_pt, bare_pt, bare_pt)
    return QPageLayout(
        QPageSize(size), QPageLayout.Orientation.Portrait, bare, QPageLayout.Unit.Point, bare
    )


def test_a_printer_of_the_right_paper_is_trusted() -> None:
    assert doubts(layout(QPageSize.PageSizeId.A4), A4, PLAIN) == ""
    assert doubts(layout(QPageSize.PageSizeId.A4), A4.turned, PLAIN) == ""
    assert doubts(layout(QPageSize.PageSizeId.Letter, 18.0), LETTER, PLAIN) == ""


def test_other_paper_and_wide_bare_edges_are_told_of() -> None:
    assert "laid out for A4" in doubts(layout(QPageSize.PageSizeId.Letter), A4, PLAIN)
    said = doubts(layout(QPageSize.PageSizeId.A4, 36.0), A4, Manner(","))
    assert "12,7\N{NO-BREAK SPACE}mm" in said
