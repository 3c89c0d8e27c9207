"""The strips of each bath, kept as the text of their files, so that old ones stay readable."""

import hashlib
import json
from dataclasses import replace
from typing import TYPE_CHECKING

from toneladder.book.baths import kept_bath, require_belongs
from toneladder.book.finding import folded, sought
from toneladder.book.opening import Book
from toneladder.book.rows import values_from
from toneladder.book.values import Bath, FoundStrips, KeptStrip, StripLine
from toneladder.errors import BookError, StripError
from toneladder.quantities import write_day
from toneladder.strip.file import strip_from, strip_text
from toneladder.strip.values import Session, Strip
from toneladder.wording import say

if TYPE_CHECKING:
    import sqlite3

_LINES = """
    SELECT id, bath_id, bitten_on, grained_on, dryness, grain, fineness, temperature_c,
        patches, longest_s, proofs
    FROM strip
    WHERE TRUE
"""

_OF_BATH = """
    AND bath_id = ?
"""

_FOUND = """
    AND (instr(searched, ?) OR bath_id IN (SELECT id FROM bath WHERE instr(folded, ?)))
"""

_NEWEST_FIRST = """
    ORDER BY bitten_on DESC, id DESC LIMIT ? OFFSET ?
"""


def keep_strip(book: Book, bath_id: int, strip: Strip) -> int:
    """Keep a strip of a bath, and return its number; one that is there already stays single.

    Two strips are the same if they were bitten on the same day and all patches of the same pull
    were read alike. What else is noted of the strip is then taken from ``strip``; proofs of both
    are kept.

    Raises
    ------
    RefusedPairError
        If the bath is for another metal or mordant.
    StripError, BookError
        If the strip is out of bounds, or there is no such bath.
    """
    with book.writing() as connection:
        bath = kept_bath(connection, bath_id).bath
        there = same_strip(connection, bath_id, strip)
        if there is None:
            return add_strip(connection, bath_id, bath, strip)
        proofs = united(read_kept(connection, there).proofs, strip.proofs)
        rewrite_strip(connection, there, bath, replace(strip, proofs=proofs))
        return there


def change_strip(book: Book, strip_id: int, strip: Strip) -> None:
    """Keep ``strip`` in the place of what was kept under that number.

    Raises
    ------
    RefusedPairError, StripError, BookError
        As for :func:`keep_strip`; also if it would be the same as another of its bath.
    """
    with book.writing() as connection:
        bath_id = _bath_of(connection, strip_id)
        there = same_strip(connection, bath_id, strip)
        if there is not None and there != strip_id:
            raise BookError(say("This strip is in the studio book already. Nothing was changed."))
        rewrite_strip(connection, strip_id, kept_bath(connection, bath_id).bath, strip)


def add_proof(book: Book, strip_id: int, proof: Session) -> Strip:
    """Add the reading of a plate's proof to a strip, and return the strip as it is now.

    Raises
    ------
    StripError, BookError
        If there is no such strip, or it cannot be read.
    """
    with book.writing() as connection:
        bath_id = _bath_of(connection, strip_id)
        strip = read_kept(connection, strip_id)
        strip = replace(strip, proofs=united(strip.proofs, (proof,)))
        rewrite_strip(connection, strip_id, kept_bath(connection, bath_id).bath, strip)
        return strip


def remove_strip(book: Book, strip_id: int) -> None:
    """Take a strip out of the book; plates that were planned on it keep their own copy.

    Raises
    ------
    BookError
        If there is no such strip.
    """
    with book.writing() as connection:
        _bath_of(connection, strip_id)
        connection.execute("DELETE FROM strip WHERE id = ?", (strip_id,))


def strips_of(book: Book, bath_id: int) -> FoundStrips:
    """The strips of a bath, those without a day first, then the oldest first."""
    with book.reading() as connection:
        return found_strips(connection, bath_id)


def list_strips(
    book: Book, bath_id: int | None = None, words: str = "", *, most: int = 1000, after: int = 0
) -> tuple[StripLine, ...]:
    """Strips as lines of a list, the newest first.

    Parameters
    ----------
    book : Book
    bath_id : int, optional
        Only those of one bath.
    words : str
        Only those in whose bath, ground, days, ink, paper and note every word is found.
    most, after : int
        No more than so many lines, after the first ones of that number.

    Returns
    -------
    Lines; nothing of the strips themselves is read, so that it is quick among thousands.
    """
    baths = () if bath_id is None else (bath_id,)
    looked_for = sought(words)
    with book.reading() as connection:
        rows = connection.execute(
            _LINES + _OF_BATH * len(baths) + _FOUND * len(looked_for) + _NEWEST_FIRST,
            (*baths, *(word for word in looked_for for _ in range(2)), most, after),
        )
        return values_from(rows, StripLine)


def found_strips(connection: "sqlite3.Connection", bath_id: int) -> FoundStrips:
    """As :func:`strips_of`, within an act."""
    bath = kept_bath(connection, bath_id).bath
    numbers = connection.execute(
        "SELECT id FROM strip WHERE bath_id = ? ORDER BY bitten_on, id", (bath_id,)
    )
    strips, unreadable = [], []
    for (number,) in numbers.fetchall():
        try:
            strip = replace(read_kept(connection, number), bath=bath.name)
        except StripError as fault:
            unreadable.append(str(fault))
        else:
            strips.append(KeptStrip(number, bath_id, strip))
    return FoundStrips(tuple(strips), tuple(unreadable))


def same_strip(connection: "sqlite3.Connection", bath_id: int, strip: Strip) -> int | None:
    """The number of the strip of the bath that is the same as ``strip``, within an act."""
    found = connection.execute(
        "SELECT id FROM strip WHERE bath_id = ? AND fingerprint = ?", (bath_id, fingerprint(strip))
    ).fetchone()
    return None if found is None else int(found[0])


def united(proofs: tuple[Session, ...], others: tuple[Session, ...]) -> tuple[Session, ...]:
    """Proofs of both, each once, those of the first before the others."""
    return (*proofs, *(proof for proof in others if proof not in proofs))


def add_strip(connection: "sqlite3.Connection", bath_id: int, bath: Bath, strip: Strip) -> int:
    """Keep a strip that is not in the bath yet, within an act."""
    strip = _belonging(bath, strip)
    added = connection.execute(
        """
        INSERT INTO strip (bath_id, fingerprint, bitten_on, grained_on, dryness, grain, fineness,
            temperature_c, patches, longest_s, proofs, searched)
        VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
        """,
        (bath_id, *_columns(strip)),
    )
    connection.execute(
        "INSERT INTO strip_text (strip_id, text) VALUES (?, ?)",
        (added.lastrowid, strip_text(strip)),
    )
    return int(added.lastrowid or 0)


def rewrite_strip(connection: "sqlite3.Connection", number: int, bath: Bath, strip: Strip) -> None:
    """Keep ``strip`` under a number that is there, within an act."""
    strip = _belonging(bath, strip)
    connection.execute(
        """
        UPDATE strip SET fingerprint = ?, bitten_on = ?, grained_on = ?, dryness = ?, grain = ?,
            fineness = ?, temperature_c = ?, patches = ?, longest_s = ?, proofs = ?, searched = ?
        WHERE id = ?
        """,
        (*_columns(strip), number),
    )
    connection.execute(
        "UPDATE strip_text SET text = ? WHERE strip_id = ?", (strip_text(strip), number)
    )


def read_kept(connection: "sqlite3.Connection", strip_id: int) -> Strip:
    """The strip of that number, within an act.

    Raises
    ------
    StripError
        If it is not the one that was kept, or of a later version.
    """
    found = connection.execute(
        "SELECT fingerprint, bitten_on, text FROM strip LEFT JOIN strip_text ON strip_id = id"
        " WHERE id = ?",
        (strip_id,),
    ).fetchone()
    kept, day, text = found or (None, None, None)
    name = say(
        "The strip of {day} in the studio book", day=write_day(day or "") or say("an unknown day")
    )
    strip = strip_from(text if isinstance(text, str) else "", name)
    if fingerprint(strip) != kept:
        raise StripError(
            say(
                "{name} is damaged: its patches are not those that were kept. It was left as it"
                " is, and no plan stands on it; read the strip again.",
                name=name,
            )
        )
    return strip


def fingerprint(strip: Strip) -> str:
    """What tells a strip from every other: its patches as read, its day, its pull."""
    patches = [
        (float(patch.total_bite_s), float(patch.lightness), float(patch.spread))
        for patch in strip.patches
    ]
    told = json.dumps([patches, strip.bitten_on, strip.pull, strip.dryness.value])
    return hashlib.sha256(told.encode()).hexdigest()


def _belonging(bath: Bath, strip: Strip) -> Strip:
    """The strip with its bath's name, once it is known to belong there and to be readable."""
    require_belongs(bath, strip.conditions)
    return strip_from(strip_text(replace(strip, bath=bath.name)), say("The strip"))


def _columns(strip: Strip) -> tuple[object, ...]:
    conditions = strip.conditions
    return (
        fingerprint(strip),
        strip.bitten_on,
        strip.grained_on,
        strip.dryness,
        conditions.grain,
        conditions.fineness,
        conditions.temperature_c,
        len(strip.patches),
        max(patch.total_bite_s for patch in strip.patches),
        len(strip.proofs),
        folded(
            say(conditions.grain.value),
            say(conditions.fineness.value),
            strip.bitten_on,
            strip.grained_on,
            strip.ink,
            strip.paper,
            strip.note,
        ),
    )


def _bath_of(connection: "sqlite3.Connection", strip_id: int) -> int:
    found = connection.execute("SELECT bath_id FROM strip WHERE id = ?", (strip_id,)).fetchone()
    if found is None:
        raise BookError(say("This strip is not in the studio book any more. Nothing was changed."))
    return int(found[0])
