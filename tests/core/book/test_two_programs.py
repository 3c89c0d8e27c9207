"""Two programs write into one book at once, and neither loses anything."""

import os
import sqlite3
import subprocess
import sys
import threading
from functools import partial
from pathlib import Path

import pytest

from toneladder.bite.values import Metal
from toneladder.book.opening import open_book
from toneladder.book.plates import keep_plate, list_plates
from toneladder.book.schema import VERSION
from toneladder.book.tank_log import append_event, begin_session, events_of
from toneladder.book.values import Logged, PlateEntry, TankSession

ROOT = Path(__file__).parents[3]
ROWS = 200

WRITER = """
import sys
from pathlib import Path
from toneladder.bite.values import Metal
from toneladder.book.opening import open_book
from toneladder.book.plates import keep_plate
from toneladder.book.tank_log import append_event, begin_session
from toneladder.book.values import Logged, PlateEntry, TankSession

path, name, rows = Path(sys.argv[1]), sys.argv[2], int(sys.argv[3])
sys.stdin.readline()
with open_book(path, patience_s=60.0) as book:
    begin_session(book, TankSession(name, "boats", 0.0, "{}"))
    for n in range(rows):
        append_event(book, name, Logged(n, "note", float(n), 0.0))
        keep_plate(book, PlateEntry(f"{name} {n}", "t", "p", 0.0, Metal.ZINC, 3))
"""


def test_two_programs_at_once_lose_nothing(path: Path) -> None:
    writers = [
        subprocess.Popen(
            [sys.executable, "-c", WRITER, path, name, str(ROWS)],
            stdin=subprocess.PIPE,
            env=os.environ | {"PYTHONPATH": str(ROOT / "core")},
        )
        for name in ("one", "two")
    ]
    for writer in writers:
        assert writer.stdin is not None
        writer.stdin.write(b"go\n")
        writer.stdin.flush()
    for writer in writers:
        writer.communicate(timeout=120)
        assert writer.returncode == 0
    with open_book(path) as book:
        for name in ("one", "two"):
            assert [event.number for event in events_of(book, name)] == list(range(ROWS))
        assert len(list_plates(book)) == 2 * ROWS


def test_the_tanks_thread_and_the_windows_thread_write_side_by_side(path: Path) -> None:
    rows = 60
    with open_book(path, patience_s=60.0) as window:
        begin_session(window, TankSession("s", "boats", 0.0, "{}"))

        def stand_at_the_tank() -> None:
            with open_book(path, patience_s=60.0) as tank:
                for number in range(rows):
                    append_event(tank, "s", Logged(number, "note", float(number), 0.0))

        thread = threading.Thread(target=stand_at_the_tank)
        thread.start()
        for number in range(rows):
            keep_plate(window, PlateEntry(str(number), "t", "p", 0.0, Metal.ZINC, 3))
        thread.join()
        assert len(events_of(window, "s")) == rows
        assert len(list_plates(window)) == rows


def test_many_programs_begin_one_book(path: Path) -> None:
    faults: list[Exception] = []
    ready = threading.Barrier(6)

    def begin() -> None:
        ready.wait()
        try:
            open_book(path, patience_s=60.0).close()
        except Exception as fault:  # noqa: BLE001  (whatever it is, the test tells)
            faults.append(fault)

    threads = [threading.Thread(target=begin) for _ in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert faults == []
    with open_book(path) as book, book.reading() as connection:
        assert connection.execute("PRAGMA user_version").fetchone() == (VERSION,)


def test_a_book_that_another_program_begins_at_this_moment_is_no_strange_file(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    others: list[threading.Thread] = []

    class Watched(sqlite3.Connection):
        def execute(self, words: str, *values: object) -> sqlite3.Cursor:
            if words == "PRAGMA user_version" and not others:  # half the heading is read
                others.append(threading.Thread(target=lambda: open_book(path).close()))
                others[0].start()
                others[0].join(0.5)
            return super().execute(words, *values)  # type: ignore[arg-type] # as it was given

    connect = sqlite3.connect
    monkeypatch.setattr(sqlite3, "connect", partial(connect, factory=Watched))
    open_book(path, patience_s=60.0).close()
    others[0].join()
