"""The loupe on the print: where it lies, what it shows, what it says."""

import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAccessible, QColor, QImage
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from toneladder.optics import lightness, linear_from_srgb
from toneladder_desktop.bench.asked import Magnified
from toneladder_desktop.bench.look import View
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")

PLENTY_MS = 60_000
SHIFT = Qt.KeyboardModifier.ShiftModifier


def lay(window: BenchWindow, qtbot: QtBot, x: float, y: float, width_mm: float = 2.0) -> None:
    """Lay the loupe on a place, and wait for its grain."""
    window.look.show_loupe(width_mm)
    window.top.paper.pointed.emit(x, y)
    qtbot.waitUntil(lambda: window.showing.loupe.glass.grained, timeout=PLENTY_MS)


def seen(window: BenchWindow) -> NDArray[np.uint8]:
    image = window.showing.loupe.glass.seen().convertToFormat(QImage.Format.Format_RGB888)
    rows = np.frombuffer(bytes(image.constBits()), np.uint8).reshape(image.height(), -1)
    return rows[:, : 3 * image.width()].reshape(image.height(), image.width(), 3)


def glass_x(window: BenchWindow) -> float:
    return float(window.showing.loupe.glass.geometry().center().x())


def border(window: BenchWindow) -> tuple[float, float]:
    """A place where two large tones meet."""
    tones = window.workings.tones()
    assert tones is not None
    numbers = np.array(tones.numbers)[tones.cells]
    height, width = numbers.shape
    for row in range(10, height - 10):
        for column in np.flatnonzero(np.diff(numbers[row].astype(int))):
            if 12 < column < width - 12:
                left = numbers[row - 8 : row + 8, column - 7 : column]
                right = numbers[row - 8 : row + 8, column + 2 : column + 9]
                if (left == left[0, 0]).all() and (right == right[0, 0]).all():
                    return (column + 1) / width, (row + 0.5) / height
    pytest.fail("no border stands upright")


def test_a_menu_lays_it_on_the_print_and_escape_puts_it_away(planned: BenchWindow) -> None:
    planned.look.loupe.trigger()
    glass = planned.showing.loupe.glass
    assert glass.isVisible()
    assert planned.top.paper.hasFocus()
    QTest.keyClick(planned.top.paper, Qt.Key.Key_Escape)
    assert not glass.isVisible()
    assert not planned.look.loupe.isChecked()


def test_a_screen_reader_finds_it_by_name_with_what_it_shows(planned: BenchWindow) -> None:
    planned.look.loupe.trigger()
    spoken = QAccessible.queryAccessibleInterface(planned.showing.loupe.glass)
    assert spoken.text(QAccessible.Text.Name) == "Loupe"
    assert spoken.text(QAccessible.Text.Description).startswith("2\u00a0mm wide · tone")


def test_it_follows_the_pointer(planned: BenchWindow) -> None:
    planned.look.loupe.trigger()
    paper, glass = planned.top.paper, planned.showing.loupe.glass
    at = paper.rect().center() + QPoint(20, -10)
    QTest.mouseMove(paper, at)
    assert glass.aim is not None
    assert paper.place_at(at.toPointF()) == pytest.approx((glass.aim.x_mm, glass.aim.y_mm))
    assert (glass.geometry().center() - at).manhattanLength() < 20


def test_arrows_move_it_a_tenth_of_its_width_and_shift_ten_times_as_far(
    planned: BenchWindow,
) -> None:
    planned.look.show_loupe(4.0)
    paper, glass = planned.top.paper, planned.showing.loupe.glass
    middle = glass.aim
    assert middle is not None
    QTest.keyClick(paper, Qt.Key.Key_Right)
    QTest.keyClick(paper, Qt.Key.Key_Down, SHIFT)
    assert glass.aim is not None
    assert glass.aim.x_mm == pytest.approx(middle.x_mm + 0.4)
    assert glass.aim.y_mm == pytest.approx(middle.y_mm + 4.0)
    planned.look.show_mirrored(True)
    QTest.keyClick(paper, Qt.Key.Key_Right)
    assert glass.aim.x_mm == pytest.approx(middle.x_mm)


def test_seen_nearer_the_paper_follows_the_loupe_that_keys_move(planned: BenchWindow) -> None:
    planned.look.loupe.trigger()
    paper, glass = planned.top.paper, planned.showing.loupe.glass
    paper.scale_to(40.0)
    for _ in range(8):
        QTest.keyClick(paper, Qt.Key.Key_Right, SHIFT)
    assert glass.aim is not None
    assert paper.rect().toRectF().contains(paper.spot_of(glass.aim.x_mm, glass.aim.y_mm))


def test_where_two_tones_meet_it_says_so_and_shows_grain_as_light_as_they_print(
    planned: BenchWindow, qtbot: QtBot
) -> None:
    lay(planned, qtbot, *border(planned))
    said = planned.showing.loupe.glass.accessibleDescription()
    assert said.startswith("2\u00a0mm wide · tone ")
    assert " meets " in said
    chosen = planned.workings.chosen
    assert chosen is not None
    one, other = (int(word) for word in said.split("tone ")[1].split(" meets "))
    image = linear_from_srgb(seen(planned) / 255.0) @ [0.2126, 0.7152, 0.0722]  # IEC 61966-2-1
    halves = sorted(float(lightness(half.mean())) for half in (image[:, :90], image[:, 110:]))
    printed = sorted(chosen.ladder.tones[tone].lightness for tone in (one, other))
    assert halves == pytest.approx(printed, abs=6.0)  # 2 mm hold but a few hundred grains
    assert image.std() > 0.05


def test_as_on_the_plate_it_is_the_same_grain_left_to_right(
    planned: BenchWindow, qtbot: QtBot
) -> None:
    lay(planned, qtbot, *border(planned))
    glass, before, left = planned.showing.loupe.glass, seen(planned), glass_x(planned)
    planned.look.show_mirrored(True)
    assert np.array_equal(seen(planned), before[:, ::-1])
    assert glass.aim is not None
    middle = planned.top.paper.width() / 2.0
    assert glass_x(planned) - middle == pytest.approx(middle - left, abs=12)


def test_where_two_glasses_overlap_they_show_the_same(planned: BenchWindow, qtbot: QtBot) -> None:
    x, y = border(planned)
    lay(planned, qtbot, x, y)
    glass, before = planned.showing.loupe.glass, seen(planned)
    assert glass.aim is not None
    left = glass.aim.left
    planned.top.paper.pointed.emit(x + 0.2 / 60.0, y)
    qtbot.waitUntil(lambda: not planned.workings.background.busy, timeout=PLENTY_MS)
    assert glass.grained
    moved = glass.aim.left - left
    assert moved == pytest.approx(20, abs=1)
    same = np.abs(seen(planned)[:, :170].astype(int) - before[:, moved : moved + 170]) <= 2
    assert same.mean() > 0.98


def test_at_the_plates_edge_it_shows_paper(planned: BenchWindow, qtbot: QtBot) -> None:
    lay(planned, qtbot, 1.0, 0.5)
    glass = planned.showing.loupe.glass
    assert glass.accessibleDescription().endswith("plate’s edge")
    paper = QColor(planned.top.paper.paper_colour())
    assert (seen(planned)[:, 110:] == [paper.red(), paper.green(), paper.blue()]).all()


def test_after_a_step_what_is_still_open_looks_like_the_last_tone_bitten(
    planned: BenchWindow, qtbot: QtBot
) -> None:
    planned.look.show_step(0)
    lay(planned, qtbot, *border(planned))
    assert planned.showing.loupe.glass.accessibleDescription() == "2\u00a0mm wide · tone 0"
    assert seen(planned).std(axis=(0, 1)).max() < 1.0


def test_an_answer_that_comes_too_late_is_not_shown(planned: BenchWindow, qtbot: QtBot) -> None:
    lay(planned, qtbot, *border(planned))
    loupe = planned.showing.loupe
    old = loupe._asked
    assert old is not None
    planned.add_tones(1)
    assert not loupe.glass.grained
    white = np.full((9, 9, 3), 255, dtype=np.uint8)
    planned.workings.magnified.emit(old, Magnified(white))
    assert not loupe.glass.grained
    qtbot.waitUntil(lambda: loupe.glass.grained, timeout=PLENTY_MS)


def test_over_the_opened_picture_it_shows_its_own_greys(planned: BenchWindow, qtbot: QtBot) -> None:
    lay(planned, qtbot, 0.5, 0.5)
    planned.look.show_view(View.PICTURE)
    assert planned.showing.loupe.glass.accessibleDescription() == "2\u00a0mm wide · the picture"
    assert not planned.showing.loupe.glass.grained
    grey = seen(planned)
    assert (grey[..., 0] == grey[..., 1]).all()


def test_hatched_tones_are_black_and_paper_and_nothing_between(planned: BenchWindow) -> None:
    planned.look.show_view(View.HATCHED)
    paper = planned.top.paper
    image = paper.grab(paper.sheet()).toImage()
    middle = image.rect().center()
    colours = {
        image.pixelColor(middle.x() + x, middle.y() + y).name()
        for x in range(-80, 80)
        for y in range(-60, 60)
    }
    assert colours == {paper.paper_colour().name(), paper.ink_on_paper().name()}
    assert planned.caption.parts[0].text() == "Tones, hatched"
