"""Books of older versions open for ever; they are brought forward whole, after a copy."""

import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from toneladder.bite.values import Fineness, Metal
from toneladder.book.baths import list_baths, use_of
from toneladder.book.migrating import bring_forward
from toneladder.book.opening import open_book
from toneladder.book.plates import list_plates, thumbnail_of
from toneladder.book.prints import proofs_of, pulls_of
from toneladder.book.schema import APPLICATION, STEPS, VERSION
from toneladder.book.strips import strips_of
from toneladder.book.tank_log import events_of, sessions_of
from toneladder.book.values import BathUse, Logged
from toneladder.errors import DamagedBookError

VERSIONS = Path(__file__).parents[2] / "data" / "versions"

FURTHER = (
    "ALTER TABLE bath ADD COLUMN shelf TEXT NOT NULL DEFAULT ''",
    "UPDATE bath SET shelf = 'by ' || name",
)
BROKEN = ("ALTER TABLE bath ADD COLUMN shelf TEXT NOT NULL DEFAULT ''", "DROP TABLE no_such_table")


@pytest.fixture(params=range(1, VERSION + 1))
def old(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    """A book as that version of the program left it."""
    path = tmp_path / "book.sqlite"
    shutil.copy(VERSIONS / f"book_{request.param}.sqlite", path)
    return path


@pytest.fixture
def connection(old: Path) -> Iterator[sqlite3.Connection]:
    with closing(sqlite3.connect(old, isolation_level=None)) as opened:
        yield opened


def versions(connection: sqlite3.Connection) -> tuple[int, int]:
    return (
        connection.execute("PRAGMA application_id").fetchone()[0],
        connection.execute("PRAGMA user_version").fetchone()[0],
    )


def test_an_old_book_opens_and_means_what_it_meant(old: Path) -> None:
    with open_book(old) as book:
        (kept,) = list_baths(book)
        assert (kept.bath.name, kept.bath.metal, kept.bath.litres) == (
            "Große Wanne",
            "copper",
            12.5,
        )
        assert use_of(book, kept.id) == BathUse(1, 1, 1.75)
        (strip,) = strips_of(book, kept.id).strips
        assert strip.strip.conditions.fineness is Fineness.FINE
        assert [patch.lightness for patch in strip.strip.patches] == [91.0, 82.5, 19.0]
        assert strip.strip.proofs[0].name == "boats"
        (plate,) = list_plates(book, "étaples")
        assert (plate.plate.metal, plate.plate.tones, plate.best_miss) == (Metal.COPPER, 5, 1.25)
        assert thumbnail_of(book, "boats").startswith(b"\x89PNG")
        assert proofs_of(book, "boats")[0].proof.reading == '{"tones": []}'
        assert pulls_of(book, "boats")[0].pull.number == 3
        (session,) = sessions_of(book, "boats")
        assert events_of(book, session.identity) == (
            Logged(0, "started", 1000.0, 1_700_000_010.0, "boot a"),
            Logged(1, "lifted", 1075.5, 1_700_000_085.5, "boot a", '{"seconds": 0.5}'),
        )


def test_a_further_step_is_taken_after_a_copy_was_made(
    old: Path, connection: sqlite3.Connection
) -> None:
    copy = bring_forward(old, connection, (*STEPS, FURTHER))
    assert versions(connection) == (APPLICATION, VERSION + 1)
    assert connection.execute("SELECT shelf FROM bath").fetchall() == [("by Große Wanne",)]
    assert copy == old.with_name(f"book as version {VERSION}.sqlite")
    with open_book(copy) as kept:
        assert [one.bath.name for one in list_baths(kept)] == ["Große Wanne"]
    assert bring_forward(old, connection, (*STEPS, FURTHER)) is None


def test_a_step_that_fails_leaves_the_book_as_it_was(
    old: Path, connection: sqlite3.Connection
) -> None:
    for steps in ((*STEPS, BROKEN), (*STEPS, FURTHER, BROKEN)):
        with pytest.raises(sqlite3.OperationalError):
            bring_forward(old, connection, steps)
        assert versions(connection) == (APPLICATION, VERSION)
        with open_book(old) as book:
            assert [one.bath.name for one in list_baths(book)] == ["Große Wanne"]


def test_of_two_programs_one_brings_the_book_forward(
    old: Path, connection: sqlite3.Connection
) -> None:
    with closing(sqlite3.connect(old, isolation_level=None)) as other:
        other.execute("SELECT count(*) FROM bath").fetchone()
        assert bring_forward(old, connection, (*STEPS, FURTHER)) is not None
        assert bring_forward(old, other, (*STEPS, FURTHER)) is None
        assert other.execute("SELECT shelf FROM bath").fetchall() == [("by Große Wanne",)]
    assert len(list(old.parent.glob("*as version*.sqlite"))) == 1


def test_a_damaged_book_is_not_brought_forward(old: Path) -> None:
    data = bytearray(old.read_bytes())
    size = int.from_bytes(data[16:18], "big")  # of a page: the file format in SQLite's manual
    for page in range(2, len(data) // size):
        data[page * size : page * size + 40] = b"\xff" * 40
    old.write_bytes(data)
    with closing(sqlite3.connect(old, isolation_level=None)) as connection:
        with pytest.raises((DamagedBookError, sqlite3.DatabaseError)):
            bring_forward(old, connection, (*STEPS, FURTHER))
        assert versions(connection) == (APPLICATION, VERSION)
    assert old.read_bytes() == bytes(data)
