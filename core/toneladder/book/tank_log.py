"""What happened at the tank, event by event: only ever added to, and on the disk at once."""

from dataclasses import astuple
from typing import TYPE_CHECKING

from toneladder.book.limits import event_faults, lease_faults, require, session_faults
from toneladder.book.opening import Book
from toneladder.book.rows import values_from
from toneladder.book.values import Lease, Logged, TankSession
from toneladder.errors import BookError
from toneladder.wording import say

if TYPE_CHECKING:
    import sqlite3

QUIET_S = 15.0
"""Seconds after which a window that says nothing has let go of its plate."""


def begin_session(book: Book, session: TankSession) -> None:
    """Keep a new stay at the tank.

    Raises
    ------
    BookError
        If there is one of that identity, or it is out of bounds.
    """
    require(session_faults(session))
    with book.writing() as connection:
        if _is_known(connection, session.identity):
            raise BookError(
                say("This stay at the tank is in the studio book already. Nothing was changed.")
            )
        connection.execute(
            """
            INSERT INTO tank_session (identity, plate, begun_utc_s, begun_with)
            VALUES (?, ?, ?, ?)
            """,
            astuple(session),
        )


def sessions_of(book: Book, plate: str) -> tuple[TankSession, ...]:
    """All stays of a plate at the tank, the oldest first."""
    with book.reading() as connection:
        rows = connection.execute(
            """
            SELECT identity, plate, begun_utc_s, begun_with FROM tank_session
            WHERE plate = ? ORDER BY begun_utc_s, rowid
            """,
            (plate,),
        )
        return values_from(rows, TankSession)


def append_event(book: Book, session: str, event: Logged) -> None:
    """Note an event; when this returns it is on the disk.

    Noting the very same event again changes nothing, so that one whose fate is unknown can be
    tried again.

    Raises
    ------
    BookError
        If another window noted something in between (nothing was changed; read the events
        again), there is no such session, or the event is out of bounds.
    """
    require(event_faults(event))
    with book.writing() as connection:
        if not _is_known(connection, session):
            raise BookError(say("This stay at the tank is not in the studio book. Begin it first."))
        noted = _events(connection, session, event.number)
        if noted == (event,):
            return
        (count,) = connection.execute(
            "SELECT count(*) FROM tank_event WHERE session = ?", (session,)
        ).fetchone()
        if noted or event.number != count:
            raise BookError(
                say(
                    "Another window has noted something for this plate in the meantime. Both"
                    " records are kept as they were; look at what was noted, then note this again."
                )
            )
        connection.execute(
            """
            INSERT INTO tank_event (session, number, kind, boottime_s, utc_s, boot, detail)
            VALUES (?, ?, ?, ?, ?, ?, ?)
            """,
            (session, *astuple(event)),
        )


def events_of(book: Book, session: str) -> tuple[Logged, ...]:
    """All events of a stay at the tank, in the order they were noted."""
    with book.reading() as connection:
        return _events(connection, session, None)


def hold_plate(book: Book, lease: Lease, *, quiet_s: float = QUIET_S) -> Lease:
    """Take a plate for one window, or say that it is still there; call it every few seconds.

    Parameters
    ----------
    book : Book
    lease : Lease
        The window and the time now.
    quiet_s : float
        Seconds after which a window that said nothing has let go.

    Returns
    -------
    ``lease`` if the window has the plate now; that of the other window if it does not.
    """
    require(lease_faults(lease))
    with book.writing() as connection:
        rows = connection.execute(
            "SELECT plate, owner, boot, boottime_s, utc_s FROM lease WHERE plate = ?",
            (lease.plate,),
        )
        for held in values_from(rows, Lease):
            if held.owner != lease.owner and _silence_s(held, lease) <= quiet_s:
                return held
        connection.execute(
            """
            INSERT OR REPLACE INTO lease (plate, owner, boot, boottime_s, utc_s)
            VALUES (?, ?, ?, ?, ?)
            """,
            astuple(lease),
        )
        return lease


def let_go(book: Book, plate: str, owner: str) -> None:
    """Give a plate back; nothing happens if another window has it."""
    with book.writing() as connection:
        connection.execute("DELETE FROM lease WHERE plate = ? AND owner = ?", (plate, owner))


def _silence_s(held: Lease, now: Lease) -> float:
    """Seconds since the holder said anything, by the clock that cannot be set if there is one."""
    if held.boot == now.boot:
        return now.boottime_s - held.boottime_s
    return abs(now.utc_s - held.utc_s)


def _is_known(connection: "sqlite3.Connection", session: str) -> bool:
    found = connection.execute("SELECT 1 FROM tank_session WHERE identity = ?", (session,))
    return found.fetchone() is not None


def _events(
    connection: "sqlite3.Connection", session: str, number: int | None
) -> tuple[Logged, ...]:
    rows = connection.execute(
        """
        SELECT number, kind, boottime_s, utc_s, boot, detail FROM tank_event
        WHERE session = ? AND (? IS NULL OR number = ?) ORDER BY number
        """,
        (session, number, number),
    )
    return values_from(rows, Logged)
