"""The way to the tank from the bench, and what the plate keeps of it."""

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from toneladder.bite.values import Metal
from toneladder.book.stay_use import Forwarded
from toneladder.lines.values import Lines
from toneladder.order.values import SecondGrain
from toneladder.sheets.order_words import written_date
from toneladder.tank.values import Kind, Moment, Stage, State
from toneladder_desktop.tank.window import TankWindow
from toneladder_desktop.window.bench_window import BenchWindow

PLENTY_MS = 20_000
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


@pytest.fixture(autouse=True)
def _sound(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("toneladder_desktop.tank.heard._player", lambda: ("true",))


@pytest.fixture
def bench(planned: BenchWindow, qtbot: QtBot, tmp_path: Path) -> BenchWindow:
    planned.tank._book = tmp_path / "book.sqlite"
    qtbot.waitUntil(lambda: planned.workings.plan is not None, timeout=PLENTY_MS)
    return planned


def at_tank(bench: BenchWindow, qtbot: QtBot, asked: str = "") -> TankWindow:
    """The tank's window; ``asked`` is the answer to a question that was asked already."""
    if not asked:
        bench.top.day_bar.tank.click()
    for button in bench.top.notice.findChildren(QPushButton):
        if button.text() == "Go on untested":
            button.click()
            break
    tank = bench.tank._tank
    assert tank is not None
    qtbot.waitUntil(lambda: bool(tank._session), timeout=PLENTY_MS)
    return tank


def test_without_a_strip_it_is_asked_once(bench: BenchWindow, qtbot: QtBot) -> None:
    bench.top.day_bar.tank.click()
    assert "untested" in bench.top.notice.sentence.text()
    assert bench.tank._tank is None
    tank = at_tank(bench, qtbot)
    assert tank.standing.state is State.CHECK


def test_a_bite_shows_on_the_bench_and_keeps_its_window(bench: BenchWindow, qtbot: QtBot) -> None:
    tank = at_tank(bench, qtbot)
    clock = [tank._clock()]
    tank._clock = lambda: clock[0]
    for seconds in (2.0, 11.0):
        QTest.keyClick(tank, Qt.Key.Key_Space)
        qtbot.waitUntil(lambda: not tank._waiting, timeout=PLENTY_MS)
        clock[0] = clock[0].later(seconds)
        tank.tick()
        qtbot.waitUntil(lambda: not tank._waiting, timeout=PLENTY_MS)
    tank.tick()
    assert bench.tank.in_bath
    assert "biting" in bench.top.day_bar.tank.text()
    assert not bench.close()
    assert "in the bath" in bench.top.notice.sentence.text()
    tank._events = [replace(event, kind=Kind.NOTE) for event in tank._events]
    tank.tick()


def test_what_was_given_stays_with_the_plate_and_reaches_the_proof(
    bench: BenchWindow, qtbot: QtBot
) -> None:
    tank = at_tank(bench, qtbot)
    given = (0.0, 61.0, 122.0, 240.0, 480.0)
    tank.ended.emit(given)
    assert bench.bench.plate is not None
    assert bench.bench.plate.given_s == given
    assert bench.workings.plan is not None
    bench.proofs.open()
    content = bench.proofs._content
    assert content is not None
    assert content.bites_s() == given
    bench.bench.undo.undo()
    assert not bench.bench.plate.given_s


def choose(bench: BenchWindow, words: str) -> None:
    button = next(b for b in bench.top.notice.findChildren(QPushButton) if b.text() == words)
    button.click()


def with_stages(bench: BenchWindow, qtbot: QtBot) -> None:
    plate = bench.bench.plate
    assert plate is not None
    more = replace(plate, lines=Lines(depths=2), second_grain=SecondGrain(2))
    bench.bench.change("", more)
    qtbot.waitUntil(
        lambda: bench.workings.plan is not None and bench.workings.plan.plate == more,
        timeout=PLENTY_MS,
    )


def test_with_lines_and_a_second_grain_it_is_asked_what_is_bitten(
    bench: BenchWindow, qtbot: QtBot
) -> None:
    with_stages(bench, qtbot)
    bench.top.day_bar.tank.click()
    assert "What is bitten today?" in bench.top.notice.sentence.text()
    choose(bench, "Second grain")
    tank = bench.tank._tank
    assert tank is not None
    assert tank.stage is Stage.SECOND
    qtbot.waitUntil(lambda: bool(tank._session), timeout=PLENTY_MS)
    tank.tick()
    now, plan = bench.tank.order_now, bench.workings.plan
    assert now is not None
    assert plan is not None
    assert now.order == plan.order


def test_what_lines_and_second_grain_were_given_is_kept_apart_from_the_tones(
    bench: BenchWindow, qtbot: QtBot
) -> None:
    with_stages(bench, qtbot)
    bench.top.day_bar.tank.click()
    choose(bench, "Lines first")
    tank = bench.tank._tank
    assert tank is not None
    tank.forwarded = Forwarded("stay", "Tall tank", Metal.COPPER, 1.24)
    taken: list[str] = []
    bench.tank._take_back = taken.append
    tank.ended.emit((0.0, 600.0, 1200.0))
    plate = bench.bench.plate
    assert plate is not None
    assert plate.lines_given_s == (0.0, 600.0, 1200.0)
    assert plate.given_s == plate.second_given_s == ()
    assert "about 1.2\u00a0g of copper" in bench.top.notice.sentence.text()
    choose(bench, "Take the use back")
    assert taken == ["stay"]


def test_the_order_as_it_is_now_can_be_printed(bench: BenchWindow, qtbot: QtBot) -> None:
    assert not bench.tank.order_now
    tank = at_tank(bench, qtbot)
    tank.tick()
    now = bench.tank.order_now
    assert now is not None
    assert now.order == tank.standing.order


def test_an_unfinished_stay_is_offered_when_the_plate_lies_open_again(
    bench: BenchWindow, qtbot: QtBot
) -> None:
    tank = at_tank(bench, qtbot)
    QTest.keyClick(tank, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: len(tank.events) == 1, timeout=PLENTY_MS)
    tank.close()
    assert bench.tank._tank is None
    lying = bench.bench.lying
    assert lying is not None
    bench.bench.lay(lying)
    qtbot.waitUntil(lambda: "is at the tank" in bench.top.notice.sentence.text(), timeout=PLENTY_MS)
    assert isinstance(tank._clock(), Moment)


def bitten(bench: BenchWindow, qtbot: QtBot) -> None:
    """The whole plate is bitten, and its stay is over."""
    tank = at_tank(bench, qtbot)
    for step in tank._begun.order.steps:
        tank._enter(Kind.GIVEN, step.bite_s, 0.0, 0, "")
        qtbot.waitUntil(lambda: not tank._waiting, timeout=PLENTY_MS)
    tank._enter(Kind.STOPPING_OUT, 0.0, 0.0, 0, "")
    qtbot.waitUntil(lambda: tank._now().state is State.END, timeout=PLENTY_MS)
    tank.close()
    qtbot.waitUntil(lambda: bench.tank._tank is None, timeout=PLENTY_MS)


def test_a_bitten_plate_is_asked_about_before_it_is_bitten_again(
    bench: BenchWindow, qtbot: QtBot
) -> None:
    today = written_date(datetime.now(UTC).astimezone().date())
    bitten(bench, qtbot)
    assert bench.top.day._heads()[-1] == f"bitten {today}"
    for opened_again in (False, True):
        if opened_again:
            lay_again(bench, qtbot)
        bench.top.day_bar.tank.click()
        said = bench.top.notice.sentence.text()
        assert said.startswith(f"This plate was bitten on {today}. Bite it again from the first")
        assert bench.top.notice.close_button.property("act") is True
        bench.top.notice.close_button.click()
        assert bench.tank._tank is None
    bench.top.day_bar.tank.click()
    choose(bench, "Bite it again")
    assert bench.top.notice.close_button.property("act") is False
    tank = at_tank(bench, qtbot, "Go on untested")
    assert tank.standing.state is State.CHECK
    assert not tank.events


def lay_again(bench: BenchWindow, qtbot: QtBot) -> None:
    """The plate is opened again; what the book knows of it comes after a moment."""
    lying = bench.bench.lying
    assert lying is not None
    bench.tank._ended = ("", {})
    bench.bench.lay(lying)
    assert bench.top.day._bitten == ""
    qtbot.waitUntil(lambda: bool(bench.top.day._bitten), timeout=PLENTY_MS)
    qtbot.waitUntil(lambda: bench.workings.plan is not None, timeout=PLENTY_MS)


def test_a_stay_that_goes_on_is_not_asked_about_as_a_new_one(
    bench: BenchWindow, qtbot: QtBot
) -> None:
    bitten(bench, qtbot)
    bench.top.day_bar.tank.click()
    choose(bench, "Bite it again")
    tank = at_tank(bench, qtbot, "Go on untested")
    QTest.keyClick(tank, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: len(tank.events) == 1, timeout=PLENTY_MS)
    tank.close()
    assert bench.tank._tank is None
    again = at_tank(bench, qtbot)
    qtbot.waitUntil(lambda: len(again.events) == 1, timeout=PLENTY_MS)


def test_bites_kept_with_a_plate_that_the_book_does_not_know_are_asked_about(
    bench: BenchWindow, qtbot: QtBot
) -> None:
    plate = bench.bench.plate
    assert plate is not None
    bench.bench.change("", replace(plate, given_s=(0.0, 60.0, 120.0, 240.0, 480.0)))
    qtbot.waitUntil(lambda: bench.workings.plan is not None, timeout=PLENTY_MS)
    bench.top.day_bar.tank.click()
    assert bench.top.notice.sentence.text().startswith("This plate was bitten already.")
    assert bench.tank._tank is None
