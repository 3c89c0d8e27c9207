"""Quiet words above the paper, and what is said of slow work."""

import pytest
from pytestqt.qtbot import QtBot

from toneladder_desktop.fittings.notice import Notice
from toneladder_desktop.window.bench_window import BenchWindow
from toneladder_desktop.window.slowness import SLOW_MS

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


@pytest.fixture
def notice(qtbot: QtBot) -> Notice:
    notice = Notice()
    qtbot.addWidget(notice)
    return notice


def test_an_act_is_done_once_and_puts_the_sentence_away(notice: Notice) -> None:
    done: list[str] = []
    notice.tell("Which?", (("This", lambda: done.append("this")),), put_away="Neither")
    assert notice.close_button.text() == "Neither"
    notice._buttons[0].click()
    assert done == ["this"]
    assert not notice.isVisible()


def test_a_new_sentence_has_its_own_acts(notice: Notice) -> None:
    notice.tell("One?", (("Yes", int), ("No", int)))
    notice.tell("Two.")
    assert notice.sentence.text() == "Two."
    assert notice.accessibleName() == "Two."
    assert notice._buttons == []


def test_work_says_nothing_before_a_second_and_can_be_stopped_after(
    window: BenchWindow, qtbot: QtBot
) -> None:
    slowness, workings = window.top.slowness, window.workings
    assert SLOW_MS == 1000
    workings.background._wanted["work"] = "something that takes long"
    workings.doing.emit("Reading harbour.jpg …")
    assert not slowness.isVisible()
    qtbot.waitUntil(slowness.isVisible, timeout=5 * SLOW_MS)
    assert slowness.sentence.text() == "Reading harbour.jpg …"
    assert slowness.close_button.text() == "Stop"
    slowness.close_button.click()
    assert not workings.background.busy
    assert not slowness.isVisible()


def test_what_is_lasting_comes_back_until_it_is_answered(notice: Notice) -> None:
    done: list[str] = []
    notice.tell("Lost?", (("Take it", lambda: done.append("taken")),), lasting=True)
    notice.put_away()
    assert notice.sentence.text() == "Lost?"
    notice.tell("Another program wrote.")
    assert notice.sentence.text() == "Another program wrote."
    notice.close_button.click()
    assert notice.sentence.text() == "Lost?"
    notice._buttons[0].click()
    assert done == ["taken"]
    assert notice.isHidden()
