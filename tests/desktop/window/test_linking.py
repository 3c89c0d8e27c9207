"""What is chosen or pointed at in one place is shown in all."""

import numpy as np
import pytest
from PySide6.QtCore import QPoint
from PySide6.QtTest import QTest

from toneladder.plan.choosing import targets_of
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


def ringed(window: BenchWindow) -> int | None:
    """The tone that is ringed on the paper."""
    mask, chosen = window.top.paper._mask, window.workings.chosen
    if mask is None or chosen is None:
        return None
    (tone,) = set(np.array(chosen.parted.table)[mask.astype(bool)].tolist())
    return int(tone)


def test_a_chosen_tone_is_ringed_and_its_step_framed(planned: BenchWindow) -> None:
    planned.top.ladder.tone_chosen.emit(3)
    assert ringed(planned) == 3
    assert planned.top.day._chosen == 3


def test_a_pointer_rings_for_a_moment_and_the_chosen_tone_comes_back(planned: BenchWindow) -> None:
    planned.top.ladder.tone_chosen.emit(3)
    planned.top.ladder.tone_pointed.emit(1)
    assert ringed(planned) == 1
    planned.top.ladder.tone_pointed.emit(-1)
    assert ringed(planned) == 3


def test_a_chosen_step_is_shown_and_its_tone_chosen(planned: BenchWindow) -> None:
    planned.top.day.step_chosen.emit(2)
    assert planned.look.step == 2
    assert planned.top.ladder._picked.chosen == 2


def test_under_the_pointer_the_ladder_marks_how_dark_the_picture_is(planned: BenchWindow) -> None:
    paper, workings = planned.top.paper, planned.workings
    plate, prepared, curve = planned.bench.plate, workings.prepared, workings.curve
    assert plate is not None
    assert prepared is not None
    assert curve is not None
    sheet = paper.sheet()
    QTest.mouseMove(paper, QPoint(sheet.center().x(), sheet.center().y()))
    marked = planned.top.ladder._picked.pointed_lightness
    assert marked is not None
    assert np.abs(targets_of(prepared, plate, curve) - marked).min() < 1e-9
    QTest.mouseMove(paper, QPoint(2, 2))
    assert planned.top.ladder._picked.pointed_lightness is None


def test_another_plate_forgets_what_was_chosen(planned: BenchWindow) -> None:
    planned.top.ladder.tone_chosen.emit(3)
    lying = planned.bench.lying
    assert lying is not None
    planned.bench.lay(lying)
    assert planned.top.paper._mask is None
