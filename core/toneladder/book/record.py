"""A plate's record: what the book knows of it, and what was really bitten at the tank."""

from collections import defaultdict
from dataclasses import dataclass

from toneladder.book.opening import Book
from toneladder.book.plates import plate_of
from toneladder.book.prints import proofs_of, pulls_of
from toneladder.book.tank_log import events_of, sessions_of
from toneladder.book.values import KeptPlate, KeptProof, KeptPull, Logged, TankSession
from toneladder.errors import BookError, TankError
from toneladder.order.values import Order
from toneladder.tank.begun import Begun, begun_from
from toneladder.tank.record import EventRow, event_from
from toneladder.tank.session import session
from toneladder.tank.values import Dip, Event, Stage
from toneladder.wording import say


@dataclass(frozen=True, slots=True)
class StepBite:
    """One bite: planned, and given; clock seconds.

    ``step`` counts the bites of its stage from 1. ``given_s`` is None before anything was
    bitten; ``worth_s`` is how long the same bite takes in the bath as planned, None if not
    known. ``assumed`` if nobody said when it ended.
    """

    step: int
    planned_s: float
    given_s: float | None = None
    assumed: bool = False
    worth_s: float | None = None


@dataclass(frozen=True, slots=True)
class Stay:
    """One stay at the tank: when it began, what was bitten, and its bites.

    ``unreadable`` says why it has none. ``planned_c`` is the temperature that it was planned for,
    degrees Celsius, if known.
    """

    begun_utc_s: float
    bites: tuple[StepBite, ...] = ()
    unreadable: str = ""
    stage: Stage = Stage.TONES
    planned_c: float | None = None


@dataclass(frozen=True, slots=True)
class PlateRecord:
    """Everything that the book knows of one plate."""

    kept: KeptPlate
    stays: tuple[Stay, ...] = ()
    proofs: tuple[KeptProof, ...] = ()
    pulls: tuple[KeptPull, ...] = ()


def record_of(book: Book, identity: str) -> PlateRecord:
    """The record of the plate of that identity.

    Raises
    ------
    BookError
        If the book does not know it.
    """
    kept = plate_of(book, identity)
    if kept is None:
        raise BookError(
            say("The studio book does not know this plate yet. Save the plate, then try again.")
        )
    return PlateRecord(
        kept=kept,
        stays=tuple(_stay(book, stay) for stay in sessions_of(book, identity)),
        proofs=proofs_of(book, identity),
        pulls=pulls_of(book, identity),
    )


def planned_bites(order: Order) -> tuple[StepBite, ...]:
    """The bites of an order that nothing was bitten of yet."""
    return tuple(StepBite(step.step, step.bite_s) for step in order.steps)


def bites_of(begun: Begun, events: tuple[Event, ...]) -> tuple[StepBite, ...]:
    """What was planned when the plate came to the tank, and what it was really given."""
    given: dict[int, float] = defaultdict(float)
    worth: dict[int, float] = defaultdict(float)
    assumed: set[int] = set()
    if events:
        for dip in _dips(begun, events):
            given[dip.step] += dip.bitten_s
            worth[dip.step] += dip.effective_s / begun.facts.rate
            if dip.assumed:
                assumed.add(dip.step)
    second = begun.facts.stage is Stage.SECOND
    return tuple(
        StepBite(
            k if second else s.step,
            s.bite_s,
            given.get(s.step),
            s.step in assumed,
            worth.get(s.step),
        )
        for k, s in enumerate(begun.order.steps, start=1)
    )


def _dips(begun: Begun, events: tuple[Event, ...]) -> tuple[Dip, ...]:
    return session(begun.order, begun.facts, events, events[-1].at).dips


def _stay(book: Book, stay: TankSession) -> Stay:
    try:
        begun = begun_from(stay.order)
        events = tuple(_event(logged) for logged in events_of(book, stay.identity))
    except TankError as fault:
        return Stay(stay.begun_utc_s, unreadable=str(fault))
    facts = begun.facts
    bites = bites_of(begun, events)
    return Stay(stay.begun_utc_s, bites, stage=facts.stage, planned_c=facts.planned_c)


def _event(logged: Logged) -> Event:
    return event_from(
        EventRow(logged.number, logged.kind, logged.boottime_s, logged.utc_s, logged.detail)
    )
