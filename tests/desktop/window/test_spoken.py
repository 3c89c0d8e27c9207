"""Paper, day and ladder as a screen reader finds them: names, roles, values, and what changes."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QAccessibleEvent, QAccessibleInterface
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")

PLENTY_MS = 60_000
Text = QAccessible.Text


def spoken(widget: QWidget) -> QAccessibleInterface:
    found = QAccessible.queryAccessibleInterface(widget)
    assert found is not None
    assert found.isValid()
    return found


def parts_of(widget: QWidget) -> list[QAccessibleInterface]:
    whole = spoken(widget)
    return [whole.child(number) for number in range(whole.childCount())]


def test_paper_day_and_ladder_have_names_and_say_what_they_show(planned: BenchWindow) -> None:
    top = planned.top
    names = {spoken(part).text(Text.Name) for part in (top.paper, top.day, top.ladder)}
    assert names == {"The print", "The day", top.ladder.accessibleName()}
    assert "" not in names
    assert "as printed" in spoken(top.paper).text(Text.Description)
    plate = planned.bench.plate
    assert plate is not None
    assert spoken(top.day).text(Text.Description).count("tep") >= plate.tones.count - 1


def test_the_paper_says_when_it_shows_something_else(planned: BenchWindow) -> None:
    paper = spoken(planned.top.paper)
    before = paper.text(Text.Description)
    planned.look.show_step(1)
    stopped = paper.text(Text.Description)
    planned.look.show_mirrored(mirrored=True)
    mirrored = paper.text(Text.Description)
    assert len({before, stopped, mirrored}) == 3
    assert "stopped after step 1" in stopped
    assert "as on the plate" in mirrored


def test_every_peg_is_a_slider_with_a_name_a_value_and_bounds(planned: BenchWindow) -> None:
    pegs = [part for part in parts_of(planned.top.ladder) if part.role() is QAccessible.Role.Slider]
    plate = planned.bench.plate
    assert plate is not None
    assert len(pegs) == 2 * (plate.tones.count - 1)
    for peg in pegs:
        value = peg.valueInterface()
        assert peg.text(Text.Name)
        assert value.minimumValue() <= value.currentValue() <= value.maximumValue()


def test_the_day_tells_of_another_plan(planned: BenchWindow, qtbot: QtBot) -> None:
    day, plate = spoken(planned.top.day), planned.bench.plate
    assert plate is not None
    before = day.text(Text.Description)
    planned.bench.change("Four", replace(plate, tones=replace(plate.tones, count=4)))
    qtbot.waitUntil(lambda: planned.workings.plan is not None, timeout=PLENTY_MS)
    after = day.text(Text.Description)
    assert after
    assert after != before


def test_a_step_of_the_day_is_announced_when_keys_choose_it(
    planned: BenchWindow, monkeypatch: pytest.MonkeyPatch
) -> None:
    events: list[QAccessible.Event] = []

    def note(event: QAccessibleEvent) -> None:
        events.append(event.type())

    monkeypatch.setattr(QAccessible, "updateAccessibility", note)
    planned.top.day.setFocus()
    QTest.keyClick(planned.top.day, Qt.Key.Key_Right)
    assert QAccessible.Event.Announcement in events
