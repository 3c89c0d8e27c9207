"""The card's heads: what they say, to the eye and to a reader."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit

from toneladder.order.values import Rates
from toneladder.tones.values import Choice
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


def said(window: BenchWindow) -> dict[str, tuple[str, str]]:
    heads = [row.head for row in window.top.card.rows]
    return {head.text(): (head._answer, head._note) for head in heads}


def test_the_closed_card_is_a_summary_of_the_plate(planned: BenchWindow) -> None:
    answers = {question: answer for question, (answer, _) in said(planned).items()}
    plan = planned.workings.plan
    assert plan is not None
    places = sum(step.painting.places for step in plan.order.steps)
    assert {key: value.replace("\N{NO-BREAK SPACE}", " ") for key, value in answers.items()} == {
        "Picture": "hill_and_sun.png",
        "Greys": "as the picture has them",
        "Plate": "copper, 60 × 40 mm",
        "Bath": "ferric chloride",
        "Strip": "none yet",
        "Lines": "none",
        "Tones": "5 tones, 4 bites",
        "Notes on the print": "none",
        "Soft passages": "…",
        "Steps": f"4 steps, {places} places",
        "Second grain": "none",
        "Pace": "3 cm² a minute",
        "Ink and paper": "black on warm white",
    }


def test_what_is_still_worked_out_is_left_open(planned: BenchWindow) -> None:
    planned.add_tones(1)
    assert said(planned)["Steps"][0] == "5 steps, … places"


def test_fewer_tones_than_asked_for_are_said(planned: BenchWindow) -> None:
    plate = planned.bench.plate
    assert plate is not None
    wide = replace(plate.tones, gap_lightness=30.0, choice=Choice.PICTURE)
    planned.bench.change("Wide gaps", replace(plate, tones=wide))
    answer, note = said(planned)["Tones"]
    assert not answer.startswith("5")
    assert note == "5 were asked for"


def test_a_head_is_opened_by_keys_and_read_whole(planned: BenchWindow) -> None:
    head = next(row.head for row in planned.top.card.rows if row.decision is planned.top.tones)
    for key in (Qt.Key.Key_Return, Qt.Key.Key_Space):
        before = head.isChecked()
        QTest.keyClick(head, key)
        assert head.isChecked() is not before
    assert head.accessibleName() == "Tones: 5 tones, 4 bites; even steps"


def typed(field: QLineEdit, text: str) -> None:
    field.clear()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)


def test_what_is_paper_and_what_is_black_is_typed_in_darkness(planned: BenchWindow) -> None:
    greys, bench = planned.top.greys, planned.bench
    planned.top.card.open(greys)
    typed(greys.paper.line, "1,5")
    typed(greys.black.line, "8")
    assert bench.plate is not None
    span = bench.plate.tones.range
    assert (span.paper_from, span.black_from) == (85.0, 20.0)
    assert said(planned)["Greys"][0] == "paper 1.5, black 8.0"
    typed(greys.paper.line, "9")
    assert "must be lighter" in greys.paper.fault.text()
    assert bench.plate.tones.range == span
    bench.undo.undo()
    bench.undo.undo()
    assert greys.paper.line.text() == greys.black.line.text() == ""


def rates_of(window: BenchWindow) -> Rates:
    assert window.bench.plate is not None
    return window.bench.plate.rates


def test_an_own_pace_changes_the_day_and_is_kept_for_new_plates(planned: BenchWindow) -> None:
    pace = planned.top.pace
    planned.top.card.open(pace)
    typed(pace.fields["dry_min"].line, "45")
    assert rates_of(planned).dry_min == 45.0
    assert planned.preferences.now.rates.dry_min == 45.0
    typed(pace.fields["dry_min"].line, "")
    assert rates_of(planned).dry_min is None
    typed(pace.fields["fill_cm2_per_min"].line, "0")
    assert "outside" in pace.fields["fill_cm2_per_min"].fault.text()


def test_the_stepper_stops_at_two_and_twelve(planned: BenchWindow) -> None:
    tones = planned.top.tones
    planned.top.card.open(tones)
    tones.take_number(99)
    assert planned.bench.plate is not None
    assert planned.bench.plate.tones.count == 12
    assert not tones.more.isEnabled()
    tones.take_number(-3)
    assert planned.bench.plate.tones.count == 2
    assert not tones.fewer.isEnabled()


def test_a_brush_too_fine_for_the_plate_is_said_and_can_be_undone(planned: BenchWindow) -> None:
    mark = planned.top.steps.mark
    planned.top.card.open(planned.top.steps)
    mark.line.selectAll()
    QTest.keyClicks(mark.line, "0.1")
    QTest.keyClick(mark.line, Qt.Key.Key_Return)
    assert "0.1" in mark.fault.text()
    assert planned.bench.undo.count() == 0
