"""The tank's window: driven by keys and hands with a clock of our own, killed, and brought back."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import UTC
from functools import partial
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QAccessibleEvent,
    QImage,
    QKeyEvent,
)
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton
from pytestqt.qtbot import QtBot
from tests.core.tank.hands import order_of
from tests.desktop.conftest import Worked

from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.book.baths import begin_bath, use_of
from toneladder.book.opening import open_book
from toneladder.book.values import Bath
from toneladder.lettering import Face, text_width
from toneladder.lines.values import Lines
from toneladder.order.line_steps import with_lines
from toneladder.order.values import Rates
from toneladder.quantities import read_bite, write_bite, write_temperature
from toneladder.tank.begun import Begun, begun_from, begun_text
from toneladder.tank.facts import begun_of
from toneladder.tank.sounds import TONES, Sound
from toneladder.tank.staged import stage_order
from toneladder.tank.values import Facts, Figure, Kind, Moment, Offer, Stage, State
from toneladder_desktop.tank.clock import read_clocks
from toneladder_desktop.tank.face import Look, place, turned
from toneladder_desktop.tank.heard import RATE, wave_of
from toneladder_desktop.tank.layout import figure_of, width_of
from toneladder_desktop.tank.maps import line_maps, step_maps
from toneladder_desktop.tank.notebook import Notebook
from toneladder_desktop.tank.window import TankWindow

PLENTY_MS = 10_000
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


@dataclass
class Time:
    """Two clocks that go when they are told to."""

    now: Moment = Moment(1000.0, 1_790_000_000.0, "boot")

    def __call__(self) -> Moment:
        return self.now

    def pass_(self, seconds: float) -> None:
        self.now = self.now.later(seconds)


@dataclass
class Tank:
    """A tank window, its clock, and what a hand does at it."""

    window: TankWindow
    time: Time
    qtbot: QtBot

    def until(self, state: State) -> None:
        self.qtbot.waitUntil(lambda: self.window.standing.state is state, timeout=PLENTY_MS)

    def wait(self, seconds: float) -> None:
        """Time passes in the steps in which the window looks at it."""
        left = seconds
        while left > 0.0:
            self.time.pass_(min(left, 0.5))
            left -= 0.5
            self.window.tick()
        self.settle()

    def settle(self) -> None:
        self.qtbot.waitUntil(lambda: not self.window._waiting, timeout=PLENTY_MS)
        self.window.tick()
        self.qtbot.waitUntil(lambda: not self.window._waiting, timeout=PLENTY_MS)

    def press(self, key: Qt.Key = Qt.Key.Key_Space) -> None:
        self.time.pass_(2.0)
        self.window.tick()
        QTest.keyClick(self.window, key)
        self.settle()

    def into_the_bath(self) -> None:
        self.until(State.CHECK)
        self.press()
        self.until(State.READY)
        self.press()
        self.wait(11.0)
        self.until(State.BITING)


@pytest.fixture
def begun(worked: Worked) -> Begun:
    return begun_of(worked.with_tones(count=3).plan)


@pytest.fixture
def lines(begun: Begun) -> Begun:
    """Lines of two depths, ten and twenty minutes."""
    order = with_lines(
        begun.order,
        Lines(depths=2, bites_s=(600.0, 1200.0)),
        (80.0, 120.0),
        Conditions(),
        Rates(),
    )
    facts = Facts(None, 1.0, 20.0, stage=Stage.LINES, longest_dip_s=900.0, um_per_min=4.5)
    known = replace(facts, bare_cm2=(0.0, 2.0, 3.0))
    staged = stage_order(order, Stage.LINES, Rates())
    return Begun(staged, known, "Tall tank", Conditions())


@pytest.fixture
def at_tank(
    begun: Begun, tmp_path: Path, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> Iterator[Callable[..., Tank]]:
    monkeypatch.setattr("toneladder_desktop.tank.heard._player", lambda: ("true",))
    opened: list[TankWindow] = []

    def open_one(time: Time | None = None, begun: Begun = begun) -> Tank:
        clock = time or Time()
        notes = Notebook(tmp_path / "book.sqlite")
        window = TankWindow("plate", begun, notes, title="Hill", clock=clock, zone=UTC)
        window._tick.setInterval(1_000_000)
        qtbot.addWidget(window)
        window.show()
        opened.append(window)
        qtbot.waitUntil(lambda: bool(window._session), timeout=PLENTY_MS)
        return Tank(window, clock, qtbot)

    yield open_one
    for window in opened:
        window.stop()


@pytest.fixture
def tank(at_tank: Callable[..., Tank]) -> Tank:
    return at_tank()


def kinds(tank: Tank) -> list[Kind]:
    return [event.kind for event in tank.window.events]


def test_one_key_takes_a_plate_through_its_first_step(tank: Tank) -> None:
    tank.into_the_bath()
    length = tank.window.standing.length_s
    tank.wait(length - tank.window.standing.bitten_s + 1.0)
    tank.until(State.LIFT)
    tank.press()
    tank.until(State.OUT)
    tank.press()
    tank.until(State.STOP_OUT)
    tank.press()
    tank.until(State.DRYING)
    tank.press()
    tank.until(State.READY)
    assert tank.window.standing.step == 2
    assert Kind.STARTED in kinds(tank)
    assert [dip.step for dip in tank.window.standing.dips] == [1]


def test_no_key_and_no_click_ends_a_bite_before_its_last_ten_seconds(tank: Tank) -> None:
    tank.into_the_bath()
    window, length = tank.window, tank.window.standing.length_s
    idle = {Qt.Key.Key_F11, Qt.Key.Key_F6}
    keys = [key for key in Qt.Key if key < 0x60 or 0x01000000 <= key < 0x01000040]
    acts: list[Callable[[], None]] = [
        partial(QTest.keyClick, window, key) for key in keys if key not in idle
    ]
    for x in range(4, window.width(), window.width() // 9):
        for y in range(4, window.height(), window.height() // 7):
            left = Qt.MouseButton.LeftButton
            acts.append(partial(QTest.mouseClick, window, left, pos=QPoint(x, y)))
    for act in acts:
        act()
        tank.settle()
        assert window.standing.in_bath
        if window.standing.state is State.ASKED:
            QTest.keyClick(window, Qt.Key.Key_Space)
            tank.settle()
            assert window.standing.in_bath
    assert length - window.standing.bitten_s > 10.0
    assert Kind.LIFTED not in kinds(tank)
    assert window.standing.length_s == length


def test_a_repeating_key_and_a_second_press_at_once_are_drips(tank: Tank) -> None:
    tank.into_the_bath()
    tank.time.pass_(2.0)
    tank.window.tick()
    QTest.keyClick(tank.window, Qt.Key.Key_Space)
    tank.settle()
    before = kinds(tank)
    QTest.keyClick(tank.window, Qt.Key.Key_Space)
    again = QKeyEvent(
        QEvent.Type.KeyPress, Qt.Key.Key_Space, Qt.KeyboardModifier.NoModifier, " ", autorep=True
    )
    QApplication.sendEvent(tank.window, again)
    tank.settle()
    assert kinds(tank) == before


def test_lifting_early_takes_two_different_acts(tank: Tank) -> None:
    tank.into_the_bath()
    tank.wait(3.0)
    tank.press()
    tank.until(State.ASKED)
    tank.press(Qt.Key.Key_Backspace)
    tank.until(State.OUT_EARLY)
    assert kinds(tank)[-2:] == [Kind.ASKED, Kind.LIFTED]


def test_other_keys_say_that_only_the_space_bar_acts(tank: Tank) -> None:
    tank.into_the_bath()
    QTest.keyClick(tank.window, Qt.Key.Key_Q)
    assert "Only the space bar" in tank.window._look().then


def test_a_killed_window_comes_back_in_the_running_bite(
    at_tank: Callable[..., Tank],
) -> None:
    first = at_tank()
    first.into_the_bath()
    first.wait(2.0)
    bitten = first.window.standing.bitten_s
    first.window.stop()
    first.time.pass_(9.0)
    again = at_tank(first.time)
    again.settle()
    assert again.window.standing.in_bath
    assert again.window.standing.bitten_s == pytest.approx(bitten + 9.0, abs=0.5)
    assert "ran on" in again.window.standing.sentence


def test_a_second_window_of_the_plate_only_looks(at_tank: Callable[..., Tank]) -> None:
    first = at_tank()
    first.until(State.CHECK)
    second = at_tank(first.time)
    second.until(State.ELSEWHERE) if second.window._ours is False else second.qtbot.waitUntil(
        lambda: not second.window._ours, timeout=PLENTY_MS
    )
    second.window.tick()
    assert second.window.standing.state is State.ELSEWHERE
    QTest.keyClick(second.window, Qt.Key.Key_Space)
    assert second.window.events == ()


def bite(tank: Tank) -> None:
    """From the last press before the count-in to the lift on its tone."""
    tank.press()
    tank.wait(11.0)
    tank.until(State.BITING)
    tank.wait(tank.window.standing.length_s - tank.window.standing.bitten_s + 0.5)
    tank.until(State.LIFT)
    tank.press()


def test_lines_are_bitten_with_one_key_and_their_bath_is_brought_forward(
    at_tank: Callable[..., Tank], lines: Begun, tmp_path: Path
) -> None:
    with open_book(tmp_path / "book.sqlite") as book:
        bath = begin_bath(book, Bath("Tall tank", Metal.COPPER, Mordant.FERRIC_CHLORIDE))
    tank = at_tank(begun=lines)
    tank.until(State.CHECK)
    tank.press()
    bite(tank)
    for _ in range(3):
        tank.press()
    tank.until(State.READY)
    assert tank.window.standing.bite_name == "line bite 2"
    bite(tank)
    tank.press()
    tank.until(State.END)
    given: list[tuple[float, ...]] = []
    tank.window.ended.connect(given.append)
    tank.window.close()
    tank.qtbot.waitUntil(lambda: bool(given), timeout=PLENTY_MS)
    assert kinds(tank)[-1] is Kind.CLOSED
    assert given == [pytest.approx((0.0, 600.0, 1200.0), abs=0.6)]
    told = tank.window.forwarded
    assert told is not None
    assert told.metal_g == pytest.approx(8.96 * 4.5e-4 * (2.0 * 10.0 + 3.0 * 20.0), rel=2e-3)
    with open_book(tmp_path / "book.sqlite") as book:
        assert use_of(book, bath).metal_g == pytest.approx(told.metal_g, abs=1e-3)


def test_lines_cut_off_by_a_crash_come_back_in_their_bite_whatever_is_asked_for(
    at_tank: Callable[..., Tank], begun: Begun, lines: Begun
) -> None:
    first = at_tank(begun=lines)
    first.into_the_bath()
    first.wait(2.0)
    bitten = first.window.standing.bitten_s
    first.window.stop()
    first.time.pass_(9.0)
    again = at_tank(first.time, begun=begun)
    again.settle()
    assert again.window.stage is Stage.LINES
    assert again.window.standing.bitten_s == pytest.approx(bitten + 9.0, abs=0.5)


def test_another_stage_is_a_stay_of_its_own_and_each_goes_on_where_it_was(
    at_tank: Callable[..., Tank], begun: Begun, lines: Begun
) -> None:
    first = at_tank(begun=lines)
    first.until(State.CHECK)
    first.press()
    first.window.close()
    second = at_tank(first.time, begun=begun)
    assert second.window.stage is Stage.TONES
    assert second.window.events == ()
    second.press()
    second.window.close()
    again = at_tank(first.time, begun=lines)
    assert again.window.stage is Stage.LINES
    assert kinds(again) == [Kind.CHECKED]


def test_closing_during_a_bite_hides_the_window_and_the_bite_goes_on(tank: Tank) -> None:
    tank.into_the_bath()
    tank.window.close()
    assert not tank.window.isVisible()
    tank.wait(2.0)
    assert tank.window.standing.in_bath


def test_what_cannot_be_noted_is_said_and_not_lost(tank: Tank) -> None:
    tank.into_the_bath()
    tank.window._notebook.failed.emit("The disk is full.")
    assert "pencil" in tank.window._look().then
    assert tank.window.standing.in_bath


def test_sounds_come_with_the_count_in_and_the_lift(tank: Tank) -> None:
    tank.into_the_bath()
    played = tank.window.speaker.played
    assert played.count(Sound.IN_SHORT) == 3
    assert played.count(Sound.IN_LONG) == 1
    tank.wait(tank.window.standing.length_s - tank.window.standing.bitten_s + 3.0)
    assert played.count(Sound.LIFT_LONG) == 1
    assert Sound.CALL in played


@settings(max_examples=300)
@given(st.floats(0.0, 1e7), st.lists(st.floats(0.0, 1.0), max_size=200))
def test_the_lift_flashes_less_than_three_times_in_any_second(
    since: float, looks: list[float]
) -> None:
    """A flash is a pair of opposing changes [WCAG22]; however often the screen is looked at."""
    seen = [turned(State.LIFT, since + look) for look in sorted(looks)]
    changes = sum(one is not other for one, other in pairwise(seen))
    assert changes / 2.0 < 3.0
    assert all(turned(State.LIFT, since + look, steady=True) for look in looks)
    assert not any(turned(State.BITING, since + look) for look in looks)


def test_a_steady_lift_looks_alike_at_any_time(tank: Tank) -> None:
    tank.window._steady = lambda: True
    tank.into_the_bath()
    tank.wait(tank.window.standing.length_s - tank.window.standing.bitten_s + 0.5)
    tank.until(State.LIFT)
    looks = []
    for _ in range(8):
        looks.append(tank.window._look().turned)
        tank.wait(0.5)
    assert all(looks)


def test_a_step_with_long_words_keeps_everything_apart_at_every_size(tank: Tank) -> None:
    long = "Get ready. Lift on the short signals, rinse on the long one. " * 2
    standing = replace(tank.window.standing, sentence=long)
    for width, height in ((640, 420), (1366, 768), (1920, 1080), (3840, 2160)):
        layout = place(Look(standing, long), float(width), float(height))
        assert layout.main.bottom <= height
        top = layout.then_at[1] - layout.then_size
        assert top >= layout.strip.y
        assert layout.then_at[1] + (len(layout.then) - 1) * layout.then_size <= layout.main.y
        assert " ".join(layout.then) == long.strip()


def test_a_map_and_all_words_stand_beside_each_other_at_every_size(tank: Tank) -> None:
    words = "Go over old varnish, edges, pinholes. Then let it dry."
    sentence = "Stop out tones 0, 1 and 3, and the border of the plate: 48 places, about 117 min."
    standing = replace(tank.window.standing, sentence=sentence, state=State.STOP_OUT)
    plan = QImage(8, 6, QImage.Format.Format_Grayscale8)
    for width, height in ((640, 420), (1366, 768), (1920, 1080), (3840, 2160)):
        layout = place(Look(standing, words, plan=plan), float(width), float(height))
        assert " ".join(layout.then) == words
        assert layout.side.bottom <= layout.main.y
        assert layout.sentence_at[1] + layout.sentence_size * 0.3 < layout.side.y
        for line in layout.then:
            assert text_width(line, Face.SANS, layout.then_size) < layout.side.x - layout.then_at[0]


def test_capitals_can_be_read_from_two_metres_on_a_small_laptop(tank: Tank) -> None:
    """9.3 mm is the least capital height for two metres; 0.227 mm a pixel is a 14-inch screen."""
    standing = tank.window.standing
    layout = place(Look(standing, "Then: rinse."), 1366.0, 768.0)
    for size in (layout.sentence_size, layout.other):
        assert 0.644 * size * 0.227 >= 9.3
    ready = figure_of(Figure(75.0))
    assert 0.644 * ready[0].size * 0.227 >= 40.0
    assert width_of(ready) < 1366.0


def texts_of(figure: Figure, *, rough: bool = False) -> list[str]:
    return [piece.text for piece in figure_of(figure, rough=rough)]


def test_figures_are_rounded_as_a_clock_that_runs_that_way() -> None:
    assert texts_of(Figure(47.2, "to go")) == ["48", "s to go"]
    assert texts_of(Figure(3.9, "over", up=True)) == ["3", "s over"]
    assert texts_of(Figure(4215.0)) == ["1", "h", "10", "min", "15", "s"]
    assert texts_of(Figure(1830.0), rough=True) == ["31", "min"]
    assert texts_of(Figure(0.0, "time is up", still=True), rough=True) == ["time is up"]


@given(st.floats(0.0, 7200.0), st.booleans())
def test_a_figure_that_stands_still_is_rounded_as_its_sentence(seconds: float, up: bool) -> None:
    written = write_bite(seconds).replace("\N{NO-BREAK SPACE}", " ").split()
    shown = texts_of(Figure(seconds, up=up, still=True))
    assert read_bite(" ".join(shown)) == read_bite(" ".join(written))


def test_every_sound_lies_where_hearing_lasts_longest() -> None:
    for sound in Sound:
        data = np.frombuffer(wave_of(sound)[44:], dtype="<i2").astype(float)
        spectrum = np.abs(np.fft.rfft(data))
        peak = np.fft.rfftfreq(len(data), 1.0 / RATE)[int(np.argmax(spectrum))]
        assert peak < 1500.0
        assert min(abs(peak - tone.hertz) for tone in TONES[sound]) < 25.0


def test_maps_are_mirrored_and_show_what_is_painted_now() -> None:
    tones = np.zeros((40, 60), np.uint8)
    tones[:, 30:] = 1
    tones[20:, :30] = 2
    first, second = step_maps(tones, 2).values()
    assert first.pixelColor(59, 2).red() == 0
    assert first.pixelColor(2, 2).red() == 255
    assert second.pixelColor(2, 2).red() == 0
    assert second.pixelColor(59, 39).red() == 255


def test_maps_of_lines_show_what_is_painted_over_and_nothing_else() -> None:
    depth = np.zeros((40, 60), np.uint8)
    depth[10, 5:25] = 1
    depth[30, 5:25] = 2
    order = with_lines(order_of(3), Lines(depths=2), (10.0, 10.0), Conditions(), Rates())
    (only,) = line_maps(depth, order.line_steps).items()
    assert only[0] == 2
    assert only[1].pixelColor(59 - 10, 10).red() == 0
    assert only[1].pixelColor(59 - 10, 30).red() == 255


def test_the_two_clocks_go_together() -> None:
    one, other = read_clocks(), read_clocks()
    assert other.boottime_s >= one.boottime_s
    assert other.boot == one.boot
    assert one.boot


def test_what_a_stay_began_with_is_kept_as_text(begun: Begun) -> None:
    assert begun_from(begun_text(begun)) == begun


def test_a_temperature_and_a_slip_are_entered_and_taken_back(tank: Tank) -> None:
    tank.until(State.CHECK)
    tank.press()
    tank.until(State.READY)
    tank.window.enter()
    entering = tank.window._entering
    assert entering is not None
    entering.line.setText("hot")
    entering.commit()
    assert "hot" in entering.fault.text()
    entering.line.setText("23,5")
    entering.commit()
    tank.settle()
    assert tank.window.standing.bath_c == 23.5
    assert kinds(tank)[-1] is Kind.TEMPERATURE
    entering.list.setCurrentRow(0)
    entering.back.click()
    tank.settle()
    assert tank.window.standing.bath_c == tank.window._begun.facts.planned_c


def test_nothing_is_entered_while_the_plate_is_in_the_bath(tank: Tank) -> None:
    tank.into_the_bath()
    QTest.keyClick(tank.window, Qt.Key.Key_F8)
    assert tank.window._entering is None


def test_what_can_be_done_is_a_button_for_a_screen_reader(tank: Tank) -> None:
    def buttons() -> dict[str, QPushButton]:
        found = tank.window.offers.findChildren(QPushButton)
        return {one.text(): one for one in found if not one.isHidden()}

    tank.until(State.CHECK)
    (check,) = buttons().values()
    tank.time.pass_(2.0)
    check.click()
    tank.until(State.READY)
    assert list(buttons()) == ["Begin the count-in", "Hold: skip this step", "cooler", "warmer"]
    tank.settle()
    tank.time.pass_(2.0)
    buttons()["Begin the count-in"].click()
    tank.until(State.COUNT_IN)
    assert list(buttons()) == ["Not yet"]
    spoken = QAccessible.queryAccessibleInterface(tank.window)
    assert spoken is not None
    assert spoken.role() is QAccessible.Role.Dialog


def test_the_bath_stands_beside_the_bite_and_follows_every_arrow_at_once(tank: Tank) -> None:
    tank.until(State.CHECK)
    tank.press()
    tank.until(State.READY)
    assert tank.window._look().beside == ("bath", write_temperature(20.0))
    for times in (1, 2, 3):
        QTest.keyClick(tank.window, Qt.Key.Key_Up)
        tank.settle()
        assert tank.window._look().beside == ("bath", write_temperature(20.0 + times / 2.0))


def test_a_player_of_sounds_that_fails_is_told_before_the_next_bite(tank: Tank) -> None:
    tank.until(State.CHECK)
    tank.press()
    tank.until(State.READY)
    tank.window.speaker._failed = True
    tank.window.tick()
    tank.until(State.NO_SOUND)
    tank.press()
    tank.until(State.READY)
    tank.press()
    tank.until(State.COUNT_IN)
    assert tank.window.standing.sentence == "Into the bath at 0."


@pytest.mark.parametrize(("width", "height"), [(640, 420), (1366, 768), (1920, 1080)])
def test_words_on_both_bars_keep_their_size_and_the_main_bar_is_the_wider(
    tank: Tank, width: int, height: int
) -> None:
    pairs = (
        ("Begin the count-in", "Hold: skip this step"),
        ("Leave it", "Hold: next choice"),
        ("Seen", "Hold: another time"),
        ("9 s early: note it", "Hold: it is still in"),
    )
    for main, second in pairs:
        acts = Offer(main, Kind.COUNTING), Offer(second, Kind.SKIP_ASKED)
        shown = replace(tank.window.standing, main=acts[0], second=acts[1])
        layout = place(Look(shown, ""), float(width), float(height))
        for words, bar in ((main, layout.main), (second, layout.second)):
            wide = text_width(words, Face.SANS_BOLD, layout.other)
            assert wide <= bar.width - 30.0 * layout.unit, words
        assert layout.second.width <= layout.main.width
        assert layout.main.right < layout.second.x
        assert layout.second.right <= width


def test_what_an_arrow_sets_is_spoken(tank: Tank, monkeypatch: pytest.MonkeyPatch) -> None:
    tank.until(State.CHECK)
    tank.press()
    tank.until(State.READY)
    said: list[str] = []

    def note(event: QAccessibleEvent) -> None:
        if isinstance(event, QAccessibleAnnouncementEvent):
            said.append(event.message())

    monkeypatch.setattr(QAccessible, "updateAccessibility", note)
    QTest.keyClick(tank.window, Qt.Key.Key_Up)
    tank.settle()
    assert said == [write_temperature(20.5)]
