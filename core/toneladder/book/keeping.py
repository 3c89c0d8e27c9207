"""Copies of the studio book, whether it is sound, and what to do with one that is not."""

from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

from toneladder.book import trouble
from toneladder.wording import say
from toneladder.writing import said_plainly, settle, take_over, true_place

if TYPE_CHECKING:
    import sqlite3


def copy_book(path: Path, to: Path) -> None:
    """A copy of the book at ``path``, also while somebody writes in it; whole or not at all.

    Raises
    ------
    BookError, OutputError
        If the book cannot be read, or the copy not be written.
    """
    import sqlite3

    with trouble.told(path), said_plainly(to):
        place = true_place(to)
        unfinished = place.with_name(f".{place.name}-unfinished")
        try:
            with (
                closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True)) as book,
                closing(sqlite3.connect(unfinished)) as copy,
            ):
                book.backup(copy)
            take_over(place, unfinished)
            unfinished.replace(place)
        except BaseException:
            unfinished.unlink(missing_ok=True)
            raise
        settle(place.parent)


def require_sound(path: Path, connection: "sqlite3.Connection") -> None:
    """Look through the whole book at ``path``.

    Raises
    ------
    DamagedBookError
        If it is damaged; the sentence says what can be done.
    """
    (found,) = connection.execute("PRAGMA quick_check(1)").fetchone()
    if found != "ok":
        raise trouble.damaged(path, " ".join(str(found).split()))


def set_aside(path: Path, today: str) -> Path:
    """Give a damaged book another name, so that a fresh one can be begun in its place.

    Parameters
    ----------
    path : Path
        The book; nobody may have it open.
    today : str
        The day, ``YYYY-MM-DD``, which goes into the name.

    Returns
    -------
    Where it lies now, with all that belongs to it.

    Raises
    ------
    BookError
        If it cannot be renamed. Nothing of it is lost; ask again when nobody has it open.
    """
    aside = free_name(path, say("set aside {day}", day=today))
    with trouble.told(path):
        # The logs go first: beside a fresh book they would be taken for its own.
        for ending in ("-wal", "-journal", "-shm", ""):
            part = path.with_name(path.name + ending)
            if part.exists():
                part.rename(aside.with_name(aside.name + ending))
    return aside


def free_name(path: Path, words: str) -> Path:
    """A name like that of ``path`` with ``words`` in it, which no file bears yet."""
    free = path.with_name(f"{path.stem} {words}{path.suffix}")
    number = 2
    while free.exists():
        free = path.with_name(f"{path.stem} {words} {number}{path.suffix}")
        number += 1
    return free
