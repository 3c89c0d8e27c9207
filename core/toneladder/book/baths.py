"""The baths of the studio: each for one metal, with what it has bitten."""

from dataclasses import astuple, replace
from typing import TYPE_CHECKING

from toneladder.bite.use import share_used
from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.book.finding import folded
from toneladder.book.limits import bath_faults, require, use_faults
from toneladder.book.opening import Book
from toneladder.book.rows import numbered, values_from
from toneladder.book.values import Bath, BathUse, KeptBath, Use
from toneladder.errors import BookError, QuantityError, RefusedPairError
from toneladder.wording import say

if TYPE_CHECKING:
    import sqlite3

_BATHS = """
    SELECT id, name, metal, mordant, strength, movement, vessel, made_on, litres, salt_g, q, note,
        retired_on
    FROM bath
"""


def begin_bath(book: Book, bath: Bath) -> int:
    """Keep a new bath, and return its number.

    Raises
    ------
    BookError
        If another bath bears its name, or it is out of bounds.
    """
    with book.writing() as connection:
        return add_bath(connection, bath)


def change_bath(book: Book, bath_id: int, bath: Bath) -> None:
    """Keep ``bath`` in the place of what was kept under its number.

    Raises
    ------
    RefusedPairError
        If it would get another metal or mordant after it has bitten, or has strips.
    BookError
        If there is no such bath, another bears its name, or it is out of bounds.
    """
    require(bath_faults(bath))
    with book.writing() as connection:
        before = kept_bath(connection, bath_id).bath
        if (bath.metal, bath.mordant) != (before.metal, before.mordant) and _was_used(
            connection, bath_id
        ):
            raise _refused(before, bath.metal, bath.mordant)
        _require_free_name(connection, bath.name, bath_id)
        connection.execute(
            """
            UPDATE bath SET folded = ?, name = ?, metal = ?, mordant = ?, strength = ?,
                movement = ?, vessel = ?, made_on = ?, litres = ?, salt_g = ?, q = ?, note = ?,
                retired_on = ?
            WHERE id = ?
            """,
            (folded(bath.name), *astuple(bath), bath_id),
        )


def retire_bath(book: Book, bath_id: int, today: str) -> None:
    """Note the day (``YYYY-MM-DD``) from which a bath bites no more; it stays in the book."""
    with book.reading() as connection:
        bath = kept_bath(connection, bath_id).bath
    change_bath(book, bath_id, replace(bath, retired_on=today))


def remove_bath(book: Book, bath_id: int) -> None:
    """Take a bath out of the book that has neither bitten nor has strips.

    Raises
    ------
    BookError
        If it has, or there is no such bath.
    """
    with book.writing() as connection:
        name = kept_bath(connection, bath_id).bath.name
        if _was_used(connection, bath_id):
            raise BookError(
                say(
                    "“{name}” has strips, or has bitten: it stays in the book. Retire it instead.",
                    name=name,
                )
            )
        connection.execute("DELETE FROM bath WHERE id = ?", (bath_id,))


def list_baths(book: Book) -> tuple[KeptBath, ...]:
    """All baths by name, those that were retired last."""
    with book.reading() as connection:
        rows = connection.execute(_BATHS + "ORDER BY retired_on <> '', folded")
        return tuple(KeptBath(number, bath) for (number,), bath in numbered(rows, Bath))


def bath_called(book: Book, name: str) -> KeptBath | None:
    """The bath of that name, without regard to capitals; None if there is none."""
    with book.reading() as connection:
        return named_bath(connection, name)


def require_belongs(bath: Bath, conditions: Conditions) -> None:
    """Refuse a plate or strip that is of another metal, or for another mordant, than the bath.

    Raises
    ------
    RefusedPairError
        The sentence says what the bath is for.
    """
    if (conditions.metal, conditions.mordant) != (bath.metal, bath.mordant):
        raise _refused(bath, conditions.metal, conditions.mordant)


def note_use(book: Book, bath_id: int, conditions: Conditions, use: Use) -> None:
    """Note a plate or strip of ``conditions`` as bitten; noted again, it takes its own place.

    Raises
    ------
    RefusedPairError
        If the bath is for another metal or mordant.
    BookError
        If there is no such bath, or the use is out of bounds.
    """
    require(use_faults(use))
    with book.writing() as connection:
        require_belongs(kept_bath(connection, bath_id).bath, conditions)
        connection.execute(
            """
            INSERT OR REPLACE INTO bath_use (bath_id, kind, identity, bitten_on, metal_g)
            VALUES (?, ?, ?, ?, ?)
            """,
            (bath_id, *astuple(use)),
        )


def use_of(book: Book, bath_id: int, *, since: str = "") -> BathUse:
    """What a bath has bitten, or only what it bit after the day ``since`` (``YYYY-MM-DD``)."""
    with book.reading() as connection:
        rows = connection.execute(
            """
            SELECT count(*) FILTER (WHERE kind = 'plate'), count(*) FILTER (WHERE kind = 'strip'),
                total(metal_g)
            FROM bath_use WHERE bath_id = :bath AND (:since = '' OR bitten_on > :since)
            """,
            {"bath": bath_id, "since": since},
        )
        return values_from(rows, BathUse)[0]


def share_of_capacity(bath: Bath, metal_g: float) -> float | None:
    """Share (0..1) of what the bath can dissolve that ``metal_g`` used up; None if not known."""
    if bath.salt_g is None:
        return None
    try:
        return share_used(bath.metal, bath.mordant, metal_g, bath.salt_g)
    except QuantityError:
        return None


def kept_bath(connection: "sqlite3.Connection", bath_id: int) -> KeptBath:
    """The bath of that number, within an act.

    Raises
    ------
    BookError
        If there is none.
    """
    rows = connection.execute(_BATHS + "WHERE id = ?", (bath_id,))
    for (number,), bath in numbered(rows, Bath):
        return KeptBath(number, bath)
    raise BookError(
        say("This bath is not in the studio book any more. Nothing was changed; choose another.")
    )


def named_bath(connection: "sqlite3.Connection", name: str) -> KeptBath | None:
    """As :func:`bath_called`, within an act."""
    rows = connection.execute(_BATHS + "WHERE folded = ?", (folded(name),))
    return next((KeptBath(number, bath) for (number,), bath in numbered(rows, Bath)), None)


def add_bath(connection: "sqlite3.Connection", bath: Bath) -> int:
    """As :func:`begin_bath`, within an act."""
    require(bath_faults(bath))
    _require_free_name(connection, bath.name, None)
    added = connection.execute(
        """
        INSERT INTO bath (folded, name, metal, mordant, strength, movement, vessel, made_on,
            litres, salt_g, q, note, retired_on)
        VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
        """,
        (folded(bath.name), *astuple(bath)),
    )
    return int(added.lastrowid or 0)


def _require_free_name(connection: "sqlite3.Connection", name: str, bath_id: int | None) -> None:
    other = named_bath(connection, name)
    if other is not None and other.id != bath_id:
        raise BookError(
            say(
                "There is a bath “{name}” in the studio book already. Nothing was changed; give"
                " this one another name.",
                name=other.bath.name,
            )
        )


def _was_used(connection: "sqlite3.Connection", bath_id: int) -> bool:
    (used,) = connection.execute(
        """
        SELECT EXISTS (SELECT 1 FROM strip WHERE bath_id = :id)
            OR EXISTS (SELECT 1 FROM bath_use WHERE bath_id = :id)
        """,
        {"id": bath_id},
    ).fetchone()
    return bool(used)


def _refused(bath: Bath, metal: Metal, mordant: Mordant) -> RefusedPairError:
    return RefusedPairError(
        say(
            "The bath “{name}” is for {metal} in {mordant}; {other} in {liquid} does not belong in"
            " it. Nothing was changed. Choose another bath, or begin one.",
            name=bath.name,
            metal=say(bath.metal.value),
            mordant=say(bath.mordant.value),
            other=say(metal.value),
            liquid=say(mordant.value),
        )
    )
