"""What is done with files beside the window comes in its order, and is done before the end."""

from functools import partial
from threading import Event, get_ident

from pytestqt.qtbot import QtBot

from toneladder.errors import OutputError
from toneladder_desktop.bench.beside import Beside


def test_acts_are_done_in_their_order_and_told_on_the_window_s_thread(qtbot: QtBot) -> None:
    told: list[tuple[int, int]] = []
    did: list[tuple[int, int]] = []

    def act(number: int) -> int:
        did.append((number, get_ident()))
        return number

    beside = Beside()
    for number in range(5):
        beside.do(partial(act, number), lambda answer: told.append((answer, get_ident())))
    qtbot.waitUntil(lambda: len(told) == 5)
    assert [number for number, _ in did] == [number for number, _ in told] == list(range(5))
    assert {thread for _, thread in told} == {get_ident()}
    assert get_ident() not in {thread for _, thread in did}
    beside.stop()


def test_a_fault_is_told_in_its_sentence(qtbot: QtBot) -> None:
    def fail() -> None:
        raise OutputError("It could not be written.")

    told: list[str] = []
    beside = Beside()
    beside.do(fail, otherwise=told.append)
    qtbot.waitUntil(lambda: told == ["It could not be written."])
    beside.stop()


def test_only_the_newest_look_is_told(qtbot: QtBot) -> None:
    told: list[str] = []
    beside, go = Beside(), Event()
    beside.look("files", go.wait, lambda _: told.append("older"))
    beside.look("files", lambda: True, lambda _: told.append("newer"))
    go.set()
    qtbot.waitUntil(lambda: told == ["newer"])
    beside.stop()


def test_what_was_asked_is_done_before_the_end(qtbot: QtBot) -> None:
    assert qtbot is not None
    did: list[int] = []
    beside = Beside()
    for number in range(3):
        beside.do(partial(did.append, number))
    beside.stop()
    assert did == [0, 1, 2]
    beside.do(lambda: did.append(3))
    beside.stop()
    assert did == [0, 1, 2]
