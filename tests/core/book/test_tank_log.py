"""The tank's log only grows, and one window has the plate."""

import sqlite3
from dataclasses import replace
from pathlib import Path

import pytest

from toneladder.book.opening import Book, open_book
from toneladder.book.tank_log import (
    append_event,
    begin_session,
    events_of,
    hold_plate,
    let_go,
    sessions_of,
)
from toneladder.book.values import Lease, Logged, TankSession
from toneladder.errors import BookError

SESSION = TankSession("s1", "boats", 1_700_000_000.0, '{"steps": []}')
EVENTS = (
    Logged(0, "started", 1000.0, 1_700_000_010.0, "boot a"),
    Logged(1, "lifted", 1075.5, 1_700_000_085.5, "boot a", '{"seconds": 0.5}'),
    Logged(2, "temperature read", 20.0, 1_700_000_100.0, "boot b", '{"reading": 21.5}'),
)
LEASE = Lease("boats", "window 1", "boot a", 1000.0, 1_700_000_000.0)


def test_what_was_noted_comes_back_in_order_in_another_program(book: Book, path: Path) -> None:
    begin_session(book, SESSION)
    begin_session(book, replace(SESSION, identity="s2", begun_utc_s=1.0))
    for event in EVENTS:
        append_event(book, "s1", event)
    with open_book(path) as other:
        assert events_of(other, "s1") == EVENTS
        assert events_of(other, "s2") == ()
        assert [session.identity for session in sessions_of(other, "boats")] == ["s2", "s1"]
        assert sessions_of(other, "boats")[1] == SESSION


def test_an_event_of_unknown_fate_may_be_noted_again(book: Book) -> None:
    begin_session(book, SESSION)
    for event in (EVENTS[0], EVENTS[0], EVENTS[1], EVENTS[0]):
        append_event(book, "s1", event)
    assert events_of(book, "s1") == EVENTS[:2]


def test_another_windows_event_is_neither_lost_nor_overwritten(book: Book) -> None:
    begin_session(book, SESSION)
    append_event(book, "s1", EVENTS[0])
    for wrong in (replace(EVENTS[0], kind="note"), EVENTS[2]):
        with pytest.raises(BookError, match="Another window has noted"):
            append_event(book, "s1", wrong)
    assert events_of(book, "s1") == EVENTS[:1]


def test_events_can_be_neither_altered_nor_removed(book: Book) -> None:
    begin_session(book, SESSION)
    append_event(book, "s1", EVENTS[0])
    for statement in (
        "DELETE FROM tank_event",
        "UPDATE tank_event SET kind = 'note'",
        "DELETE FROM tank_session",
    ):
        with pytest.raises(BookError), book.writing() as connection:
            connection.execute(statement)
    assert events_of(book, "s1") == EVENTS[:1]


def test_a_stay_is_begun_once_and_before_its_events(book: Book) -> None:
    with pytest.raises(BookError, match="Begin it first"):
        append_event(book, "s1", EVENTS[0])
    begin_session(book, SESSION)
    with pytest.raises(BookError, match="already"):
        begin_session(book, SESSION)
    with pytest.raises(BookError, match="no JSON"):
        append_event(book, "s1", replace(EVENTS[0], detail="{"))
    with pytest.raises(BookError, match="moment is nan"):
        append_event(book, "s1", replace(EVENTS[0], boottime_s=float("nan")))
    assert events_of(book, "s1") == ()


def test_a_second_window_is_told_until_the_first_falls_silent(book: Book) -> None:
    second = replace(LEASE, owner="window 2")
    assert hold_plate(book, LEASE) == LEASE
    assert hold_plate(book, replace(second, boottime_s=1015.0)) == LEASE
    assert hold_plate(book, replace(second, plate="cliffs")).owner == "window 2"
    beat = replace(LEASE, boottime_s=1010.0)
    assert hold_plate(book, beat) == beat
    assert hold_plate(book, replace(second, boottime_s=1020.0)) == beat
    taken = replace(second, boottime_s=1030.0)
    assert hold_plate(book, taken) == taken
    assert hold_plate(book, replace(LEASE, boottime_s=1031.0)) == taken


def test_a_clock_that_is_set_back_keeps_nobody_out(book: Book) -> None:
    hold_plate(book, LEASE)
    back = replace(LEASE, owner="window 2", boottime_s=1005.0, utc_s=LEASE.utc_s - 3600.0)
    assert hold_plate(book, back) == LEASE
    after_restart = replace(back, boot="boot b", boottime_s=3.0)
    assert hold_plate(book, after_restart) == after_restart


def test_a_plate_that_was_let_go_is_free(book: Book) -> None:
    second = replace(LEASE, owner="window 2")
    hold_plate(book, LEASE)
    let_go(book, "boats", "window 2")
    assert hold_plate(book, second) == LEASE
    let_go(book, "boats", "window 1")
    assert hold_plate(book, second) == second


def test_each_event_is_flushed_before_it_is_said_to_be_noted(book: Book) -> None:
    with book.reading() as connection:
        assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)
        assert connection.execute("PRAGMA synchronous").fetchone() == (2,)  # FULL, by its manual


def test_a_book_belongs_to_the_thread_that_opened_it(book: Book) -> None:
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(1) as other, pytest.raises(sqlite3.ProgrammingError):
        other.submit(sessions_of, book, "boats").result()
