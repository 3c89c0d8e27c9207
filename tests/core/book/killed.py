"""Kills a writer at random moments and looks for what is missing:

python -m tests.core.book.killed 200
"""

import os
import random
import shutil
import signal
import sys
import tempfile
import time
from contextlib import suppress
from pathlib import Path

from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.book.baths import bath_called, begin_bath, list_baths, note_use, use_of
from toneladder.book.opening import Book, open_book
from toneladder.book.plates import keep_plate, list_plates, thumbnail_of
from toneladder.book.strips import keep_strip, strips_of
from toneladder.book.tank_log import append_event, begin_session, events_of, sessions_of
from toneladder.book.values import Bath, Bitten, Logged, PlateEntry, TankSession, Use
from toneladder.strip.values import Patch, Strip

ROUNDS_OF_A_BOOK = 10
LONGEST_S = 0.12
ACTS = 4


def picture(number: int) -> bytes:
    return b"\x89PNG\r\n\x1a\n" + bytes(number % 256 for _ in range(9000))


def strip(number: int) -> Strip:
    return Strip(Conditions(), (Patch(0.0, 91.0), Patch(60.0 + number, 40.0)), note=str(number))


def event(number: int) -> Logged:
    return Logged(number, "note", float(number), 2.0 * number, "boot")


def prepare(book: Book) -> int:
    """The bath's number, once bath and session are there."""
    if not sessions_of(book, "boats"):
        begin_session(book, TankSession("session", "boats", 0.0, "{}"))
    kept = bath_called(book, "Tall")
    return (
        kept.id if kept else begin_bath(book, Bath("Tall", Metal.COPPER, Mordant.FERRIC_CHLORIDE))
    )


def act(book: Book, bath: int, number: int) -> None:
    """The act of that number, the same whoever does it."""
    which, of = number % ACTS, number // ACTS
    if which == 0:
        append_event(book, "session", event(of))
    elif which == 1:
        keep_strip(book, bath, strip(of))
    elif which == 2:
        plate = PlateEntry(str(of), "Boats", "/boats.plate", 1.0, Metal.COPPER, 5)
        keep_plate(book, plate, picture(of))
    else:
        note_use(book, bath, Conditions(), Use(Bitten.PLATE, str(of), metal_g=1.0))


def write_on(path: Path, done: int, telling: int) -> None:
    """Do one act after another, and tell of each that is done, until killed."""
    with open_book(path, patience_s=60.0) as book:
        bath = prepare(book)
        for number in range(done, done + 100_000):
            act(book, bath, number)
            os.write(telling, b".")


def kill_one(path: Path, done: int, after_s: float) -> int:
    """Acts done in all, once another writer was killed."""
    heard, telling = os.pipe()
    writer = os.fork()
    if writer == 0:
        try:
            write_on(path, done, telling)
        finally:
            os._exit(1)
    os.close(telling)
    time.sleep(after_s)
    os.kill(writer, signal.SIGKILL)
    _, status = os.waitpid(writer, 0)
    if not os.WIFSIGNALED(status):
        raise RuntimeError
    with os.fdopen(heard, "rb") as pipe:
        return done + len(pipe.read())


def found(path: Path, done: int) -> int:
    """How many acts are in the book, which must be all of ``done`` and one more at most.

    Raises
    ------
    AssertionError
        If something is missing, there by halves, or there without having been done.
    """
    with open_book(path) as book:
        with book.reading() as connection:
            _require(connection.execute("PRAGMA integrity_check").fetchone() == ("ok",))
        baths = list_baths(book)
        events = events_of(book, "session")
        found_strips = strips_of(book, baths[0].id) if baths else None
        strips = found_strips.strips if found_strips else ()
        plates = {one.plate.identity for one in list_plates(book)}
        used = use_of(book, baths[0].id).plates if baths else 0
        _require(events == tuple(event(number) for number in range(len(events))))
        _require(not (found_strips and found_strips.unreadable))
        _require([one.strip.note for one in strips] == [str(n) for n in range(len(strips))])
        _require(plates == {str(number) for number in range(len(plates))})
        _require(all(thumbnail_of(book, one) == picture(int(one)) for one in plates))
    counts = (len(events), len(strips), len(plates), used)
    in_book = sum(counts)
    _require(counts == tuple((in_book - which + ACTS - 1) // ACTS for which in range(ACTS)))
    _require(done <= in_book <= done + 1)
    return in_book


def _load_everything(path: Path) -> None:
    """Do each act once, so that a writer's time is spent on writing."""
    with open_book(path) as book:
        bath = prepare(book)
        for number in range(ACTS):
            act(book, bath, number)


def _require(truth: bool) -> None:
    if not truth:
        raise AssertionError


def kill(times: int, seed: int) -> tuple[int, int]:
    """Kill writers ``times`` times; acts done, and acts done but not told of."""
    chance = random.Random(seed)  # noqa: S311  (a seeded trial, no secret)
    total = untold = done = 0
    folder = Path(tempfile.mkdtemp())
    try:
        _load_everything(folder / "first.sqlite")
        for turn in range(times):
            path = folder / f"book {turn // ROUNDS_OF_A_BOOK}.sqlite"
            if turn % ROUNDS_OF_A_BOOK == 0:
                total, done = total + done, 0
            told = kill_one(path, done, chance.uniform(0.0, LONGEST_S))
            done = found(path, told)
            untold += done - told
    finally:
        with suppress(OSError):
            shutil.rmtree(folder)
    return total + done, untold


if __name__ == "__main__":
    times = int(sys.argv[1])
    acts, untold = kill(times, seed=int(sys.argv[2]) if len(sys.argv) > 2 else 1)
    sys.stdout.write(f"killed {times} times: {acts} acts done, none lost; {untold} untold\n")
