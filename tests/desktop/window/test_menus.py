"""Words of the menus, and the window's own pages to read."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from toneladder_desktop.fittings.reading import ReadingWindow
from toneladder_desktop.window.bench_window import BenchWindow
from toneladder_desktop.window.menus import plain
from toneladder_desktop.window.preferences_page import PreferencesPage

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


def trigger(window: BenchWindow, words: str) -> None:
    next(action for action in window.menus.actions if plain(action.text()) == words).trigger()


def test_what_needs_a_plate_waits_for_one(window: BenchWindow) -> None:
    waiting = {plain(action.text()) for action in window.menus.waiting}
    assert {"Save", "Sheets to print", "One tone more", "True size"} <= waiting
    assert not any(action.isEnabled() for action in window.menus.waiting)


def test_with_a_plate_they_can_be_had(planned: BenchWindow) -> None:
    assert all(action.isEnabled() for action in planned.menus.waiting)


@pytest.mark.parametrize(
    ("words", "question"),
    [
        ("Lines bitten first", "lines"),
        ("Soft passages", "soft"),
        ("Second grain", "second_grain"),
        ("Steps, brush, varnish", "steps"),
    ],
)
def test_a_line_of_the_menu_opens_its_question(
    planned: BenchWindow, words: str, question: str
) -> None:
    body = getattr(planned.top, question)
    assert not body.isVisible()
    trigger(planned, words)
    assert body.isVisible()


def test_help_lists_every_key_of_the_menus(window: BenchWindow) -> None:
    trigger(window, "Keys")
    page = window.findChild(ReadingWindow)
    assert isinstance(page, ReadingWindow)
    text = page.text.toPlainText()
    for words, key in window.menus.shortcuts():
        assert words in text
        assert key in text


def test_help_shows_the_sources(window: BenchWindow) -> None:
    trigger(window, "Where the numbers come from")
    page = window.findChild(ReadingWindow)
    assert isinstance(page, ReadingWindow)
    assert "[CIE15]" in page.text.toPlainText()


def test_cautions_are_those_of_the_plan(planned: BenchWindow) -> None:
    trigger(planned, "Cautions and warnings")
    page = planned.findChild(ReadingWindow)
    assert isinstance(page, ReadingWindow)
    plan = planned.workings.plan
    assert plan is not None
    text = page.text.toPlainText()
    assert all(sentence in text for sentence in (*plan.order.cautions, *plan.order.warnings))


def test_a_page_is_closed_by_escape(window: BenchWindow) -> None:
    trigger(window, "About")
    page = window.findChild(ReadingWindow)
    assert isinstance(page, ReadingWindow)
    QTest.keyClick(page, Qt.Key.Key_Escape)
    assert not page.isVisible()


def test_the_lift_can_be_kept_from_flashing(planned: BenchWindow) -> None:
    trigger(planned, "Preferences")
    page = planned.findChild(PreferencesPage)
    assert isinstance(page, PreferencesPage)
    answers = page.rows["steady"].choice.list
    answers.setCurrentText("stays still")
    answers.activated.emit(answers.currentIndex())
    assert planned.preferences.now.steady
    assert planned.tank._steady()


def test_units_chosen_on_the_page_are_written_everywhere_at_once(planned: BenchWindow) -> None:
    trigger(planned, "Preferences")
    page = planned.findChild(PreferencesPage)
    assert isinstance(page, PreferencesPage)
    for key, text in (("imperial", "inches"), ("fahrenheit", "°F")):
        choice = page.rows[key].choice
        choice.list.setCurrentText(text)
        choice.list.activated.emit(choice.list.currentIndex())
    assert planned.top.plate.sides.line.text().endswith("in")
    assert planned.top.bath.temperature.line.text().split() == ["68", "°F"]
