"""A second grain, decided on the card."""

from collections.abc import Callable
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from toneladder.bite.values import Fineness
from toneladder.order.values import SecondGrain
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.field import Field
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")
PLENTY_MS = 60_000


def test_a_second_grain_for_the_darkest_tones(
    planned: BenchWindow,
    qtbot: QtBot,
    chooses: Callable[[Choice[Any], str], None],
    types: Callable[[Field[Any], str], None],
) -> None:
    second, bench = planned.top.second_grain, planned.bench
    planned.top.card.open(second)
    assert not second.grain.isVisible()
    chooses(second.darkest, "the 2 darkest tones")
    assert bench.plate is not None
    assert bench.plate.second_grain == SecondGrain(2)
    assert bench.undo.undoText() == "A second grain for the 2 darkest tones"
    chooses(second.fineness, "medium")
    assert bench.plate.second_grain == SecondGrain(2, fineness=Fineness.MEDIUM)
    types(second.bites, "4 min, 9 min")
    assert bench.plate.second_grain.bites_s == (240.0, 540.0)
    types(second.bites, "9 min, 4 min")
    assert "must not fall" in second.bites.fault.text()
    qtbot.waitUntil(lambda: planned.workings.plan is not None, timeout=PLENTY_MS)
    plan = planned.workings.plan
    assert plan is not None
    assert plan.order.second_grain is not None
    assert "on a day of its own" in second.said.text()
    head = next(row.head for row in planned.top.card.rows if row.decision is second)
    assert head.accessibleName().startswith("Second grain: for the 2 darkest tones; rosin, medium")
    chooses(second.darkest, "none")
    assert bench.plate.second_grain is None
