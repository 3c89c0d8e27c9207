"""Brings an older studio book forward, step by step, after a copy of it was made."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from toneladder.book.keeping import copy_book, free_name, require_sound
from toneladder.book.schema import APPLICATION
from toneladder.wording import say

if TYPE_CHECKING:
    import sqlite3


def bring_forward(
    path: Path, connection: "sqlite3.Connection", steps: Sequence[Sequence[str]]
) -> Path | None:
    """Make the book what ``steps`` make of it, all of them or none.

    Parameters
    ----------
    path : Path
        Where the book lies.
    connection : Connection
        To that book, with no act begun.
    steps : sequence
        Statements of each step from the beginning; a book of version n has had the first n.

    Returns
    -------
    The copy that was made of an older book; None if it was new, or already there.

    Raises
    ------
    DamagedBookError
        If the older book is damaged, and so is not brought forward.
    """
    if _version(connection) >= len(steps):
        return None
    connection.execute("BEGIN IMMEDIATE")
    try:
        have = _version(connection)
        copy = None
        if 0 < have < len(steps):
            require_sound(path, connection)
            copy = free_name(path, say("as version {n}", n=have))
            copy_book(path, copy)
        for step in steps[have:]:
            for statement in step:
                connection.execute(statement)
        connection.execute(f"PRAGMA application_id = {APPLICATION}")
        connection.execute(f"PRAGMA user_version = {max(have, len(steps))}")
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise
    return copy


def _version(connection: "sqlite3.Connection") -> int:
    return int(connection.execute("PRAGMA user_version").fetchone()[0])
