"""A plate's file that others change, take away or open too."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from toneladder_desktop.fittings.notice import Notice
from toneladder_desktop.window.bench_window import BenchWindow
from toneladder_desktop.window.watching import Watching

PLENTY_MS = 20_000
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


@pytest.fixture
def saved(planned: BenchWindow, tmp_path: Path, qtbot: QtBot) -> Path:
    qtbot.waitUntil(lambda: planned.workings.plan is not None, timeout=PLENTY_MS)
    path = tmp_path / "hill.plate"
    with qtbot.waitSignal(planned.filing.saved, timeout=PLENTY_MS):
        planned.filing._save(path, None)
    return path


def told(window: BenchWindow) -> str:
    notice = window.top.notice
    return "" if notice.isHidden() else notice.sentence.text()


def rested(window: BenchWindow, qtbot: QtBot) -> None:
    """What was asked of the disk beside the window is done."""
    done: list[None] = []
    window.beside.do(lambda: None, done.append)
    qtbot.waitUntil(lambda: bool(done), timeout=PLENTY_MS)


def test_an_own_save_is_no_news(planned: BenchWindow, saved: Path, qtbot: QtBot) -> None:
    with qtbot.waitSignal(planned.filing.saved, timeout=PLENTY_MS):
        planned.filing._save(saved, None)
    planned.watching._look()
    assert told(planned) == ""


def test_a_file_that_another_program_wrote_is_noticed(
    planned: BenchWindow, saved: Path, qtbot: QtBot
) -> None:
    saved.write_bytes(saved.read_bytes())
    os.utime(saved, ns=(1, 1))
    qtbot.waitUntil(lambda: "another program" in told(planned), timeout=PLENTY_MS)


def test_a_file_that_is_taken_away_is_noticed(
    planned: BenchWindow, saved: Path, qtbot: QtBot
) -> None:
    saved.unlink()
    qtbot.waitUntil(lambda: "not there any more" in told(planned), timeout=PLENTY_MS)


def test_a_second_window_of_one_file_is_told(
    planned: BenchWindow, saved: Path, qtbot: QtBot, tmp_path: Path
) -> None:
    assert saved.exists()
    rested(planned, qtbot)
    notice = Notice()
    qtbot.addWidget(notice)
    never: Callable[[Path], object] = str
    state = planned.watching._state
    other = Watching(planned.bench, notice, state, never)
    other.follow()
    assert "another window" in notice.sentence.text()
    other.close()
    planned.watching.close()
    rested(planned, qtbot)
    again = Watching(planned.bench, notice, state, never)
    notice.put_away()
    again.follow()
    assert notice.isHidden()
    again.close()
    assert tmp_path.exists()
