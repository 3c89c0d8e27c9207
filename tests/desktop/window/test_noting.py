"""Notes on the print, by mouse and by keys; they outlive another number of tones."""

from dataclasses import replace

import numpy as np
import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from toneladder.quantities import Manner, write_as
from toneladder.tones.values import Note, Wish
from toneladder_desktop.card.notes import words_of
from toneladder_desktop.window.bench_window import BenchWindow

PLENTY_MS = 20_000
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


def notes(window: BenchWindow) -> tuple[Note, ...]:
    assert window.bench.plate is not None
    return window.bench.plate.notes


def ready(window: BenchWindow, qtbot: QtBot) -> np.ndarray:
    qtbot.waitUntil(lambda: window.workings.plan is not None, timeout=PLENTY_MS)
    assert window.workings.plan is not None
    return window.workings.plan.tones


def spot(window: BenchWindow, x_mm: float, y_mm: float) -> QPoint:
    point: QPointF = window.top.paper.spot_of(x_mm, y_mm)
    return point.toPoint()


def test_a_clicked_place_is_one_darker_and_can_be_undone(
    planned: BenchWindow, qtbot: QtBot
) -> None:
    before = ready(planned, qtbot)
    planned.top.notes.buttons["darker"].click()
    QTest.mouseClick(planned.top.paper, Qt.MouseButton.LeftButton, pos=spot(planned, 12.0, 12.0))
    qtbot.waitUntil(lambda: [note.wish for note in notes(planned)] == [Wish.RUNGS])
    after = ready(planned, qtbot)
    assert after[96, 96] == before[96, 96] + 1
    assert planned.workings.tones() is not None
    planned.bench.undo.undo()
    assert np.array_equal(ready(planned, qtbot), before)


def test_a_place_drawn_round_is_kept_white(planned: BenchWindow, qtbot: QtBot) -> None:
    ready(planned, qtbot)
    planned.top.notes.buttons["paper"].click()
    corners = [spot(planned, x, y) for x, y in ((20, 20), (40, 20), (40, 34), (20, 34))]
    QTest.mousePress(planned.top.paper, Qt.MouseButton.LeftButton, pos=corners[0])
    for corner in corners[1:]:
        QTest.mouseMove(planned.top.paper, corner)
    QTest.mouseRelease(planned.top.paper, Qt.MouseButton.LeftButton, pos=corners[-1])
    assert [note.wish for note in notes(planned)] == [Wish.PAPER]
    tones = ready(planned, qtbot)
    assert np.all(tones[180:250, 180:300] == 0)


def test_keys_alone_mark_a_place(planned: BenchWindow, qtbot: QtBot) -> None:
    ready(planned, qtbot)
    planned.top.notes.buttons["deepest"].click()
    paper = planned.top.paper
    assert paper.hasFocus() or planned.focusWidget() is paper
    QTest.keyClick(paper, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    QTest.keyClick(paper, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: [note.wish for note in notes(planned)] == [Wish.DEEPEST])
    QTest.keyClick(paper, Qt.Key.Key_Escape)
    QTest.keyClick(paper, Qt.Key.Key_Return)
    assert len(notes(planned)) == 1
    assert not planned.top.notes.buttons["deepest"].isChecked()


def test_a_note_is_listed_led_to_widened_and_taken_back(planned: BenchWindow, qtbot: QtBot) -> None:
    ready(planned, qtbot)
    decision = planned.top.notes
    decision.buttons["lighter"].click()
    QTest.mouseClick(planned.top.paper, Qt.MouseButton.LeftButton, pos=spot(planned, 30.0, 35.0))
    qtbot.waitUntil(lambda: decision.list.count() == 1)
    assert [leader.number for leader in planned.noting.pencil.leaders] == [1]
    decision.wider.click()
    assert notes(planned)[0].wider_mm > 0.0
    decision.back.click()
    assert notes(planned) == ()
    assert planned.noting.pencil.leaders == ()


def test_notes_outlive_another_number_of_tones(planned: BenchWindow, qtbot: QtBot) -> None:
    ready(planned, qtbot)
    planned.top.notes.buttons["darker"].click()
    QTest.mouseClick(planned.top.paper, Qt.MouseButton.LeftButton, pos=spot(planned, 12.0, 12.0))
    qtbot.waitUntil(lambda: len(notes(planned)) == 1)
    five = ready(planned, qtbot).copy()
    planned.add_tones(2)
    ready(planned, qtbot)
    planned.add_tones(-2)
    assert np.array_equal(ready(planned, qtbot), five)


def test_a_note_no_brush_can_paint_is_pointed_out(planned: BenchWindow, qtbot: QtBot) -> None:
    ready(planned, qtbot)
    plate = planned.bench.plate
    assert plate is not None
    tiny = (((0.5, 0.5), (0.51, 0.5), (0.51, 0.515)),)
    planned.bench.change("", replace(plate, notes=(Note(tiny, Wish.DEEPEST),)))
    ready(planned, qtbot)
    assert "finer than the brush" in planned.top.notes.said.text()
    assert planned.noting.pencil.leaders[0].doubtful


def test_notes_are_said_in_words() -> None:
    assert words_of(Note((), Wish.RUNGS, rungs=-2)) == "lighter by 2"
    write_as(Manner(","))
    assert words_of(Note((), Wish.LIGHTNESS, lightness=48.0)) == "print 5,2"


def test_a_mark_counts_though_the_pen_is_put_away_at_once(
    planned: BenchWindow, qtbot: QtBot
) -> None:
    ready(planned, qtbot)
    planned.top.notes.buttons["darker"].click()
    QTest.keyClick(planned.top.paper, Qt.Key.Key_Return)
    QTest.keyClick(planned.top.paper, Qt.Key.Key_Escape)
    assert notes(planned) == ()
    qtbot.waitUntil(lambda: [note.wish for note in notes(planned)] == [Wish.RUNGS])


def test_a_typed_place_is_the_place_that_lies_there(planned: BenchWindow, qtbot: QtBot) -> None:
    tones = ready(planned, qtbot)
    card = planned.top.notes
    assert card.where.isHidden()
    card.buttons["darker"].click()
    assert not card.where.isHidden()
    card.where.line.setText("12 × 12 mm")
    card.where.commit()
    qtbot.waitUntil(lambda: len(notes(planned)) == 1)
    after = ready(planned, qtbot)
    assert after[96, 96] == tones[96, 96] + 1
    card.where.line.setText("12")
    card.where.commit()
    assert "cannot be read" in card.where.fault.text()
    planned.noting.end()
    assert card.where.isHidden()
