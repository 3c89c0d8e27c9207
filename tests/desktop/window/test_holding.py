"""What a hand on the ladder does to the plate."""

from math import nan

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from toneladder_desktop.bench.bench import Lying
from toneladder_desktop.ladder.content import HeldBite, HeldParting, Peg, Side
from toneladder_desktop.window.bench_window import BenchWindow
from toneladder_desktop.window.holding import with_bite, with_parting, without

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


def test_a_new_parting_is_held_beside_the_others_and_a_held_one_moves(lying: Lying) -> None:
    one = with_parting(lying.plate, nan, 60.0)
    two = with_parting(one, 75.0, 70.0)
    assert two.tones.held_partings == (70.0, 60.0)
    assert with_parting(two, 60.0, 55.0).tones.held_partings == (70.0, 55.0)


def test_a_bite_is_held_by_its_tone(lying: Lying) -> None:
    held = with_bite(with_bite(lying.plate, 3, 200.0), 1, 20.0)
    assert held.tones.held_bites == ((1, 20.0), (3, 200.0))
    assert with_bite(held, 1, 25.0).tones.held_bites == ((1, 25.0), (3, 200.0))


def test_one_is_let_go_or_all(lying: Lying) -> None:
    held = with_bite(with_parting(lying.plate, nan, 60.0), 2, 90.0)
    assert without(held, HeldParting(60.0)).tones.held_partings == ()
    assert without(held, HeldParting(60.0)).tones.held_bites == ((2, 90.0),)
    assert without(held, HeldBite(2)).tones.held_bites == ()
    assert without(held, None) == lying.plate


def test_a_dragged_peg_is_one_undo_step_with_its_last_value(planned: BenchWindow) -> None:
    bench, holding = planned.bench, planned.holding
    before, old = bench.plate, first_parting(planned)
    bench.hold(True)
    holding.part(old, old - 1.0)
    holding.part(old - 1.0, old - 2.0)
    holding.part(old - 2.0, 84.0)
    bench.hold(False)
    assert bench.undo.count() == 1
    assert bench.undo.undoText() == "Part tones 0 and 1 at darkness 1.6"
    bench.undo.undo()
    assert bench.plate is before


def test_escape_while_a_peg_is_dragged_leaves_no_undo_step(
    planned: BenchWindow,
) -> None:
    ladder, before = planned.top.ladder, planned.bench.plate
    assert ladder._layout is not None
    for side in Side:
        box = ladder._layout.place(Peg(side, 2)).body
        at = QPoint(round(box.x + box.width / 2), round(box.y + box.height / 2))
        QTest.mousePress(ladder, Qt.MouseButton.LeftButton, pos=at)
        for down in (3, 9, 15):
            QTest.mouseMove(ladder, at + QPoint(0, down))
        assert planned.bench.undo.count() == 1
        QTest.keyClick(ladder, Qt.Key.Key_Escape)
        QTest.mouseRelease(ladder, Qt.MouseButton.LeftButton, pos=at)
        assert planned.bench.plate == before
        assert planned.bench.undo.count() == 0
        assert not planned.bench.unsaved


def test_letting_go_with_the_hand_off_is_a_step_with_a_name(planned: BenchWindow) -> None:
    planned.holding.part(first_parting(planned), 84.0)
    planned.holding.let_go(HeldParting(84.0))
    assert planned.bench.undo.count() == 2
    assert planned.bench.undo.undoText() == "Let the parting of tones 0 and 1 go"


def first_parting(window: BenchWindow) -> float:
    chosen = window.workings.chosen
    assert chosen is not None
    return chosen.parted.partings[0]
