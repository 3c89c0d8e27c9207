"""The notes of the first minutes: on the sample alone, each gone for good when it is done."""

from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.paper.margin_notes import MarginNotes
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")

PLENTY_MS = 60_000
DROP = "Drop your own picture here"
PEG = "Drag a peg: it holds"
SHEETS = "Print the sheets when it looks right"


def notes_of(window: BenchWindow) -> tuple[str, ...]:
    notes = window.top.paper.findChild(MarginNotes)
    assert isinstance(notes, MarginNotes)
    return notes.notes


def open_sample(window: BenchWindow, qtbot: QtBot) -> None:
    window.filing.open_sample()
    qtbot.waitUntil(lambda: window.workings.plan is not None, timeout=PLENTY_MS)


def test_three_notes_stand_on_the_sample_and_go_one_by_one(
    window: BenchWindow, qtbot: QtBot, tmp_path: Path
) -> None:
    assert notes_of(window) == ()
    open_sample(window, qtbot)
    assert notes_of(window) == (DROP, PEG, SHEETS)
    window.top.ladder.bite_held.emit(3, 200.0)
    assert notes_of(window) == (DROP, SHEETS)
    window.sheets.open()
    assert notes_of(window) == (DROP,)
    kept = window.preferences.now.notes_done
    again = Preferences(tmp_path / "again.ini")
    again.change(notes_done=kept)
    assert Preferences(tmp_path / "again.ini").now.notes_done == kept


def test_a_picture_of_one_s_own_has_no_notes(planned: BenchWindow, qtbot: QtBot) -> None:
    assert notes_of(planned) == ()
    planned.bench.give_up()
    open_sample(planned, qtbot)
    assert DROP not in notes_of(planned)
