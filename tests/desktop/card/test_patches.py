"""Tones from the strip's own patches, ticked on the card."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from toneladder.strip.values import Evidence, Patch, Strip
from toneladder.tones.values import Choice, ToneChoice
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")

READ = ((0.0, 92.0), (30.0, 80.0), (60.0, 68.0), (120.0, 55.0), (240.0, 40.0), (480.0, 27.0))


@pytest.fixture
def stripped(planned: BenchWindow, qtbot: QtBot) -> BenchWindow:
    """The window with a strip of six patches behind its plate."""
    plate = planned.bench.plate
    assert plate is not None
    strip = Strip(plate.conditions, tuple(Patch(bite, light) for bite, light in READ))
    planned.bench.change("A strip", replace(plate, evidence=Evidence((strip,))))
    qtbot.waitUntil(lambda: planned.workings.plan is not None, timeout=60_000)
    return planned


def tones_of(window: BenchWindow) -> ToneChoice:
    assert window.bench.plate is not None
    return window.bench.plate.tones


def ticked(window: BenchWindow) -> list[str]:
    patches = window.top.tones.patches
    items = (patches.item(row) for row in range(patches.count()))
    texts = (item.text() for item in items if item.checkState() is Qt.CheckState.Checked)
    return [text.replace("\N{NO-BREAK SPACE}", " ") for text in texts]


def test_without_a_strip_nothing_can_be_copied_from_it(planned: BenchWindow) -> None:
    tones = planned.top.tones
    planned.top.card.open(tones)
    assert not tones.copy.isEnabled()
    assert not tones.patches.isVisible()


def test_a_strip_of_another_metal_tells_nothing_and_the_card_says_so(
    stripped: BenchWindow, chooses: Callable[[Any, str], None], qtbot: QtBot
) -> None:
    head = next(r for r in stripped.top.card.rows if r.decision is stripped.top.strip).head
    assert "6 patches" in head.accessibleName()
    chooses(stripped.top.plate.metal, "zinc")
    qtbot.waitUntil(lambda: "tells nothing of this bath" in head.accessibleName(), timeout=60_000)


def test_the_ticked_patches_are_the_tones(stripped: BenchWindow) -> None:
    tones, bench = stripped.top.tones, stripped.bench
    stripped.top.card.open(tones)
    tones.copy.click()
    assert tones_of(stripped).choice is Choice.STRIP
    assert tones.patches.accessibleName() == "Patches of the strip that become tones"
    for row in range(tones.patches.count()):
        item = tones.patches.item(row)
        if item.checkState() is not Qt.CheckState.Checked:
            item.setCheckState(Qt.CheckState.Checked)
    assert tones_of(stripped).patches_s == (30.0, 60.0, 120.0, 240.0, 480.0)
    assert tones_of(stripped).count == 6
    tones.patches.setFocus()
    tones.patches.setCurrentRow(1)
    QTest.keyClick(tones.patches, Qt.Key.Key_Space)
    assert tones_of(stripped).patches_s == (30.0, 120.0, 240.0, 480.0)
    assert (tones_of(stripped).count, tones.number.value()) == (5, 5)
    assert bench.undo.undoText() == "Copy 4 patches of the strip"
    assert ticked(stripped) == ["30 s: 2.0", "2 min: 4.5", "4 min: 6.0", "8 min: 7.3"]
    tones.take_number(4)
    assert not tones_of(stripped).patches_s
    bench.undo.undo()
    bench.undo.undo()
    assert len(ticked(stripped)) == 5
