"""The ladder driven by mouse, finger, keys and a screen reader."""

from itertools import pairwise
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QEvent, QObject, QPoint, QPointF, Qt
from PySide6.QtGui import QAccessible, QInputDevice, QPointingDevice, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMainWindow
from pytestqt.qtbot import QtBot

from toneladder_desktop.ladder.content import HeldBite, HeldParting, Peg, Side
from toneladder_desktop.ladder.hand import HOLD_MS
from toneladder_desktop.ladder.moving import value_at
from toneladder_desktop.ladder.view import LadderView

if TYPE_CHECKING:
    from tests.desktop.conftest import Worked

PARTING, BITE = Peg(Side.PARTING, 3), Peg(Side.BITE, 2)

# the platform without a screen has no window frames to tell of sizes
pytestmark = pytest.mark.qt_log_ignore("propagateSizeHints")


class Bench(QObject):
    """Does what the ladder wishes, as the bench does, and remembers it."""

    def __init__(self, view: LadderView, worked: "Worked") -> None:
        super().__init__(view)
        self.view, self.now, self.wishes = view, worked, list[tuple[object, ...]]()
        view.parting_moved.connect(self.part)
        view.bite_held.connect(self.hold)
        view.let_go.connect(self.let_go)
        view.count_wanted.connect(self.count)
        self.show()

    def show(self) -> None:
        self.now.show_on(self.view, whole=False)

    def part(self, old: float, new: float) -> None:
        self.wishes.append(("part", old, new))
        held = {p for p in self.now.plate.tones.held_partings if abs(p - old) > 1e-6} | {new}
        self.now = self.now.with_tones(held_partings=tuple(sorted(held, reverse=True)))
        self.show()

    def hold(self, tone: int, total_s: float) -> None:
        self.wishes.append(("hold", tone, total_s))
        held = {**dict(self.now.plate.tones.held_bites), tone: total_s}
        self.now = self.now.with_tones(held_bites=tuple(sorted(held.items())))
        self.show()

    def let_go(self, what: object) -> None:
        self.wishes.append(("let go", what))
        tones = self.now.plate.tones
        partings, bites = tones.held_partings, tones.held_bites
        if isinstance(what, HeldParting):
            partings = tuple(p for p in partings if abs(p - what.lightness) > 1e-6)
        elif isinstance(what, HeldBite):
            bites = tuple(bite for bite in bites if bite[0] != what.tone)
        else:
            partings, bites = (), ()
        self.now = self.now.with_tones(held_partings=partings, held_bites=bites)
        self.show()

    def count(self, number: int) -> None:
        self.wishes.append(("count", number))
        self.now = self.now.with_tones(count=number)
        self.show()


@pytest.fixture
def ladder(qtbot: QtBot, worked: "Worked") -> LadderView:
    window = QMainWindow()
    view = LadderView()
    window.setCentralWidget(view)
    window.resize(330, 700)
    qtbot.addWidget(window)
    window.show()
    window.activateWindow()
    qtbot.waitActive(window)
    Bench(view, worked)
    view.window_ = window  # type: ignore[attr-defined]  # kept alive with the view
    return view


def bench(view: LadderView) -> Bench:
    found = view.findChild(Bench)
    assert found is not None
    return found


def at(view: LadderView, peg: Peg) -> QPoint:
    assert view._layout is not None
    body = view._layout.place(peg).body
    return QPoint(round(body.x + 9), round(body.middle))


def drag(view: LadderView, peg: Peg, down: int, *, leave: bool = True) -> None:
    start = at(view, peg)
    QTest.mousePress(view, Qt.MouseButton.LeftButton, pos=start)
    for k in range(1, 5):
        move(view, start + QPoint(0, down * k // 4))
    if leave:
        QTest.mouseRelease(view, Qt.MouseButton.LeftButton, pos=start + QPoint(0, down))


def move(view: LadderView, to: QPoint, buttons: Qt.MouseButton = Qt.MouseButton.LeftButton) -> None:
    from PySide6.QtGui import QMouseEvent

    event = QMouseEvent(
        QEvent.Type.MouseMove,
        QPointF(to),
        view.mapToGlobal(QPointF(to)),
        Qt.MouseButton.NoButton,
        buttons,
        QApplication.keyboardModifiers(),
    )
    QApplication.sendEvent(view, event)


def press(view: LadderView, key: Qt.Key, *, shift: bool = False) -> None:
    held = Qt.KeyboardModifier.ShiftModifier if shift else Qt.KeyboardModifier.NoModifier
    QTest.keyClick(QApplication.focusWidget() or view, key, held)


def reading(view: LadderView, peg: Peg) -> int:
    return view._pegs[peg].value()


def test_a_dragged_parting_is_held_where_the_hand_leaves_it(ladder: LadderView) -> None:
    before = reading(ladder, PARTING)
    drag(ladder, PARTING, 24)
    assert ladder._content is not None
    assert ladder._content.is_held(PARTING)
    assert reading(ladder, PARTING) > before
    assert ladder._content.held == 1


def test_a_drag_says_where_from_and_where_to_without_a_gap(ladder: LadderView) -> None:
    drag(ladder, PARTING, 24)
    wishes = bench(ladder).wishes
    assert len(wishes) > 1
    assert all(a[2] == b[1] for a, b in pairwise(wishes))


def test_a_drag_survives_every_new_plan(ladder: LadderView) -> None:
    drag(ladder, BITE, 40, leave=False)
    assert ladder._hand.grip is not None
    held = reading(ladder, BITE)
    bench(ladder).show()
    assert ladder._hand.grip is not None
    move(ladder, at(ladder, BITE) + QPoint(0, 60))
    assert reading(ladder, BITE) != held


def test_a_hand_is_there_from_press_to_release(ladder: LadderView) -> None:
    seen: list[bool] = []
    ladder.hand_on.connect(seen.append)
    drag(ladder, PARTING, 10, leave=False)
    assert seen == [True]
    QTest.mouseRelease(ladder, Qt.MouseButton.LeftButton)
    assert seen == [True, False]


@pytest.mark.parametrize("peg", [PARTING, BITE])
def test_escape_takes_a_drag_back(ladder: LadderView, peg: Peg) -> None:
    before = bench(ladder).now.plate
    drag(ladder, peg, 30, leave=False)
    assert bench(ladder).now.plate != before
    press(ladder, Qt.Key.Key_Escape)
    assert ladder._hand.grip is None
    assert bench(ladder).now.plate == before


@pytest.mark.parametrize("peg", [PARTING, BITE])
def test_escape_brings_a_held_peg_back_to_where_it_was_held(ladder: LadderView, peg: Peg) -> None:
    drag(ladder, peg, 20)
    before = bench(ladder).now.plate
    drag(ladder, peg, 30, leave=False)
    assert bench(ladder).now.plate != before
    press(ladder, Qt.Key.Key_Escape)
    assert bench(ladder).now.plate == before


def test_a_peg_stops_at_its_neighbours(ladder: LadderView) -> None:
    above = reading(ladder, Peg(Side.PARTING, 2))
    drag(ladder, PARTING, -500)
    (held,) = bench(ladder).now.plate.tones.held_partings
    assert held == pytest.approx(value_at(Side.PARTING, above + 10))


def test_the_wheel_does_nothing(ladder: LadderView) -> None:
    place = QPointF(at(ladder, PARTING))
    event = QWheelEvent(
        place,
        ladder.mapToGlobal(place),
        QPoint(0, 0),
        QPoint(0, 120),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(ladder, event)
    assert bench(ladder).wishes == []


def test_a_double_click_lets_a_held_peg_go(ladder: LadderView) -> None:
    drag(ladder, BITE, 30)
    QTest.mouseDClick(ladder, Qt.MouseButton.LeftButton, pos=at(ladder, BITE))
    assert bench(ladder).wishes[-1] == ("let go", HeldBite(2))
    assert ladder._content is not None
    assert ladder._content.held == 0


def test_the_link_lets_all_go(ladder: LadderView) -> None:
    drag(ladder, BITE, 30)
    drag(ladder, PARTING, 10)
    assert ladder._links.all_go.isVisible()
    ladder._links.all_go.click()
    assert bench(ladder).wishes[-1] == ("let go", None)
    assert not ladder._links.all_go.isVisible()


def test_a_clicked_rung_is_chosen(ladder: LadderView) -> None:
    seen: list[int] = []
    ladder.tone_chosen.connect(seen.append)
    assert ladder._layout is not None
    swatch = ladder._layout.rungs[4].swatch
    QTest.mouseClick(
        ladder, Qt.MouseButton.LeftButton, pos=QPoint(round(swatch.x) + 5, round(swatch.middle))
    )
    assert seen == [4]
    assert ladder._picked.chosen == ladder._picked.told == 4


@pytest.mark.parametrize("how", ["Esc", "press"])
def test_a_choice_is_let_go_by_escape_or_beside_the_rungs(ladder: LadderView, how: str) -> None:
    told: list[int] = []
    QTest.mouseClick(ladder, Qt.MouseButton.LeftButton, pos=QPoint(140, at(ladder, PARTING).y()))
    ladder.tone_chosen.connect(told.append)
    if how == "Esc":
        press(ladder, Qt.Key.Key_Escape)
    else:
        QTest.mouseClick(ladder, Qt.MouseButton.LeftButton, pos=QPoint(140, 20))
    assert told == [-1]


def test_what_the_pointer_rests_on_is_told(ladder: LadderView) -> None:
    seen: list[int] = []
    ladder.tone_pointed.connect(seen.append)
    move(ladder, at(ladder, PARTING), Qt.MouseButton.NoButton)
    assert ladder._picked.pointed == PARTING
    assert ladder.cursor().shape() is Qt.CursorShape.SizeVerCursor
    move(ladder, QPoint(160, 5), Qt.MouseButton.NoButton)
    assert seen == [3, -1]


def finger() -> QPointingDevice:
    return QTest.createTouchDevice(QInputDevice.DeviceType.TouchScreen)


def test_a_finger_that_rests_first_moves_a_peg(ladder: LadderView, qtbot: QtBot) -> None:
    place, device = at(ladder, PARTING), finger()
    QTest.touchEvent(ladder, device).press(0, place)
    qtbot.waitUntil(lambda: ladder._hand.grip is not None, timeout=20 * HOLD_MS)
    QTest.touchEvent(ladder, device).move(0, place + QPoint(0, 30))
    QTest.touchEvent(ladder, device).release(0, place + QPoint(0, 30))
    assert bench(ladder).wishes
    assert ladder._hand.grip is None


def test_a_swipe_moves_nothing(ladder: LadderView, qtbot: QtBot) -> None:
    place, device = at(ladder, PARTING), finger()
    QTest.touchEvent(ladder, device).press(0, place)
    QTest.touchEvent(ladder, device).move(0, place + QPoint(0, 40))
    qtbot.wait(2 * HOLD_MS)
    QTest.touchEvent(ladder, device).move(0, place + QPoint(0, 80))
    QTest.touchEvent(ladder, device).release(0, place + QPoint(0, 80))
    assert bench(ladder).wishes == []


def test_two_fingers_move_nothing(ladder: LadderView, qtbot: QtBot) -> None:
    place, device = at(ladder, PARTING), finger()
    QTest.touchEvent(ladder, device).press(0, place)
    qtbot.waitUntil(lambda: ladder._hand.grip is not None, timeout=20 * HOLD_MS)
    QTest.touchEvent(ladder, device).stationary(0).press(1, place + QPoint(40, 40))
    QTest.touchEvent(ladder, device).move(0, place + QPoint(0, 60)).move(1, place)
    assert bench(ladder).wishes == []
    assert ladder._hand.grip is None


def test_a_tap_chooses(ladder: LadderView) -> None:
    assert ladder._layout is not None
    swatch, device = ladder._layout.rungs[2].swatch, finger()
    place = QPoint(round(swatch.x) + 8, round(swatch.middle))
    QTest.touchEvent(ladder, device).press(0, place)
    QTest.touchEvent(ladder, device).release(0, place)
    assert ladder._picked.chosen == 2


def test_the_ladder_is_one_stop_for_tab(ladder: LadderView) -> None:
    stops = [
        peg
        for peg in ladder._content.pegs()  # type: ignore[union-attr]  # it shows a plate
        if ladder._pegs[peg].focusPolicy() & Qt.FocusPolicy.TabFocus
    ]
    assert stops == [Peg(Side.PARTING, 1)]
    ladder.setFocus()
    press(ladder, Qt.Key.Key_PageDown)
    assert QApplication.focusWidget() is ladder._pegs[Peg(Side.PARTING, 2)]
    assert not ladder._pegs[Peg(Side.PARTING, 1)].focusPolicy() & Qt.FocusPolicy.TabFocus


def test_keys_go_to_every_peg_and_back(ladder: LadderView) -> None:
    ladder.setFocus()
    press(ladder, Qt.Key.Key_Right)
    assert ladder._pegs.focused() == Peg(Side.BITE, 1)
    for _ in range(9):
        press(ladder, Qt.Key.Key_PageDown)
    assert ladder._pegs.focused() == Peg(Side.BITE, 5)
    press(ladder, Qt.Key.Key_Left)
    assert ladder._pegs.focused() == Peg(Side.PARTING, 5)
    for _ in range(9):
        press(ladder, Qt.Key.Key_PageUp)
    assert ladder._picked.chosen == 0
    assert ladder._pegs.focused() == Peg(Side.PARTING, 1)


def test_arrows_move_by_a_small_step_and_shift_by_ten(ladder: LadderView) -> None:
    ladder._choose(PARTING)
    start = reading(ladder, PARTING)
    press(ladder, Qt.Key.Key_Down)
    first = reading(ladder, PARTING)
    assert 0 < first - start <= 5
    assert first % 5 == 0
    press(ladder, Qt.Key.Key_Down)
    assert reading(ladder, PARTING) == first + 5
    press(ladder, Qt.Key.Key_Up, shift=True)
    assert reading(ladder, PARTING) == max(first + 5 - 50, ladder._pegs[PARTING].minimum())


def test_home_and_end_go_to_the_limits(ladder: LadderView) -> None:
    ladder._choose(BITE)
    least = ladder._pegs[BITE].minimum()
    press(ladder, Qt.Key.Key_Home)
    assert reading(ladder, BITE) == least
    assert bench(ladder).wishes[-1] == ("hold", 2, float(least))


def test_delete_lets_a_peg_go_and_with_shift_all(ladder: LadderView) -> None:
    drag(ladder, PARTING, 12)
    drag(ladder, BITE, 30)
    press(ladder, Qt.Key.Key_Delete)
    assert bench(ladder).wishes[-1] == ("let go", HeldBite(2))
    press(ladder, Qt.Key.Key_Delete, shift=True)
    assert bench(ladder).wishes[-1] == ("let go", None)


def test_plus_and_minus_ask_for_other_numbers_of_tones(ladder: LadderView) -> None:
    ladder.setFocus()
    QTest.keyClicks(QApplication.focusWidget() or ladder, "+")
    assert bench(ladder).wishes[-1] == ("count", 7)
    QTest.keyClicks(QApplication.focusWidget() or ladder, "--")
    assert bench(ladder).wishes[-1] == ("count", 5)


def test_no_more_than_twelve_tones_can_be_asked_for(ladder: LadderView) -> None:
    bench(ladder).count(12)
    bench(ladder).wishes.clear()
    ladder.setFocus()
    QTest.keyClicks(QApplication.focusWidget() or ladder, "+")
    assert bench(ladder).wishes == []


def test_a_value_can_be_typed(ladder: LadderView) -> None:
    ladder._choose(BITE)
    press(ladder, Qt.Key.Key_Return)
    assert ladder._field.isVisible()
    ladder._field.setText("1:30")
    press(ladder, Qt.Key.Key_Return)
    assert bench(ladder).wishes == [("hold", 2, 90.0)]
    assert not ladder._field.isVisible()
    assert ladder._pegs.focused() == BITE


def test_a_typed_value_that_cannot_be_is_said_and_changes_nothing(ladder: LadderView) -> None:
    ladder._choose(PARTING)
    press(ladder, Qt.Key.Key_Return)
    ladder._field.setText("eleven")
    press(ladder, Qt.Key.Key_Return)
    assert "cannot be read" in ladder._picked.fault
    assert ladder._field.isVisible()
    press(ladder, Qt.Key.Key_Escape)
    assert ladder._picked.fault == ""
    assert bench(ladder).wishes == []


def test_typing_a_pegs_own_value_holds_it(ladder: LadderView) -> None:
    ladder._choose(BITE)
    press(ladder, Qt.Key.Key_Return)
    press(ladder, Qt.Key.Key_Return)
    assert ladder._content is not None
    assert ladder._content.is_held(BITE)


def test_a_screen_reader_finds_every_peg_as_a_slider(ladder: LadderView) -> None:
    assert ladder._content is not None
    for peg in ladder._content.pegs():
        found = QAccessible.queryAccessibleInterface(ladder._pegs[peg])
        assert found.role() is QAccessible.Role.Slider
        assert str(peg.step) in found.text(QAccessible.Text.Name)
        assert found.text(QAccessible.Text.Value) == str(reading(ladder, peg))
        assert found.text(QAccessible.Text.Description).endswith(", follows")
        assert found.rect().center() == ladder.mapToGlobal(ladder._pegs[peg].geometry().center())
    bite = QAccessible.queryAccessibleInterface(ladder._pegs[BITE])
    total = ladder._content.rungs[2].tone.total_bite_s
    assert bite.valueInterface().currentValue() == total
    assert "held" not in bite.text(QAccessible.Text.Description)


def test_a_screen_reader_can_set_a_peg(ladder: LadderView) -> None:
    slider = ladder._pegs[BITE]
    least = slider.minimum()
    QAccessible.queryAccessibleInterface(slider).valueInterface().setCurrentValue(least)
    assert bench(ladder).wishes == [("hold", 2, float(least))]


def test_what_changed_is_spoken_once_the_hand_rests(ladder: LadderView, qtbot: QtBot) -> None:
    ladder._choose(PARTING)
    press(ladder, Qt.Key.Key_Down)
    press(ladder, Qt.Key.Key_Down)
    assert ladder._rest.isActive()
    with qtbot.waitSignal(ladder._rest.timeout, timeout=3000):
        pass
    assert not ladder._rest.isActive()


def test_pairs_that_print_alike_have_their_remedy(ladder: LadderView, worked: "Worked") -> None:
    from dataclasses import replace

    wide = replace(worked.curve, high=tuple(x + 30.0 for x in worked.curve.lightness))
    bench(ladder).now = type(worked)(worked.plate, worked.prepared, wide)
    bench(ladder).show()
    shown = [button for button in ladder._links.ones if button.isVisible()]
    assert len(shown) == 5
    shown[0].click()
    assert bench(ladder).wishes == [("count", 5)]


def test_the_key_can_be_put_away(ladder: LadderView, qtbot: QtBot) -> None:
    ladder.choose_tone(None)
    assert ladder._links.key.isVisible()
    with qtbot.waitSignal(ladder.key_hidden):
        ladder._links.key.click()
    assert not ladder._links.key.isVisible()


def test_an_empty_bench_shows_no_pegs_and_takes_no_keys(ladder: LadderView) -> None:
    ladder.clear()
    assert not any(slider.isVisible() for slider in ladder._pegs._sliders.values())
    press(ladder, Qt.Key.Key_Down)
    QTest.mouseClick(ladder, Qt.MouseButton.LeftButton, pos=QPoint(20, 200))
    ladder.grab()
    assert bench(ladder).wishes == []
