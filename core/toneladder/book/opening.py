"""Opens the studio book, and is the one way to read and write in it.

A :class:`Book` is one connection and belongs to the thread that opened it; any other thread
opens the book for itself, which is cheap. Each act is whole: it is in the book, on the disk, when
the function that does it returns, or nothing of it is.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, Self

from toneladder.book import trouble
from toneladder.book.migrating import bring_forward
from toneladder.book.network import on_a_network
from toneladder.book.schema import APPLICATION, STEPS, VERSION
from toneladder.errors import BookError
from toneladder.wording import say

if TYPE_CHECKING:
    import sqlite3

FILE_NAME = "studio-book.sqlite"
PATIENCE_S = 5.0

_TRIES = 5


class Book:
    """An open studio book.

    ``older_copy`` is where the book lies as it was, if opening brought it forward; else None.
    """

    def __init__(
        self, path: Path, connection: "sqlite3.Connection", older_copy: Path | None = None
    ) -> None:
        self.path = path
        self.older_copy = older_copy
        self._connection = connection

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        fault: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def close(self) -> None:
        """Let go of the file."""
        self._connection.close()

    @contextmanager
    def reading(self) -> Iterator["sqlite3.Connection"]:
        """One look at the book, in which nobody else's writing is seen half done."""
        with self._act("BEGIN") as connection:
            yield connection

    @contextmanager
    def writing(self) -> Iterator["sqlite3.Connection"]:
        """One act: on the disk when the block ends, or not at all if it raises."""
        with self._act("BEGIN IMMEDIATE") as connection:
            yield connection

    @contextmanager
    def _act(self, begin: str) -> Iterator["sqlite3.Connection"]:
        connection = self._connection
        with trouble.told(self.path):
            connection.execute(begin)
            try:
                _require_ours(self.path, connection)
                yield connection
                connection.execute("COMMIT")
            except BaseException:
                if connection.in_transaction:
                    connection.execute("ROLLBACK")
                raise


def open_book(path: Path, *, patience_s: float = PATIENCE_S) -> Book:
    """The studio book at ``path``; a new one if there is none.

    Parameters
    ----------
    path : Path
        The file; missing folders are made.
    patience_s : float
        How long an act waits for another program that is writing, seconds.

    Raises
    ------
    DamagedBookError
        If the file is damaged; see :func:`toneladder.book.keeping.set_aside`.
    BookError
        If it is from a later version, is no studio book, or cannot be opened. The file is left
        as it was.
    """
    with trouble.told(path):
        path.parent.mkdir(parents=True, exist_ok=True)
        connection = _connected(path, patience_s)
        try:
            _require_known(path, connection)
            _settle_journal(path, connection)
            older_copy = bring_forward(path, connection, STEPS)
            _require_ours(path, connection)
        except BaseException:
            connection.close()
            raise
    return Book(path, connection, older_copy)


def _connected(path: Path, patience_s: float) -> "sqlite3.Connection":
    """A connection that has read the file's heading once."""
    import sqlite3

    try:
        return _tried(str(path.absolute()), patience_s)
    except sqlite3.OperationalError as fault:
        log = path.with_name(path.name + "-wal")
        resting = path.exists() and not (log.exists() and log.stat().st_size)
        if not (trouble.is_unwritable(fault) and resting):
            raise
        # A folder that may only be read has no room for the log, and there is none: nobody writes.
        return _tried(f"{path.absolute().as_uri()}?immutable=1", patience_s)


def _tried(place: str, patience_s: float) -> "sqlite3.Connection":
    import sqlite3

    connection = sqlite3.connect(
        place, timeout=patience_s, isolation_level=None, uri=place.startswith("file:")
    )
    try:
        connection.execute("PRAGMA foreign_keys = ON")
        connection.execute("PRAGMA trusted_schema = OFF")
        connection.execute("PRAGMA cell_size_check = ON")
        connection.execute("PRAGMA fullfsync = ON")
        connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
    except BaseException:
        connection.close()
        raise
    return connection


def _require_known(path: Path, connection: "sqlite3.Connection") -> None:
    """Refuse what is no studio book, or one of a later version."""
    connection.execute("BEGIN")  # one look: another program may be beginning the book right now
    try:
        (tables,) = connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
        (kind,) = connection.execute("PRAGMA application_id").fetchone()
        (version,) = connection.execute("PRAGMA user_version").fetchone()
    finally:
        connection.execute("COMMIT")
    if kind != APPLICATION and (kind, version, tables) != (0, 0, 0):
        raise BookError(
            say(
                "“{name}” is no studio book, but something else. It was left as it is; choose"
                " another file.",
                name=path.name,
            )
        )
    if version > VERSION:
        raise _later(path, version)
    if kind == APPLICATION and version < 1:
        raise trouble.damaged(path, say("its version is {version}", version=version))


def _require_ours(path: Path, connection: "sqlite3.Connection") -> None:
    """Refuse a book that another program has brought forward since it was opened."""
    (version,) = connection.execute("PRAGMA user_version").fetchone()
    if version > VERSION:
        raise _later(path, version)
    if version != VERSION:
        raise trouble.damaged(path, say("its version is {version}", version=version))


def _later(path: Path, version: int) -> BookError:
    return BookError(
        say(
            "The studio book “{name}” was kept by a later version of Tone Ladder (version {theirs}"
            " of the book, this one knows up to {ours}). It was left as it is; open it with the"
            " newer program.",
            name=path.name,
            theirs=version,
            ours=VERSION,
        )
    )


def _settle_journal(path: Path, connection: "sqlite3.Connection") -> None:
    """A log beside the book where programs share a machine, a rollback journal where not."""
    found = _changed_journal(connection, "delete" if on_a_network(path) else "wal")
    # A log is complete once it is flushed; a journal once its folder is flushed as well.
    connection.execute(f"PRAGMA synchronous = {'FULL' if found == 'wal' else 'EXTRA'}")


def _changed_journal(connection: "sqlite3.Connection", wanted: str) -> str:
    """The journal in use after ``wanted`` was asked for; as it was where nothing may be written."""
    import sqlite3

    for attempt in range(_TRIES):
        (found,) = connection.execute("PRAGMA journal_mode").fetchone()
        if found == wanted:
            break
        try:
            (found,) = connection.execute(f"PRAGMA journal_mode = {wanted}").fetchone()
            break
        except sqlite3.OperationalError as fault:
            if trouble.is_unwritable(fault):
                break
            if not trouble.is_busy(fault) or attempt == _TRIES - 1:
                raise
        # Another program is at the same thing; to wait for the right to write is to wait for it.
        connection.execute("BEGIN IMMEDIATE")
        connection.execute("ROLLBACK")
    return str(found)
