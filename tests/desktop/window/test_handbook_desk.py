"""The handbook opened from the window, at the chapter on whatever has the keys."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot
from tests.desktop.window.test_menus import trigger

from toneladder.handbook.chapters import chapters
from toneladder_desktop.handbook.view import HandbookWindow
from toneladder_desktop.window.bench_window import BenchWindow
from toneladder_desktop.window.handbook_desk import CHAPTER_OF, chapter_of

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


def handbook_of(window: BenchWindow) -> HandbookWindow:
    book = window.findChild(HandbookWindow)
    assert isinstance(book, HandbookWindow)
    return book


def test_f1_opens_the_book_and_the_window_keeps_one(window: BenchWindow, qtbot: QtBot) -> None:
    qtbot.waitActive(window)
    QTest.keyClick(window, Qt.Key.Key_F1)
    book = handbook_of(window)
    assert book.isVisible()
    assert book.page.chapter == "first-plate"
    book.page.read("cautions")
    book.close()
    trigger(window, "Handbook")
    assert window.findChildren(HandbookWindow) == [book]
    assert book.page.chapter == "cautions"


def test_a_decision_opens_its_own_chapter(planned: BenchWindow, qtbot: QtBot) -> None:
    qtbot.waitActive(planned)
    top = planned.top
    for decision, name in (
        (top.tones, "how-many-tones"),
        (top.pace, "order-and-sheets"),
        (top.soft, "notes-and-soft-passages"),
    ):
        top.card.open(decision)
        trigger(planned, "Handbook on this")
        assert handbook_of(planned).page.chapter == name
        planned.activateWindow()
        qtbot.waitActive(planned)


def test_heads_of_the_card_and_parts_of_the_window_know_their_chapter(
    planned: BenchWindow,
) -> None:
    top = planned.top
    heads = {chapter_of(row.head) for row in top.card.rows}
    assert {"picture", "test-strips", "second-grain"} <= heads
    assert chapter_of(top.ladder) == "how-many-tones"
    assert chapter_of(None) == "first-plate"


def test_every_chapter_that_is_named_is_there() -> None:
    assert set(CHAPTER_OF.values()) <= {one.name for one in chapters()}


def test_every_part_that_is_named_is_there() -> None:
    """Parts are known by the names of their classes; a new name must be told here too."""
    from importlib.resources import files
    from pathlib import Path

    package = Path(str(files("toneladder_desktop")))
    text = "\n".join(path.read_text(encoding="utf-8") for path in package.rglob("*.py"))
    assert [name for name in CHAPTER_OF if f"\nclass {name}(" not in text] == []


def test_the_last_chapter_lists_the_keys_of_the_menus(window: BenchWindow) -> None:
    window.handbook.open("keys")
    text = handbook_of(window).page.toPlainText()
    shortcuts = window.menus.shortcuts()
    assert shortcuts
    for words, key in shortcuts:
        assert f"{key}: {words}" in text
