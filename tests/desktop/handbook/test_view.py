"""The handbook's window, driven by keys."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt, QUrl
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from toneladder.handbook.chapters import chapters
from toneladder_desktop.handbook.view import HandbookWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


@pytest.fixture
def handbook(qtbot: QtBot) -> Iterator[HandbookWindow]:
    behind = QWidget()
    qtbot.addWidget(behind)
    book = HandbookWindow(chapters(), behind)
    book.show()
    book.read("the-job")
    qtbot.waitActive(book)
    yield book
    behind.deleteLater()


def picked(book: HandbookWindow) -> str:
    return book.list.currentItem().text()


def test_arrows_go_from_chapter_to_chapter(handbook: HandbookWindow) -> None:
    QTest.keyClick(handbook.list, Qt.Key.Key_Down)
    QTest.keyClick(handbook.list, Qt.Key.Key_Down)
    assert handbook.page.chapter == "picture"
    assert handbook.page.accessibleName() == "The picture"
    assert handbook.page.toPlainText().startswith("The picture\n")


def test_a_word_is_looked_up_and_read_by_keys_alone(handbook: HandbookWindow) -> None:
    QTest.keyClick(handbook, Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    assert handbook.sought.hasFocus()
    QTest.keyClicks(handbook.sought, "check patch")
    assert handbook.page.chapter == "test-strips"
    assert picked(handbook).startswith("Test strips: Check patch\n")
    assert handbook.page.textCursor().block().text() == "Check patch"
    marked = {
        selection.cursor.selectedText().lower() for selection in handbook.page.extraSelections()
    }
    assert {"check", "patch"} <= marked
    QTest.keyClick(handbook.sought, Qt.Key.Key_Return)
    assert handbook.list.hasFocus()


def test_another_place_in_the_same_chapter_is_gone_to(handbook: HandbookWindow) -> None:
    handbook.page.read("test-strips", "Biting")
    length = len(handbook.page.toPlainText())
    handbook.page.read("test-strips", "Printing")
    assert handbook.page.textCursor().block().text() == "Printing"
    assert len(handbook.page.toPlainText()) == length


def test_a_word_that_is_nowhere_is_said_and_cannot_be_picked(handbook: HandbookWindow) -> None:
    handbook.sought.setText("lithopone")
    assert handbook.list.count() == 1
    assert handbook.list.item(0).flags() == Qt.ItemFlag.NoItemFlags
    assert "Nowhere" in handbook.list.item(0).text()


def test_escape_forgets_the_word_and_then_closes(handbook: HandbookWindow) -> None:
    handbook.sought.setText("grain")
    QTest.keyClick(handbook.sought, Qt.Key.Key_Escape)
    assert handbook.list.count() == len(chapters())
    assert handbook.isVisible()
    QTest.keyClick(handbook.sought, Qt.Key.Key_Escape)
    assert not handbook.isVisible()


def test_a_link_leads_on_and_there_is_a_way_back(handbook: HandbookWindow) -> None:
    page = handbook.page
    cursor = page.document().find("Test strips")
    assert cursor.charFormat().anchorHref() == "test-strips"
    page.anchorClicked.emit(QUrl(cursor.charFormat().anchorHref()))
    assert page.chapter == "test-strips"
    assert picked(handbook) == "Test strips"
    page.backward()
    assert page.chapter == "the-job"
    assert picked(handbook) == "The job"


def test_nothing_but_chapters_is_ever_opened(handbook: HandbookWindow) -> None:
    handbook.page.read("https://example.org/")
    assert handbook.page.chapter == "the-job"


def test_everything_has_a_name_for_a_screen_reader(handbook: HandbookWindow) -> None:
    assert handbook.list.accessibleName() == "Chapters"
    assert handbook.sought.accessibleName()
    handbook.sought.setText("grain")
    assert handbook.list.accessibleName() == "Found in the handbook"
