"""Lines bitten first, decided on the card."""

from collections.abc import Callable
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from toneladder.lines.bites import line_bites
from toneladder.lines.values import Lines
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.field import Field
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")
PLENTY_MS = 60_000


def lines_of(window: BenchWindow) -> Lines | None:
    assert window.bench.plate is not None
    return window.bench.plate.lines


def test_lines_are_bitten_first_or_not_at_all(
    planned: BenchWindow, qtbot: QtBot, chooses: Callable[[Choice[Any], str], None]
) -> None:
    lines, bench = planned.top.lines, planned.bench
    planned.top.card.open(lines)
    assert not lines.depths.isVisible()
    chooses(lines.first, "bitten first")
    assert lines_of(planned) == Lines()
    assert lines.depths.isVisible()
    chooses(lines.depths, "2 depths")
    qtbot.waitUntil(lambda: planned.workings.plan is not None, timeout=PLENTY_MS)
    head = next(row.head for row in planned.top.card.rows if row.decision is lines)
    assert head.accessibleName().startswith("Lines: bitten first, 2 depths; ")
    assert "untested" in lines.said.text()
    assert bench.undo.undoText() == "Bite lines in 2 depths"
    bench.undo.undo()
    bench.undo.undo()
    assert lines_of(planned) is None


def test_as_many_bites_as_are_typed_make_so_many_depths(
    planned: BenchWindow,
    chooses: Callable[[Choice[Any], str], None],
    types: Callable[[Field[Any], str], None],
) -> None:
    lines, bench = planned.top.lines, planned.bench
    planned.top.card.open(lines)
    chooses(lines.first, "bitten first")
    assert bench.plate is not None
    usual = line_bites(Lines(), bench.plate.conditions)
    assert lines.bites.line.placeholderText().split() == ["1", "h"]
    assert usual == (3600.0,)
    types(lines.bites, "7,5 min, 20 min, 1 h")
    now = lines_of(planned)
    assert now is not None
    assert (now.depths, now.bites_s) == (3, (450.0, 1200.0, 3600.0))
    types(lines.bites, "20 min, 10 min")
    assert "must rise" in lines.bites.fault.text()
    assert lines_of(planned) == now
    types(lines.widest, "0,5 mm")
    types(lines.contrast, "2")
    now = lines_of(planned)
    assert now is not None
    assert (now.widest_mm, now.contrast) == (0.5, 20.0)
    types(lines.widest, "9 mm")
    assert "outside" in lines.widest.fault.text()
    lines.over.click()
    assert bench.undo.undoText() == "Paint the lines over"
    types(lines.bites, "")
    now = lines_of(planned)
    assert now is not None
    assert now.bites_s == ()
    assert now.stopped_out
