"""The window driven by the mouse alone, from a dropped picture to the sheets as a PDF."""

from collections.abc import Callable
from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QAction, QDragEnterEvent, QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu, QWidget
from pytestqt.qtbot import QtBot

from toneladder.plate.file import read_plate
from toneladder.plate.values import Plate
from toneladder_desktop.ladder.content import Peg, Side
from toneladder_desktop.sheets.pages_window import SheetsWindow
from toneladder_desktop.window import filing, sheets_desk
from toneladder_desktop.window.bench_window import BenchWindow
from toneladder_desktop.window.menus import plain

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")

PLENTY_MS = 60_000
LEFT = Qt.MouseButton.LeftButton


@pytest.fixture(autouse=True)
def _dialogs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever asks where to put a file is told at once."""

    def put(name: str) -> Callable[[QWidget, Path, Callable[[Path], object]], object]:
        return lambda _parent, _suggestion, take: take(tmp_path / name)

    monkeypatch.setattr(filing, "ask_where_to_save", put("hill.plate"))
    monkeypatch.setattr(sheets_desk, "ask_where_to_put_pdf", put("hill.pdf"))


def click(widget: QWidget, at: QPoint | None = None) -> None:
    """One click, in the middle unless it is said where."""
    assert widget.isVisible()
    QTest.mouseClick(widget, LEFT, pos=at or widget.rect().center())


def click_in_menu(window: BenchWindow, head: str, line: str) -> None:
    """Open a menu and click one of its lines."""
    bar = window.menuBar()
    action = next(a for a in bar.actions() if plain(a.text()) == head)
    click(bar, bar.actionGeometry(action).center())
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    found = [a for a in menu.actions() if plain(a.text()).startswith(line)]
    assert isinstance(found[0], QAction)
    click(menu, menu.actionGeometry(found[0]).center())


def drop(window: BenchWindow, path: Path) -> None:
    """Drag a file over the window and let it come down."""
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(path))])
    copy, none = Qt.DropAction.CopyAction, Qt.KeyboardModifier.NoModifier
    at = QPointF(window.rect().center())
    for event in (
        QDragEnterEvent(at.toPoint(), copy, mime, LEFT, none),
        QDropEvent(at, copy, mime, LEFT, none),
    ):
        QApplication.sendEvent(window, event)
        assert event.isAccepted()


def drag_parting(window: BenchWindow, step: int, down: int) -> None:
    """Take the peg of a parting and move it."""
    ladder = window.top.ladder
    assert ladder._layout is not None
    box = ladder._layout.place(Peg(Side.PARTING, step)).body
    at = QPoint(round(box.x + box.width / 2), round(box.y + box.height / 2))
    QTest.mousePress(ladder, LEFT, pos=at)
    for part in (1, 2, 3):
        QTest.mouseMove(ladder, at + QPoint(0, down * part // 3))
    QTest.mouseRelease(ladder, LEFT, pos=at + QPoint(0, down))


def plate_of(window: BenchWindow) -> Plate:
    plate = window.bench.plate
    assert plate is not None
    return plate


def until_planned(window: BenchWindow, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: window.workings.plan is not None, timeout=PLENTY_MS)


def test_by_mouse_alone_a_dropped_picture_becomes_sheets_and_a_plate_that_opens_the_same(
    window: BenchWindow, picture_file: Path, tmp_path: Path, qtbot: QtBot
) -> None:
    drop(window, picture_file)
    until_planned(window, qtbot)
    rows = {row.decision: row.head for row in window.top.card.rows}
    click(rows[window.top.tones])
    while plate_of(window).tones.count < 7:
        click(window.top.tones.more)
    seven = plate_of(window)
    until_planned(window, qtbot)
    drag_parting(window, 3, 24)
    assert len(plate_of(window).tones.held_partings) == 1
    click_in_menu(window, "Edit", "Undo")
    assert plate_of(window) == seven
    drag_parting(window, 4, -18)
    held = plate_of(window)
    assert len(held.tones.held_partings) == 1
    until_planned(window, qtbot)
    with qtbot.waitSignal(window.filing.saved, timeout=PLENTY_MS):
        click_in_menu(window, "File", "Save")
    assert read_plate(tmp_path / "hill.plate").plate == held
    with qtbot.waitSignal(window.filing.opened, timeout=PLENTY_MS):
        drop(window, tmp_path / "hill.plate")
    assert plate_of(window) == held
    assert window.bench.undo.count() == 0
    until_planned(window, qtbot)
    click(window.top.day_bar.act)
    sheets = window.findChild(SheetsWindow)
    assert isinstance(sheets, SheetsWindow)
    qtbot.waitUntil(sheets.pdf_button.isEnabled, timeout=PLENTY_MS)
    click(sheets.pdf_button)
    qtbot.waitUntil(lambda: "Saved as hill.pdf" in sheets.said.text(), timeout=PLENTY_MS)
    pages = PdfReader(tmp_path / "hill.pdf").pages
    assert held.title in " ".join(pages[0].extract_text().split())
    assert plate_of(window) == held
