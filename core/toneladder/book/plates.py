"""The plates of the studio: where each lies, what it looks like, and what a search finds it by."""

from dataclasses import astuple
from typing import TYPE_CHECKING

from toneladder.book.finding import folded, sought
from toneladder.book.limits import plate_faults, require
from toneladder.book.opening import Book
from toneladder.book.rows import values_from
from toneladder.book.values import KeptPlate, PlateEntry
from toneladder.errors import BookError
from toneladder.wording import say

if TYPE_CHECKING:
    import sqlite3

_PLATES = """
    SELECT (SELECT miss FROM proof WHERE plate_id = plate.id AND best),
        identity, title, path, saved_utc_s, metal, tones, bath, paper, ink, record
    FROM plate
    WHERE TRUE
"""

_FOUND = """
    AND (instr(searched, ?) OR EXISTS (
        SELECT 1 FROM pull WHERE plate_id = plate.id AND instr(pull.searched, ?)))
"""

_LAST_FIRST = """
    ORDER BY saved_utc_s DESC, id LIMIT ? OFFSET ?
"""


def keep_plate(book: Book, plate: PlateEntry, thumbnail: bytes = b"") -> None:
    """Keep what is known of a plate, in the place of what was known before.

    Parameters
    ----------
    book : Book
    plate : PlateEntry
    thumbnail : bytes
        A small PNG; without one the picture that was kept before stays.

    Raises
    ------
    BookError
        If anything in it is out of bounds.
    """
    require(plate_faults(plate, thumbnail))
    searched = folded(
        plate.title, say(plate.metal.value), plate.bath, plate.paper, plate.ink, plate.record
    )
    with book.writing() as connection:
        connection.execute(
            """
            INSERT INTO plate (identity, title, path, saved_utc_s, metal, tones, bath, paper, ink,
                record, searched)
            VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
            ON CONFLICT (identity) DO UPDATE SET title = excluded.title, path = excluded.path,
                saved_utc_s = excluded.saved_utc_s, metal = excluded.metal,
                tones = excluded.tones, bath = excluded.bath, paper = excluded.paper,
                ink = excluded.ink, record = excluded.record, searched = excluded.searched
            """,
            (*astuple(plate), searched),
        )
        if thumbnail:
            connection.execute(
                "INSERT OR REPLACE INTO thumbnail (plate_id, png) VALUES (?, ?)",
                (plate_number(connection, plate.identity), thumbnail),
            )


def list_plates(
    book: Book, words: str = "", *, most: int = 1000, after: int = 0
) -> tuple[KeptPlate, ...]:
    """Plates, the last saved first.

    Parameters
    ----------
    book : Book
    words : str
        Only plates in whose title, metal, bath, paper, ink, record and prints every word is
        found, with or without capitals.
    most, after : int
        No more than so many plates, after the first ones of that number.
    """
    looked_for = sought(words)
    with book.reading() as connection:
        rows = connection.execute(
            _PLATES + _FOUND * len(looked_for) + _LAST_FIRST,
            (*(word for word in looked_for for _ in range(2)), most, after),
        )
        return _kept(rows.fetchall())


def plate_of(book: Book, identity: str) -> KeptPlate | None:
    """What is known of one plate; None if the book does not know it."""
    with book.reading() as connection:
        rows = connection.execute(_PLATES + "AND identity = ?", (identity,))
        return next(iter(_kept(rows.fetchall())), None)


def thumbnail_of(book: Book, identity: str) -> bytes:
    """The small picture (PNG) of a plate, or nothing."""
    with book.reading() as connection:
        found = connection.execute(
            "SELECT png FROM thumbnail JOIN plate ON plate.id = plate_id WHERE identity = ?",
            (identity,),
        ).fetchone()
        return bytes(found[0]) if found and isinstance(found[0], bytes) else b""


def forget_plate(book: Book, identity: str) -> None:
    """Take a plate out of the list, with its proofs and prints.

    The plate's file, its bath's strips and what happened at the tank stay as they are.

    Raises
    ------
    BookError
        If the book does not know it.
    """
    with book.writing() as connection:
        number = plate_number(connection, identity)
        connection.execute("DELETE FROM plate WHERE id = ?", (number,))


def plate_number(connection: "sqlite3.Connection", identity: str) -> int:
    """The number of a plate, within an act.

    Raises
    ------
    BookError
        If the book does not know it.
    """
    found = connection.execute("SELECT id FROM plate WHERE identity = ?", (identity,)).fetchone()
    if found is None:
        raise BookError(
            say("The studio book does not know this plate yet. Save the plate, then try again.")
        )
    return int(found[0])


def _kept(rows: list[tuple[object, ...]]) -> tuple[KeptPlate, ...]:
    plates = values_from([row[1:] for row in rows], PlateEntry)
    return tuple(
        KeptPlate(plate, row[0] if isinstance(row[0], float) else None)
        for row, plate in zip(rows, plates, strict=True)
    )
