"""Soft passages: listed on the card, dotted on the print, each with its remedy."""

from collections.abc import Callable
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from toneladder.borders.values import Remedy
from toneladder_desktop.card.soft import MOST_LISTED, SoftDecision
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.field import Field
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")
PLENTY_MS = 60_000


@pytest.fixture
def soft(
    planned: BenchWindow, qtbot: QtBot, types: Callable[[Field[Any], str], None]
) -> SoftDecision:
    """The decision, open, with many passages found."""
    decision = planned.top.soft
    planned.top.card.open(decision)
    types(decision.shortest, "2 mm")
    qtbot.waitUntil(lambda: len(decision.passages or ()) > 1, timeout=PLENTY_MS)
    return decision


def test_passages_are_listed_and_picked_on_the_print(
    soft: SoftDecision, planned: BenchWindow
) -> None:
    assert soft.passages is not None
    head = next(row.head for row in planned.top.card.rows if row.decision is soft)
    assert head._answer.startswith(f"{len(soft.passages)} passages, ")
    lengths = [passage.length_mm for passage in soft.listed]
    assert lengths == sorted(lengths, reverse=True)
    assert len(lengths) == min(MOST_LISTED, len(soft.passages))
    assert soft.more.isVisible() is (len(soft.passages) > MOST_LISTED)
    soft.list.setFocus()
    QTest.keyClick(soft.list, Qt.Key.Key_Down)
    assert soft.passage is not None
    dotted = planned.noting.pencil._passages
    assert len(dotted) == len(soft.passages)
    assert [picked for _, picked in dotted].count(True) == 1
    assert str(soft.passage.number) in soft.said.text()
    planned.top.card.close_all()
    assert not planned.noting.pencil._passages


def test_a_chosen_remedy_stays_with_its_passage_and_reaches_the_order(
    soft: SoftDecision,
    planned: BenchWindow,
    qtbot: QtBot,
    chooses: Callable[[Choice[Any], str], None],
) -> None:
    soft.list.setCurrentRow(0)
    passage = soft.passage
    assert passage is not None
    assert soft.remedy.list.currentText().startswith("as suggested: ")
    assert "Only suggested" in soft.said.text()
    chooses(soft.remedy, "creeping bite")
    assert planned.noting.pencil._passages
    qtbot.waitUntil(
        lambda: soft.passage is not None and soft.passage.remedy is Remedy.CREEPING_BITE,
        timeout=PLENTY_MS,
    )
    plan = planned.workings.plan
    assert plan is not None
    step = plan.order.steps[passage.step - 1]
    assert any("creep over it" in sentence for sentence in step.remedies)
    assert planned.bench.undo.undoText() == f"Passage {passage.number}: creeping bite"
    chooses(soft.remedy, "leave the hard border")
    assert planned.bench.plate is not None
    assert len(planned.bench.plate.soft.remedies) == 1
    chooses(soft.remedy, soft.remedy.list.itemText(0))
    assert not planned.bench.plate.soft.remedies


def test_all_suggestions_are_taken_at_once(
    soft: SoftDecision, planned: BenchWindow, qtbot: QtBot
) -> None:
    passages = soft.passages
    assert passages is not None
    soft.take_all.click()
    qtbot.waitUntil(
        lambda: all(one.by_hand for one in soft.passages or ()) and not soft.take_all.isVisible(),
        timeout=PLENTY_MS,
    )
    assert [one.remedy for one in soft.passages or ()] == [one.suggested for one in passages]
    assert planned.bench.undo.undoText() == "Take all remedies as suggested"
    planned.bench.undo.undo()
    assert planned.bench.plate is not None
    assert not planned.bench.plate.soft.remedies


def test_limits_of_softness_are_typed(
    soft: SoftDecision, planned: BenchWindow, types: Callable[[Field[Any], str], None]
) -> None:
    types(soft.steepest, "0,2")
    assert planned.bench.plate is not None
    assert planned.bench.plate.soft.steepest == 2.0
    assert planned.bench.plate.soft.shortest_mm == 2.0
    types(soft.steepest, "99")
    assert "outside" in soft.steepest.fault.text()
