"""What the system and the database say of trouble, as sentences a person can act on."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from toneladder.errors import BookError, DamagedBookError, ToneLadderError
from toneladder.refusals import reason_of
from toneladder.wording import say

if TYPE_CHECKING:
    import sqlite3


class UnreadableRowError(Exception):
    """A row of the book that holds what was never written."""


@contextmanager
def told(path: Path) -> Iterator[None]:
    """Turn trouble with the book at ``path`` into a sentence.

    Raises
    ------
    DamagedBookError
        If what is on the disk is not what was written.
    BookError
        If the book is locked, cannot be written or read, or the disk is full.
    """
    import sqlite3

    try:
        yield
    except ToneLadderError:
        raise
    except UnreadableRowError as fault:
        raise damaged(path, str(fault)) from fault
    except UnicodeDecodeError as fault:  # also where the database speaks of broken letters
        raise damaged(path, say("a text in it is none")) from fault
    except (sqlite3.ProgrammingError, sqlite3.InterfaceError):
        raise  # a fault of the program, never of the disk
    except sqlite3.Error as fault:
        raise _sentence(path, fault) from fault
    except OSError as fault:
        raise _unreachable(path, reason_of(fault)) from fault


def damaged(path: Path, reason: str) -> DamagedBookError:
    """The sentence for a damaged book."""
    return DamagedBookError(
        say(
            "The studio book “{name}” is damaged ({reason}). It was left as it is. It can be set"
            " aside, and a fresh one begun; your plates' own files"
            " do not depend on it. If you have a copy of the book, put that in its place instead.",
            name=path.name,
            reason=reason,
        )
    )


def is_busy(fault: "sqlite3.Error") -> bool:
    """Whether somebody else has the book at the moment."""
    import sqlite3

    return _code(fault) in {sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED}


def is_unwritable(fault: "sqlite3.Error") -> bool:
    """Whether the file or its folder may only be read."""
    import sqlite3

    return _code(fault) in {sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM}


def _code(fault: "sqlite3.Error") -> int | None:
    """SQLite's own number of the fault without its finer part, None if it gave none."""
    code = getattr(fault, "sqlite_errorcode", None)
    return None if code is None else int(code) & 0xFF


def _sentence(path: Path, fault: "sqlite3.Error") -> BookError:
    import sqlite3

    code = _code(fault)
    torn = code == sqlite3.SQLITE_ERROR and str(fault).startswith("no such")  # table or column
    if torn or code in {None, sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB}:
        return damaged(path, _reason(fault))
    if is_busy(fault):
        return BookError(
            say(
                "The studio book “{name}” is in use by another program and did not come free."
                " Nothing was changed. Wait a moment and try again.",
                name=path.name,
            )
        )
    if code == sqlite3.SQLITE_FULL:
        return BookError(
            say(
                "There is no room left for the studio book {name}. What it held before is"
                " unchanged; the last entry is not in it. Make room on that disk and try again.",
                name=path.name,
            )
        )
    if is_unwritable(fault):
        return _unreachable(path, _reason(fault))
    return BookError(
        say(
            "The studio book “{name}” could not do this ({reason}). What it held before is"
            " unchanged. Try again; if it happens again, look after that disk.",
            name=path.name,
            reason=_reason(fault),
        )
    )


def _reason(fault: "sqlite3.Error") -> str:
    """What the database found, in plain words; what is met seldom, in its own."""
    import sqlite3

    reasons: dict[int | None, str] = {
        sqlite3.SQLITE_CORRUPT: say("its pages do not hold together"),
        sqlite3.SQLITE_NOTADB: say("it does not begin like a book"),
        sqlite3.SQLITE_READONLY: say("it can only be read"),
        sqlite3.SQLITE_CANTOPEN: say("it cannot be opened"),
        sqlite3.SQLITE_PERM: say("you have no permission"),
        sqlite3.SQLITE_IOERR: say("the disk does not answer as it should"),
    }
    return reasons.get(_code(fault), str(fault))


def _unreachable(path: Path, reason: str) -> BookError:
    return BookError(
        say(
            "The studio book “{name}” cannot be written, or not be opened ({reason}). What it held"
            " before is unchanged. See that you may write to the file and its folder {folder}.",
            name=path.name,
            reason=reason,
            folder=path.parent,
        )
    )
