"""What a stay at the tank dissolved, brought forward into its bath's use; never twice."""

from collections.abc import Sequence
from dataclasses import dataclass

from toneladder.bite.values import Metal
from toneladder.book.baths import bath_called, require_belongs, share_of_capacity, use_of
from toneladder.book.limits import require, use_faults
from toneladder.book.opening import Book
from toneladder.book.values import Bitten, Use
from toneladder.quantities import write_number, write_percent
from toneladder.tank.begun import Begun
from toneladder.tank.facts import metal_given_g
from toneladder.tank.session import session
from toneladder.tank.values import Event
from toneladder.wording import say

LEAST_G = 0.005
"""Less is not worth a word."""


@dataclass(frozen=True, slots=True)
class Forwarded:
    """What was brought forward: grams of metal into a bath, by estimate.

    ``stay`` is the identity of the stay at the tank, ``share`` what of the bath's capacity
    (0..1) is used up now, None if nobody knows.
    """

    stay: str
    bath: str
    metal: Metal
    metal_g: float
    share: float | None = None


def bring_forward(
    book: Book, stay: str, begun: Begun, events: Sequence[Event], day: str
) -> Forwarded | None:
    """Note in the bath's use what a stay at the tank has dissolved.

    Noted again, it takes its own place; once taken back, it is not noted any more.

    Parameters
    ----------
    book : Book
    stay : str
        The identity of the stay.
    begun : Begun
        With what it began.
    events : sequence of Event
        Everything logged.
    day : str
        The day of the last bite, ``YYYY-MM-DD``.

    Returns
    -------
    None if the plate names no bath that the book has, nothing was dissolved, or nobody can reckon
    it.

    Raises
    ------
    RefusedPairError
        If the bath is for another metal or mordant.
    BookError
        If the book cannot be written.
    """
    kept = bath_called(book, begun.bath) if begun.bath else None
    if kept is None or begun.conditions is None or not events:
        return None
    had_s = session(begun.order, begun.facts, events, events[-1].at).effective_s
    metal_g = metal_given_g(begun, had_s)
    if metal_g is None or metal_g < LEAST_G:
        return None
    require_belongs(kept.bath, begun.conditions)
    use = Use(Bitten.STAY, stay, day, round(metal_g, 3))
    if not _noted(book, kept.id, use):
        return None
    share = share_of_capacity(kept.bath, use_of(book, kept.id).metal_g)
    return Forwarded(stay, kept.bath.name, begun.conditions.metal, metal_g, share)


def take_back(book: Book, stay: str) -> None:
    """Take back what a stay at the tank was reckoned to have dissolved, for good."""
    with book.writing() as connection:
        connection.execute(
            "UPDATE bath_use SET metal_g = NULL WHERE identity = ? AND kind = ?",
            (stay, Bitten.STAY.value),
        )


def forwarded_words(forwarded: Forwarded) -> str:
    """What was brought forward, in one sentence."""
    values = {
        "grams": write_number(max(round(forwarded.metal_g, 1), 0.1)),
        "metal": say(forwarded.metal.value),
        "bath": forwarded.bath,
    }
    if forwarded.share is None:
        return say(
            "The use of the bath “{bath}” is brought forward by about {grams} g of {metal}.",
            **values,
        )
    return say(
        "The use of the bath “{bath}” is brought forward by about {grams} g of {metal}, to about"
        " {share} of what it can take.",
        share=write_percent(forwarded.share),
        **values,
    )


def _noted(book: Book, bath_id: int, use: Use) -> bool:
    """Note the use, unless it was taken back; tells whether it counts now."""
    require(use_faults(use))
    with book.writing() as connection:
        connection.execute(
            """
            INSERT INTO bath_use (bath_id, kind, identity, bitten_on, metal_g)
            VALUES (?, ?, ?, ?, ?)
            ON CONFLICT (bath_id, identity) DO UPDATE SET metal_g = excluded.metal_g
            WHERE metal_g IS NOT NULL
            """,
            (bath_id, use.kind, use.identity, use.bitten_on, use.metal_g),
        )
        (counts,) = connection.execute(
            "SELECT metal_g IS NOT NULL FROM bath_use WHERE bath_id = ? AND identity = ?",
            (bath_id, use.identity),
        ).fetchone()
    return bool(counts)
