"""The plate laid on the picture, by keys and by mouse, one undo step a movement."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit
from pytestqt.qtbot import QtBot

from toneladder.picture.placing import placing_of
from toneladder.picture.values import Laying, PlateSize
from toneladder.quantities import Manner
from toneladder_desktop.laying.hand import Lain, act_of
from toneladder_desktop.laying.outline import outline_in, under
from toneladder_desktop.laying.view import LayingView
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


@pytest.fixture
def page(planned: BenchWindow) -> LayingView:
    planned.laying.open()
    view = planned.pages.currentWidget()
    assert isinstance(view, LayingView)
    return view


def laying(window: BenchWindow) -> Laying:
    assert window.bench.plate is not None
    return window.bench.plate.laying


def test_the_outline_has_the_plates_proportions_and_the_middle_of_the_view() -> None:
    outline = outline_in(800.0, 400.0, PlateSize(200.0, 150.0))
    assert outline.rect.width() / outline.rect.height() == pytest.approx(4 / 3)
    assert abs(outline.rect.center().x() - 400.0) <= 1.0
    assert outline.mm(outline.px((12.0, 7.0))) == pytest.approx((12.0, 7.0))


def test_what_is_drawn_under_the_outline_is_what_the_plate_gets() -> None:
    size, picture = PlateSize(200.0, 150.0), (3000, 2000)
    lain = Lain(Laying(turn_deg=7.0, mirrored=True), size, picture)
    outline = outline_in(800.0, 600.0, size)
    placing = placing_of(lain.laying, size, picture)
    way = under(outline, placing, (300, 200))
    for mm in ((0.0, 0.0), (200.0, 0.0), (31.0, 77.0)):
        share = placing.to_picture([mm])[0]
        there = way.map(QPointF(share[0] * 300, share[1] * 200))
        assert outline.mm(there) == pytest.approx(mm, abs=1e-6)


def test_keys_move_grow_and_turn(page: LayingView, planned: BenchWindow) -> None:
    before = laying(planned)
    for key in (Qt.Key.Key_Plus,) * 20:
        QTest.keyClick(page.board, key)
    grown = laying(planned)
    assert grown.crop.width < before.crop.width
    QTest.keyClick(page.board, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    assert laying(planned).crop.x < grown.crop.x
    QTest.keyClick(page.board, Qt.Key.Key_PageDown)
    assert laying(planned).turn_deg == pytest.approx(0.1)
    QTest.keyClick(page.board, Qt.Key.Key_Home)
    assert laying(planned).crop == before.crop


def test_held_keys_are_one_undo_step(page: LayingView, planned: BenchWindow) -> None:
    before = laying(planned)
    for _ in range(12):
        QTest.keyClick(page.board, Qt.Key.Key_Plus)
    assert planned.bench.undo.count() == 1
    planned.bench.undo.undo()
    assert laying(planned) == before


def test_a_hand_moves_the_picture_inside_and_turns_it_outside(
    page: LayingView, planned: BenchWindow
) -> None:
    for _ in range(30):
        QTest.keyClick(page.board, Qt.Key.Key_Plus)
    start = laying(planned)
    middle = page.board.rect().center()
    drag(page, middle, middle + QPoint(25, -10))
    moved = laying(planned)
    assert moved.crop.x < start.crop.x
    assert moved.crop.y > start.crop.y
    drag(page, QPoint(6, middle.y()), QPoint(6, middle.y() - 20))
    assert laying(planned).turn_deg > 0.0
    assert planned.bench.undo.count() == 3


def drag(page: LayingView, start: QPoint, end: QPoint) -> None:
    QTest.mousePress(page.board, Qt.MouseButton.LeftButton, pos=start)
    for share in (1, 2, 3):
        QTest.mouseMove(page.board, start + (end - start) * share / 3)
    QTest.mouseRelease(page.board, Qt.MouseButton.LeftButton, pos=end)


def test_two_points_of_a_level_thing_stand_it_straight(
    page: LayingView, planned: BenchWindow
) -> None:
    page.straight.click()
    assert "two points" in page.keys.text()
    middle = page.board.rect().center()
    QTest.mouseClick(page.board, Qt.MouseButton.LeftButton, pos=middle - QPoint(50, 5))
    QTest.mouseClick(page.board, Qt.MouseButton.LeftButton, pos=middle + QPoint(50, 5))
    assert laying(planned).turn_deg == pytest.approx(-5.71, abs=0.01)  # atan(0.1), clockwise


def test_escape_gives_the_two_points_up_before_it_leaves(
    page: LayingView, planned: BenchWindow
) -> None:
    page.straight.click()
    QTest.keyClick(page.board, Qt.Key.Key_Escape)
    assert planned.pages.currentWidget() is page
    QTest.keyClick(page.board, Qt.Key.Key_Escape)
    assert planned.pages.currentWidget() is planned.top


def test_leaving_lays_it_as_it_was_and_says_so(page: LayingView, planned: BenchWindow) -> None:
    before = laying(planned)
    QTest.keyClick(page.board, Qt.Key.Key_Plus)
    page.leave.click()
    assert laying(planned) == before
    assert planned.bench.undo.undoText() == "Lay the plate as it was"
    assert planned.pages.currentWidget() is planned.top


def test_a_turn_is_typed_with_a_decimal_comma(page: LayingView, planned: BenchWindow) -> None:
    line: QLineEdit = page.angle.line
    line.setText("-3,5")
    QTest.keyClick(line, Qt.Key.Key_Return)
    assert laying(planned).turn_deg == pytest.approx(-3.5)


def test_enter_in_the_field_only_turns_it_and_on_the_picture_lays_it(
    page: LayingView, planned: BenchWindow
) -> None:
    line = page.angle.line
    for typed in ("-3,5", "a bit"):
        line.setText(typed)
        QTest.keyClick(line, Qt.Key.Key_Return)
        assert planned.pages.currentWidget() is page
    assert "a bit" in page.angle.fault.text()
    QTest.keyClick(page.board, Qt.Key.Key_Return)
    assert planned.pages.currentWidget() is planned.top


def test_what_is_told_is_what_lies_under_the_plate(planned: BenchWindow, page: LayingView) -> None:
    # 360 by 240 dots under 60 by 40 mm
    assert page.told.text().replace("\xa0", " ") == (
        "100 % of the picture's area · 6 dots of it to a millimetre"
    )
    plate = planned.bench.plate
    assert plate is not None
    planned.bench.change("Make it square", replace(plate, size=PlateSize(40.0, 40.0)))
    page.whole.click()
    assert "67 % of the picture's area" in page.told.text().replace("\xa0", " ")
    head = next(row.head for row in planned.top.card.rows if row.head.text() == "Picture")
    assert "part of the picture" in head._note
    planned.preferences.change(manner=Manner(imperial=True))
    QTest.keyClick(page.board, Qt.Key.Key_PageDown)
    assert "dots of it to an inch" in page.told.text()


def test_a_single_dot_is_told_in_the_singular(page: LayingView) -> None:
    lain = Lain(Laying(), PlateSize(360.0, 240.0), (360, 240))
    page.show_lain(lain, Manner())
    assert page.told.text().endswith("one dot of it to a millimetre")
    page.show_lain(replace(lain, picture=(540, 360)), Manner(decimal=","))
    assert page.told.text().endswith("1,5 dots of it to a millimetre")


def test_filling_shrinks_a_picture_that_is_too_large(
    page: LayingView, planned: BenchWindow
) -> None:
    for _ in range(60):
        QTest.keyClick(page.board, Qt.Key.Key_Plus)
    assert laying(planned).crop.width < 0.7
    page.fill.click()
    assert laying(planned).crop.width == pytest.approx(1.0)


def test_a_drag_from_point_to_point_stands_it_straight_too(
    page: LayingView, planned: BenchWindow
) -> None:
    page.straight.click()
    middle = page.board.rect().center()
    drag(page, middle - QPoint(50, 5), middle + QPoint(50, 5))
    assert laying(planned).turn_deg == pytest.approx(-5.71, abs=0.01)  # atan(0.1), clockwise
    assert "two points" not in page.keys.text()
    drag(page, middle, middle + QPoint(5, 5))
    assert laying(planned).turn_deg == pytest.approx(-5.71, abs=0.01)


def test_a_copy_of_the_picture_comes_for_the_screen(planned: BenchWindow, qtbot: QtBot) -> None:
    with qtbot.waitSignal(planned.workings.copied, timeout=10_000) as copied:
        planned.laying.open()
    sha256, image = copied.args
    assert planned.bench.plate is not None
    assert sha256 == planned.bench.plate.picture.sha256
    assert (image.width(), image.height()) == (360, 240)


def test_a_mirrored_picture_follows_the_hand_all_the_same() -> None:
    lain = Lain(Laying(mirrored=True), PlateSize(200.0, 150.0), (3000, 2000))
    grown = replace(lain, laying=lain.grown(2.0))
    act = act_of(grown, Qt.Key.Key_Right, leap=True)
    assert act is not None
    before = placing_of(grown.laying, lain.size, lain.picture).to_plate([(0.5, 0.5)])[0]
    after = placing_of(act.laying, lain.size, lain.picture).to_plate([(0.5, 0.5)])[0]
    assert after - before == pytest.approx([10.0, 0.0])
