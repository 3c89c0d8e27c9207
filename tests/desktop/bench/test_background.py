"""Only the newest request of a slot is answered, and a failure is a sentence."""

from collections.abc import Iterator
from threading import Event

import pytest
from pytestqt.qtbot import QtBot

from toneladder.errors import PlanError
from toneladder_desktop.bench.background import Background, GivenUpError, Tell


class Work:
    """Answers every request twice, and can be made to wait before the second answer."""

    def __init__(self) -> None:
        self.gate = Event()
        self.gate.set()
        self.started = Event()
        self.finished: list[str] = []
        self.given_up: list[str] = []

    def __call__(self, request: str, tell: Tell) -> Iterator[object]:
        yield f"{request} first"
        self.started.set()
        self.gate.wait(30)
        try:
            tell("going on")
        except GivenUpError:
            self.given_up.append(request)
            raise
        if request == "bad":
            raise PlanError("It cannot be.")
        if request == "worse":
            raise ZeroDivisionError
        self.finished.append(request)
        yield f"{request} second"


@pytest.fixture
def work() -> Work:
    return Work()


@pytest.fixture
def background(work: Work, qtbot: QtBot) -> Iterator[Background]:
    assert qtbot is not None
    background = Background(work)
    yield background
    work.gate.set()
    background.close()


def test_every_answer_carries_its_request(background: Background, qtbot: QtBot) -> None:
    heard: list[tuple[object, object]] = []
    background.answered.connect(lambda request, answer: heard.append((request, answer)))
    with qtbot.waitSignal(background.done):
        background.ask("slot", "a")
    assert heard == [("a", "a first"), ("a", "a second")]
    assert not background.busy


def test_a_stale_answer_is_dropped_and_its_work_given_up(
    background: Background, work: Work, qtbot: QtBot
) -> None:
    heard: list[object] = []
    background.answered.connect(lambda _request, answer: heard.append(answer))
    work.gate.clear()
    background.ask("slot", "old")
    assert work.started.wait(30)
    background.ask("slot", "older than new")
    background.ask("slot", "new")
    with qtbot.waitSignal(background.done):
        work.gate.set()
    assert work.finished == ["new"]
    assert "old second" not in heard
    assert heard[-2:] == ["new first", "new second"]
    assert not any(str(answer).startswith("older") for answer in heard)


def test_slots_do_not_disturb_each_other(background: Background, work: Work, qtbot: QtBot) -> None:
    work.gate.clear()
    background.ask("one", "a")
    background.ask("two", "b")
    with qtbot.waitSignals([background.done, background.done]):
        work.gate.set()
    assert work.finished == ["a", "b"]


def test_what_was_given_up_says_nothing_more(
    background: Background, work: Work, qtbot: QtBot
) -> None:
    heard: list[object] = []
    background.answered.connect(lambda _request, answer: heard.append(answer))
    work.gate.clear()
    background.ask("slot", "a")
    assert work.started.wait(30)
    background.give_up("slot")
    work.gate.set()
    with qtbot.waitSignal(background.done):
        background.ask("other", "b")
    assert work.given_up == ["a"]
    assert heard == ["b first", "b second"]


def test_a_known_failure_is_its_own_sentence(background: Background, qtbot: QtBot) -> None:
    with qtbot.waitSignal(background.failed) as told:
        background.ask("slot", "bad")
    assert told.args == ["bad", "It cannot be."]


def test_an_unknown_failure_is_a_sentence_too_and_the_next_request_is_worked_on(
    background: Background, qtbot: QtBot, caplog: pytest.LogCaptureFixture
) -> None:
    with qtbot.waitSignal(background.failed) as told:
        background.ask("slot", "worse")
    assert told.args is not None
    assert "Your plate is as it was" in told.args[1]
    assert "ZeroDivisionError" in caplog.text
    with qtbot.waitSignal(background.done):
        background.ask("slot", "good")
