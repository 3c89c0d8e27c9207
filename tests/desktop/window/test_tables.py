"""The ladder as a table, to be read and copied."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from toneladder.lines.values import Lines
from toneladder.order.values import SecondGrain
from toneladder.quantities import Manner
from toneladder_desktop.window.bench_window import BenchWindow
from toneladder_desktop.window.tables import StepsTable

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


def test_the_table_says_what_the_ladder_says(planned: BenchWindow) -> None:
    table, plan = planned.top.table, planned.workings.plan
    assert plan is not None
    lines = [line.split("\t") for line in table.as_text().splitlines()]
    assert lines[0] == ["Tone", "Total bite", "Prints", "Next plate", "Wanted", "Share"]
    assert [line[0] for line in lines[1:]] == [str(tone.tone) for tone in plan.order.tones]
    assert lines[1][1] == "white"
    shares = [int(line[-1].split()[0]) for line in lines[1:]]
    assert sum(shares) == pytest.approx(100, abs=3)


def test_numbers_are_written_in_the_readers_manner(planned: BenchWindow) -> None:
    chosen = planned.workings.chosen
    assert chosen is not None
    planned.top.table.show_plan(chosen, Manner(decimal=","))
    assert planned.top.table.as_text().splitlines()[1].split("\t")[2].count(",") == 1


def test_it_stands_where_the_ladder_was_and_can_be_copied(planned: BenchWindow) -> None:
    action = next(a for a in planned.menus.actions if a.text().startswith("Ladder as a"))
    action.trigger()
    table = planned.top.table
    assert table.isVisible()
    assert not planned.top.ladder.isVisible()
    QTest.keyClick(table, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert QGuiApplication.clipboard().text() == table.as_text()
    action.trigger()
    assert planned.top.ladder.isVisible()


def test_a_picked_row_rings_its_tone_on_the_paper(planned: BenchWindow) -> None:
    planned.top.show_table(shown=True)
    planned.top.table.setCurrentCell(2, 0)
    assert planned.top.paper._mask is not None
    chosen = planned.workings.chosen
    assert chosen is not None
    assert planned.top.paper._mask.tolist() == [int(tone == 2) for tone in chosen.parted.table]


def test_the_steps_have_their_lines_before_and_their_second_grain_after(
    planned: BenchWindow, qtbot: QtBot
) -> None:
    plate, bench = planned.bench.plate, planned.bench
    assert plate is not None
    both = replace(plate, lines=Lines(depths=2), second_grain=SecondGrain(1))
    bench.change("Lines and a second grain", both)
    qtbot.waitUntil(lambda: planned.workings.plan is not None, timeout=60_000)
    table, plan = StepsTable(), planned.workings.plan
    qtbot.addWidget(table)
    assert plan is not None
    table.show_plan(plan.plate, None, None, plan, None)
    heads = [line.split("\t")[0] for line in table.as_text().splitlines()[1:]]
    assert heads[:2] == ["line bite 1", "line bite 2"]
    assert heads[2:-1] == [str(step.step) for step in plan.order.steps]
    assert heads[-1] == "second grain, bite 1"
    chosen: list[int] = []
    table.step_chosen.connect(chosen.append)
    for row in range(len(heads)):
        table.picked.emit(row)
    assert chosen == [step.step for step in plan.order.steps]
    told = planned.top.day.accessibleDescription()
    assert "first 2 line bites" in told
    assert "then a second grain" in told
    assert "Line bite 2: 30\u00a0min." in told
