"""The strip's page: typed, pasted, scanned, taken, and undone."""

from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor, QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QTableWidgetItem
from pytestqt.qtbot import QtBot
from tests.core.scans.drawing import Look, Page, draw, even_row

from toneladder.bite.values import Standing
from toneladder.sheets.documents import Kind, Wanted, documents
from toneladder.sheets.marks import Text
from toneladder.strip.file import read_strip
from toneladder.strip.values import Means
from toneladder_desktop.strip.view import StripView
from toneladder_desktop.window.bench_window import BenchWindow

READ = ("92", "84", "76", "66", "52", "37", "25", "20")
PLENTY_MS = 20_000

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


@pytest.fixture
def page(planned: BenchWindow, qtbot: QtBot) -> StripView:
    planned.strips.open()
    qtbot.waitUntil(lambda: planned.pages.currentIndex() != 0, timeout=PLENTY_MS)
    view = planned.pages.currentWidget()
    assert isinstance(view, StripView)
    return view


def paste(page: StripView, *cells: str) -> None:
    page.table.setCurrentCell(0, 1)
    QGuiApplication.clipboard().setText("\n".join(cells))
    QTest.keyClick(page.table, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)


def standing(window: BenchWindow) -> Standing | None:
    curve = window.workings.curve
    return None if curve is None else curve.standing


def fitted(page: StripView, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: page.curve.content is not None, timeout=PLENTY_MS)


def test_pasted_readings_become_a_curve_and_the_plate_stands_on_it(
    page: StripView, planned: BenchWindow, qtbot: QtBot
) -> None:
    assert not page.take.isEnabled()
    paste(page, *READ)
    fitted(page, qtbot)
    page.take.click()
    assert planned.pages.currentWidget() is planned.top
    workings = planned.workings
    qtbot.waitUntil(lambda: workings.plan is not None, timeout=PLENTY_MS)
    assert standing(planned) is Standing.STRIP
    assert workings.fit is not None
    planned.bench.undo.undo()
    qtbot.waitUntil(lambda: workings.plan is not None, timeout=PLENTY_MS)
    assert standing(planned) is Standing.UNTESTED


def test_enter_goes_down_the_column_of_readings(page: StripView) -> None:
    page.table.setCurrentCell(0, 1)
    QTest.keyClick(page.table, Qt.Key.Key_Return)
    assert (page.table.currentRow(), page.table.currentColumn()) == (1, 1)


def test_a_wrong_row_is_marked_and_nothing_can_be_taken(page: StripView) -> None:
    paste(page, "92", "much")
    assert not page.take.isEnabled()
    assert "marked" in page.state.text()
    item = page.table.item(1, 1)
    assert item is not None
    assert item.text() == "much"
    assert "much" in item.toolTip()


OUTDATED = "curve of the last readable table"


def darkest(page: StripView) -> int:
    """The darkest grey (0..255) in the middle of the curve's field."""
    image, field = page.curve.grab().toImage(), page.curve._layout
    assert field is not None
    area = field.scales.field
    rows = range(round(area.y) + 4, round(area.bottom) - 4, 2)
    columns = range(round(area.x) + 4, round(area.right) - 8)
    return min(QColor(image.pixel(x, y)).lightness() for y in rows for x in columns)


def test_while_a_row_cannot_be_read_the_old_curve_is_greyed_and_says_so(
    page: StripView, qtbot: QtBot
) -> None:
    paste(page, *READ)
    fitted(page, qtbot)
    good, remarks = darkest(page), page.remarks.text()
    page.table.typed.emit(4, 1, "5 2")
    assert page.curve.read_out() == page.curve.accessibleDescription() == OUTDATED
    assert page.remarks.text() == ""
    assert darkest(page) > good + 40
    assert {cell.text() for cell in against(page)} == {"", "“5 2” cannot be read"}
    page.table.typed.emit(4, 1, "52")
    assert page.curve.read_out() != OUTDATED
    assert (darkest(page), page.remarks.text()) == (good, remarks)


def against(page: StripView) -> list[QTableWidgetItem]:
    cells = (page.table.item(row, 3) for row in range(len(READ)))
    return [cell for cell in cells if cell is not None]


def test_a_table_that_gives_no_curve_greys_the_old_one_until_it_gives_one(
    page: StripView, qtbot: QtBot
) -> None:
    paste(page, *READ)
    fitted(page, qtbot)
    paste(page, *(["50"] * len(READ)))
    qtbot.waitUntil(lambda: page.curve.read_out() == OUTDATED, timeout=PLENTY_MS)
    assert not page.notice.isHidden()
    paste(page, *READ)
    qtbot.waitUntil(lambda: page.curve.read_out() != OUTDATED, timeout=PLENTY_MS)
    assert page.notice.isHidden()


def test_a_dropped_scan_is_found_and_read(page: StripView, qtbot: QtBot, tmp_path: Path) -> None:
    tones = tuple(float(tone) for tone in READ)
    strip = even_row(30.0, 40.0, 20.0, 30.0, tones)
    file = tmp_path / "strip.png"
    file.write_bytes(draw(Page(rows=(strip,)), Look(dpi=150, turn=4.0)).data)
    page.scan_dropped.emit(file)
    qtbot.waitUntil(lambda: page.board.found is not None, timeout=PLENTY_MS)
    assert page.draft is not None
    qtbot.waitUntil(lambda: page.draft is not None and page.draft.means is Means.SCAN)
    read = [told.patch.lightness for told in page.draft.told() if told.patch is not None]
    assert read == pytest.approx(tones, abs=1.5)
    fitted(page, qtbot)


def test_corners_can_be_dragged_and_moved_by_keys(
    page: StripView, qtbot: QtBot, tmp_path: Path
) -> None:
    strip = even_row(30.0, 40.0, 20.0, 30.0, tuple(float(tone) for tone in READ))
    file = tmp_path / "strip.png"
    file.write_bytes(draw(Page(rows=(strip,)), Look(dpi=150)).data)
    page.scan_dropped.emit(file)
    qtbot.waitUntil(lambda: page.board.found is not None, timeout=PLENTY_MS)
    assert page.board.found is not None
    before = page.board.found.corners
    QTest.keyClick(page.board, Qt.Key.Key_Space)
    with qtbot.waitSignal(page.reread):
        QTest.keyClick(page.board, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    assert page.board.found.corners[0][0] > before[0][0]
    corner = page.board.px(page.board.found.corners[2]).toPoint()
    QTest.mousePress(page.board, Qt.MouseButton.LeftButton, pos=corner)
    QTest.mouseMove(page.board, corner + QPoint(-6, 4))
    with qtbot.waitSignal(page.reread):
        QTest.mouseRelease(page.board, Qt.MouseButton.LeftButton, pos=corner + QPoint(-6, 4))
    assert page.board.found.corners[2] != before[2]


def test_a_scan_without_a_strip_says_so_and_corners_can_be_laid_by_hand(
    page: StripView, qtbot: QtBot, tmp_path: Path
) -> None:
    file = tmp_path / "blank.png"
    file.write_bytes(draw(Page(), Look(dpi=80)).data)
    page.scan_dropped.emit(file)
    qtbot.waitUntil(lambda: not page.notice.isHidden(), timeout=PLENTY_MS)
    assert "No strip" in page.notice.sentence.text()
    assert page.board.found is not None
    assert page.draft is not None
    assert len(page.board.found.patches) == len(page.draft.rows)


def test_a_kept_strip_is_a_file_that_can_be_read_again(
    page: StripView, planned: BenchWindow, tmp_path: Path, qtbot: QtBot
) -> None:
    paste(page, *READ)
    assert page.draft is not None
    strip = page.draft.strip()
    assert strip is not None
    planned.strips._write(tmp_path / "own.strip", strip)
    qtbot.waitUntil((tmp_path / "own.strip").exists, timeout=PLENTY_MS)
    assert read_strip(tmp_path / "own.strip") == strip


def test_leaving_changes_nothing(page: StripView, planned: BenchWindow) -> None:
    paste(page, *READ)
    QTest.keyClick(page, Qt.Key.Key_Escape)
    assert planned.bench.undo.count() == 0
    assert planned.pages.currentWidget() is planned.top


def test_a_new_strip_has_the_patches_of_its_card(page: StripView, planned: BenchWindow) -> None:
    plan = planned.workings.plan
    assert plan is not None
    assert page.draft is not None
    found = documents(plan, Wanted(date(2026, 3, 16), kinds=(Kind.STRIP_CARD,)))
    card = [
        mark.text
        for document in found
        for sheet in document.sheets
        for mark in sheet.marks
        if isinstance(mark, Text)
    ]
    typed = [row.bite for row in page.draft.rows][1:]
    assert len(typed) == 7
    assert [text for text in card if text in typed][:7] == typed
