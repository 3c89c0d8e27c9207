"""What was pulled from each plate: proofs that were read, prints with paper and ink."""

from dataclasses import astuple

from toneladder.book.finding import folded
from toneladder.book.limits import proof_faults, pull_faults, require
from toneladder.book.opening import Book
from toneladder.book.plates import plate_number
from toneladder.book.rows import numbered
from toneladder.book.values import KeptProof, KeptPull, ProofReading, Pull
from toneladder.errors import BookError
from toneladder.wording import say


def keep_proof(book: Book, identity: str, proof: ProofReading) -> int:
    """Keep the reading of a proof of the plate of that identity, and return its number.

    Raises
    ------
    BookError
        If the book does not know the plate, or the reading is out of bounds.
    """
    require(proof_faults(proof))
    with book.writing() as connection:
        added = connection.execute(
            """
            INSERT INTO proof (plate_id, pulled_on, pull, miss, reading, dryness, means, scan, note)
            VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)
            """,
            (plate_number(connection, identity), *astuple(proof)),
        )
        return int(added.lastrowid or 0)


def choose_best(book: Book, proof_id: int) -> None:
    """Say that a proof is the best of its plate; none but it is.

    Raises
    ------
    BookError
        If there is no such proof.
    """
    with book.writing() as connection:
        connection.execute(
            "UPDATE proof SET best = 0 WHERE plate_id = (SELECT plate_id FROM proof WHERE id = ?)",
            (proof_id,),
        )
        found = connection.execute("UPDATE proof SET best = 1 WHERE id = ?", (proof_id,))
        _require_found(found.rowcount)


def proofs_of(book: Book, identity: str) -> tuple[KeptProof, ...]:
    """The proofs of a plate in the order they were kept."""
    with book.reading() as connection:
        rows = connection.execute(
            """
            SELECT proof.id, best, pulled_on, pull, miss, reading, dryness, means, scan, note
            FROM proof JOIN plate ON plate.id = plate_id WHERE identity = ? ORDER BY proof.id
            """,
            (identity,),
        )
        return tuple(
            KeptProof(number, bool(best), proof)
            for (number, best), proof in numbered(rows, ProofReading, before=2)
        )


def remove_proof(book: Book, proof_id: int) -> None:
    """Take the reading of a proof out of the book.

    Raises
    ------
    BookError
        If there is no such proof.
    """
    with book.writing() as connection:
        _require_found(connection.execute("DELETE FROM proof WHERE id = ?", (proof_id,)).rowcount)


def keep_pull(book: Book, identity: str, pull: Pull) -> int:
    """Keep a print of the plate of that identity, and return its number.

    Raises
    ------
    BookError
        If the book does not know the plate, or the print is out of bounds.
    """
    require(pull_faults(pull))
    with book.writing() as connection:
        added = connection.execute(
            """
            INSERT INTO pull (plate_id, pulled_on, kind, number, edition, paper, ink, note,
                searched)
            VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)
            """,
            (plate_number(connection, identity), *astuple(pull), _searched(pull)),
        )
        return int(added.lastrowid or 0)


def change_pull(book: Book, pull_id: int, pull: Pull) -> None:
    """Keep ``pull`` in the place of what was kept under that number.

    Raises
    ------
    BookError
        If there is no such print, or it is out of bounds.
    """
    require(pull_faults(pull))
    with book.writing() as connection:
        found = connection.execute(
            """
            UPDATE pull SET pulled_on = ?, kind = ?, number = ?, edition = ?, paper = ?, ink = ?,
                note = ?, searched = ?
            WHERE id = ?
            """,
            (*astuple(pull), _searched(pull), pull_id),
        )
        _require_found(found.rowcount)


def pulls_of(book: Book, identity: str) -> tuple[KeptPull, ...]:
    """The prints of a plate, the oldest first."""
    with book.reading() as connection:
        rows = connection.execute(
            """
            SELECT pull.id, pulled_on, kind, number, edition, pull.paper, pull.ink, note
            FROM pull JOIN plate ON plate.id = plate_id WHERE identity = ?
            ORDER BY pulled_on, pull.id
            """,
            (identity,),
        )
        return tuple(KeptPull(number, pull) for (number,), pull in numbered(rows, Pull))


def remove_pull(book: Book, pull_id: int) -> None:
    """Take a print out of the book.

    Raises
    ------
    BookError
        If there is no such print.
    """
    with book.writing() as connection:
        _require_found(connection.execute("DELETE FROM pull WHERE id = ?", (pull_id,)).rowcount)


def _searched(pull: Pull) -> str:
    return folded(say(pull.kind.value), pull.paper, pull.ink, pull.note)


def _require_found(rows: int) -> None:
    if not rows:
        raise BookError(say("This print is not in the studio book any more. Nothing was changed."))
