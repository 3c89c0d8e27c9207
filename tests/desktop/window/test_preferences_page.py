"""The page of preferences: every row can be found, chosen and taken back; it holds at once."""

from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from toneladder.quantities import Manner, Scale, write_bite, write_tone
from toneladder_desktop.bench.manners import kept_manner
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.window.bench_window import BenchWindow
from toneladder_desktop.window.preferences_page import PreferencesPage

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


@pytest.fixture
def page(tmp_path: Path, window: BenchWindow) -> PreferencesPage:
    made = PreferencesPage(Preferences(tmp_path / "others.ini"), window)
    made.show()
    return made


def choose(page: PreferencesPage, key: str, number: int) -> None:
    answers = page.rows[key].choice.list
    answers.setCurrentIndex(number)
    answers.activated.emit(number)


def test_every_preference_can_be_chosen_and_taken_back_to_what_is_usual(
    page: PreferencesPage, tmp_path: Path
) -> None:
    for key, row in page.rows.items():
        usual = row.preference.get(Preferences(tmp_path / "others.ini").usual)
        assert not row.reset.isEnabled()
        answers = [answer for answer, _ in row.preference.answers]
        choose(page, key, next(n for n, answer in enumerate(answers) if answer != usual))
        assert row.preference.get(Preferences(tmp_path / "others.ini").now) != usual
        assert row.reset.isEnabled()
        row.reset.click()
        assert row.preference.get(Preferences(tmp_path / "others.ini").now) == usual


def test_typing_finds_questions_and_answers(page: PreferencesPage) -> None:
    assert page.search.hasFocus() or page.focusWidget() is page.search
    QTest.keyClicks(page.search, "FAHRENHEIT inch")
    assert not any(row.isVisible() for row in page.rows.values())
    page.search.clear()
    QTest.keyClicks(page.search, "inch")
    assert [key for key, row in page.rows.items() if row.isVisible()] == ["imperial"]
    page.search.setText("across the room")
    assert [key for key, row in page.rows.items() if row.isVisible()] == ["steady"]
    QTest.keyClick(page.search, Qt.Key.Key_Escape)


def test_bites_and_tones_are_written_as_chosen_at_once(page: PreferencesPage) -> None:
    choose(page, "strokes", 1)
    choose(page, "scale", list(Scale).index(Scale.DENSITY))
    choose(page, "decimal", 1)
    assert write_bite(75.0) == "1′15″"
    assert write_tone(48.0).split() == ["D", "0,77"]
    assert page.rows["scale"].choice.list.currentText().endswith("0,77")


def test_the_command_writes_numbers_as_the_window_does(tmp_path: Path, qtbot: QtBot) -> None:
    assert qtbot is not None
    file = tmp_path / "preferences.ini"
    preferences = Preferences(file)
    assert kept_manner(file) == preferences.now.manner
    other = Manner(",", imperial=True, fahrenheit=True, strokes=True, scale=Scale.LIGHTNESS)
    preferences.change(manner=other)
    assert kept_manner(file) == other != Preferences(tmp_path / "none.ini").now.manner


def test_the_sentences_of_a_plan_follow(planned: BenchWindow, qtbot: QtBot) -> None:
    before = planned.workings.plan
    assert before is not None
    planned.preferences.change(manner=replace(planned.preferences.now.manner, decimal=","))
    qtbot.waitUntil(lambda: planned.workings.plan not in (None, before), timeout=60_000)


def test_no_preference_is_cut_at_the_lower_end(page: PreferencesPage, qtbot: QtBot) -> None:
    def cut() -> list[str]:
        end = page.area.viewport().height()
        return [key for key, row in page.rows.items() if row.y() < end <= row.geometry().bottom()]

    page.resize(page.width(), 400)
    page._end_between_rows()
    qtbot.waitUntil(lambda: not cut())
    assert page.area.viewport().height() > 200
