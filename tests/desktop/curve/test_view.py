"""The bite curve driven by keys and mouse, read aloud, and laid out without collisions."""

from itertools import pairwise

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from toneladder.bite.curve import starting_curve
from toneladder.bite.fitting import Patch, Session, fit
from toneladder.bite.values import Conditions
from toneladder.order.values import Tone
from toneladder.quantities import Manner
from toneladder_desktop.curve.content import Content, content_of
from toneladder_desktop.curve.layout import CHIP, lay_out
from toneladder_desktop.curve.view import CurveView
from toneladder_desktop.curve.words import difference, told

BITES = (0.0, 15.0, 30.0, 60.0, 120.0, 240.0, 480.0, 960.0)
READ = (92.0, 84.0, 76.0, 65.0, 51.0, 36.0, 25.0, 20.0)

pytestmark = pytest.mark.qt_log_ignore("propagateSizeHints")


def tone(number: int, total_s: float, lightness: float) -> Tone:
    return Tone(number, lightness, lightness, lightness - 4, lightness + 4, total_s, 0.2)


TONES = (tone(0, 0.0, 92.0), tone(1, 30.0, 76.0), tone(2, 120.0, 51.0), tone(3, 480.0, 25.0))


def drawn(tones: tuple[Tone, ...] = TONES, rate: float = 1.0) -> Content:
    session = Session(tuple(map(Patch, BITES, READ)))
    found = fit([session], Conditions())
    return content_of(found.curve, found, tones, rate)


@pytest.fixture
def view(qtbot: QtBot) -> CurveView:
    view = CurveView()
    qtbot.addWidget(view)
    view.resize(560, 360)
    view.show_content(drawn(), Manner())
    view.show()
    return view


def test_rungs_stand_at_their_bite_in_the_bath_of_the_curve() -> None:
    slower = drawn(rate=0.5)
    assert [rung.bite_s for rung in slower.rungs] == [15.0, 60.0, 240.0]
    assert [rung.clock_s for rung in slower.rungs] == [30.0, 120.0, 480.0]


def test_every_patch_is_shown_and_a_longer_bite_lies_farther_right() -> None:
    content = drawn()
    assert [(one.bite_s, one.lightness) for one in content.readings] == list(
        zip(BITES, READ, strict=True)
    )
    scales = lay_out(content, 560.0, 360.0).scales
    assert all(scales.x(a) < scales.x(b) for a, b in pairwise(BITES))
    assert scales.bite_s(scales.x(75.0)) == pytest.approx(75.0)


def test_twelve_chips_never_cover_each_other_at_the_least_width() -> None:
    crowd = tuple(tone(k, 10.0 + k, 90.0 - k) for k in range(12))
    chips = lay_out(drawn(crowd), 320.0, 220.0).chips
    assert len(chips) == 11
    assert all(a.box.x + CHIP <= b.box.x for a, b in pairwise(chips))


def test_keys_choose_a_rung_and_bite_it_longer(view: CurveView, qtbot: QtBot) -> None:
    QTest.keyClick(view, Qt.Key.Key_Right)
    QTest.keyClick(view, Qt.Key.Key_Right)
    assert view.read_out().startswith("Tone 2: 2\N{NO-BREAK SPACE}min")
    with qtbot.waitSignal(view.bite_wanted) as longer:
        QTest.keyClick(view, Qt.Key.Key_Down)
    assert longer.args == [2, 135.0]


def test_a_dragged_rung_asks_for_bites_a_hand_can_time(view: CurveView) -> None:
    wanted: list[tuple[int, float]] = []
    view.bite_wanted.connect(lambda number, total_s: wanted.append((number, total_s)))
    layout = lay_out(drawn(), view.width(), view.height())
    chip = layout.chips[1].box
    at = QPoint(round(chip.x + CHIP / 2), round(chip.y + CHIP / 2))
    QTest.mousePress(view, Qt.MouseButton.LeftButton, pos=at)
    QTest.mouseMove(view, QPoint(round(layout.scales.x(200.0)), at.y()))
    QTest.mouseRelease(view, Qt.MouseButton.LeftButton, pos=at)
    assert wanted == [(2, 195.0)]


def test_no_rung_passes_its_neighbour(view: CurveView) -> None:
    wanted: list[float] = []
    view.bite_wanted.connect(lambda _number, total_s: wanted.append(total_s))
    chip = lay_out(drawn(), view.width(), view.height()).chips[1].box
    at = QPoint(round(chip.x + CHIP / 2), round(chip.y + CHIP / 2))
    QTest.mousePress(view, Qt.MouseButton.LeftButton, pos=at)
    QTest.mouseMove(view, QPoint(view.width() - 1, at.y()))
    assert not wanted


def test_what_is_picked_out_is_read_aloud(view: CurveView) -> None:
    view.pick(3)
    assert "prints 7.5" in view.accessibleDescription()
    assert view.accessibleDescription() == view.read_out()


def test_without_a_strip_it_says_so() -> None:
    content = content_of(starting_curve(Conditions()), None, TONES, 1.0)
    assert "untested" in told(content, None, Manner())


def test_a_rung_past_the_longest_patch_says_so() -> None:
    content = drawn((*TONES, tone(4, 1200.0, 20.0)))
    assert "past the longest patch" in told(content, 4, Manner())


def test_differences_are_said_in_darkness_with_the_decimal_sign_that_is_preferred() -> None:
    content = drawn()
    reading = content.readings[3]
    words = difference(reading, Manner(","))
    amount = abs(reading.expected - reading.lightness) / 10.0
    assert words == "as expected" or f"{amount:.2f}".replace(".", ",") in words
