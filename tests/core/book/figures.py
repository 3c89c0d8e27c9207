"""How long a well filled book takes to open, to list and to search:

python -m tests.core.book.figures
"""

import random
import sys
import tempfile
import time
from collections.abc import Callable
from itertools import count
from pathlib import Path

from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.book.baths import begin_bath, kept_bath
from toneladder.book.keeping import copy_book, require_sound
from toneladder.book.opening import Book, open_book
from toneladder.book.plates import keep_plate, list_plates, thumbnail_of
from toneladder.book.strips import add_strip, list_strips, strips_of
from toneladder.book.tank_log import append_event, begin_session
from toneladder.book.values import Bath, Logged, PlateEntry, TankSession
from toneladder.strip.values import Patch, Strip

BATHS, STRIPS, PLATES = 40, 20_000, 5_000
TRIES = 15


def fill(
    book: Book, chance: random.Random, strips: int = STRIPS, plates: int = PLATES
) -> list[int]:
    """Numbers of the baths of a studio that has worked for some lifetimes."""
    baths = [
        begin_bath(book, Bath(f"Große Wanne {n}", Metal.COPPER, Mordant.FERRIC_CHLORIDE))
        for n in range(BATHS)
    ]
    with book.writing() as connection:
        for number in range(strips):
            bath_id = baths[number % BATHS]
            bath = kept_bath(connection, bath_id).bath
            add_strip(connection, bath_id, bath, _strip(number, chance))
    png = b"\x89PNG\r\n\x1a\n" + chance.randbytes(12_000)
    for number in range(plates):
        plate = PlateEntry(
            str(number),
            f"Boats at Étaples {number}",
            f"/plates/{number}.plate",
            float(number),
            Metal.COPPER,
            5,
            f"Große Wanne {number % BATHS}",
            "cream rag",
            f"black {number % 9}",
            "calm sea, low sun " * 10,
        )
        keep_plate(book, plate, png)
    begin_session(book, TankSession("session", "boats", 0.0, "{}"))
    return baths


def _strip(number: int, chance: random.Random) -> Strip:
    patches = tuple(Patch(15.0 * 1.5**n, 100.0 * chance.random()) for n in range(16))
    day = f"{2000 + number % 25}-{1 + number % 12:02}-{1 + number % 28:02}"
    note = f"strip {number}: the foot went in first, the étang was calm"
    return Strip(Conditions(), patches, bitten_on=day, ink=f"Schwärze {number % 7}", note=note)


def measure(path: Path) -> None:
    """Fill a book and print a line for each thing that is done with it."""
    with open_book(path) as book:
        baths = fill(book, random.Random(1))  # noqa: S311  (a seeded trial, no secret)
        events = count()

        def append() -> None:
            append_event(book, "session", Logged(next(events), "note", 1.0, 2.0))

        def look_through() -> None:
            with book.reading() as connection:
                require_sound(path, connection)

        acts: dict[str, Callable[[], object]] = {
            "open it": lambda: open_book(path).close(),
            "plates, last saved 1,000": lambda: list_plates(book),
            "plates, all 5,000": lambda: list_plates(book, most=PLATES),
            "plates, three words": lambda: list_plates(book, "étaples 77 RAG"),
            "plates, nothing found": lambda: list_plates(book, "100%"),
            "a small picture": lambda: thumbnail_of(book, "77"),
            "strips, newest 1,000": lambda: list_strips(book),
            "strips, a bath's 500": lambda: list_strips(book, baths[3]),
            "strips, two words": lambda: list_strips(book, words="ÉTANG 1777"),
            "strips, nothing found": lambda: list_strips(book, words="zinc"),
            "strips, all 20,000": lambda: list_strips(book, most=STRIPS),
            "a bath's 500 strips, read": lambda: strips_of(book, baths[3]),
            "an event, on the disk": append,
            "looked through": look_through,
            "copied": lambda: copy_book(path, path.with_name("copy.sqlite")),
        }
        say(f"{path.stat().st_size / 1e6:.0f} MB; milliseconds, best and middle of {TRIES}")
        for name, act in acts.items():
            times = sorted(_milliseconds(act) for _ in range(TRIES))
            say(f"  {name:28s} {times[0]:7.1f} {times[TRIES // 2]:7.1f}")


def _milliseconds(act: Callable[[], object]) -> float:
    begun = time.perf_counter()
    act()
    return 1000.0 * (time.perf_counter() - begun)


def say(line: str) -> None:
    sys.stdout.write(line + "\n")


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as folder:
        measure(Path(folder) / "book.sqlite")
