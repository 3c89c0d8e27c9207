"""What a press does: it becomes an event, or nothing."""

from toneladder.tank.clocks import elapsed
from toneladder.tank.values import Act, Event, Kind, Moment, Offer, Standing

APART_S = 1.5
"""Presses that follow another within this time are drips, or a hand that trembles; arrows are
free: what they set stands on the screen at once."""

_PRESSES = (Act.MAIN, Act.SECOND)


def press(standing: Standing, act: Act, now: Moment, *, repeat: bool = False) -> tuple[Event, ...]:
    """The events to log for one act of a hand.

    Parameters
    ----------
    standing : Standing
        What was on the screen.
    act : Act
        What the hand did.
    now : Moment
        When.
    repeat : bool
        Whether the keyboard says it only repeats a key that is held down.

    Returns
    -------
    Nothing if the act means nothing here, follows another too closely, or repeats. Else what
    came by itself and is not logged yet, and then the event.
    """
    offer = _offer(standing, act)
    if offer is None or repeat or (act in _PRESSES and _too_soon(standing, now)):
        return ()
    waited = elapsed(standing.now, now).steady_s if offer.runs else 0.0
    event = Event(
        number=standing.next_number,
        kind=offer.kind,
        at=now,
        seconds=offer.seconds + waited,
        reading=offer.reading,
        of=offer.of,
        text=offer.text,
    )
    return (*standing.due, event)


def entered(
    standing: Standing,
    kind: Kind,
    now: Moment,
    *,
    seconds: float = 0.0,
    reading: float = 0.0,
    of: int = 0,
    text: str = "",
) -> tuple[Event, ...]:
    """The events to log for what somebody enters: a reading, a note, a lift after the fact."""
    event = Event(standing.next_number, kind, now, seconds, reading, of, text)
    return (*standing.due, event)


def taken_back(standing: Standing, number: int, now: Moment) -> tuple[Event, ...]:
    """The events to log for undoing one event; nothing while the plate is in the bath."""
    if standing.in_bath or not 0 <= number < standing.next_number:
        return ()
    return entered(standing, Kind.UNDONE, now, of=number)


def _offer(standing: Standing, act: Act) -> Offer | None:
    match act:
        case Act.MAIN:
            return standing.main
        case Act.SECOND:
            return standing.second
        case Act.EARLIER:
            return standing.earlier
        case Act.LATER:
            return standing.later


def _too_soon(standing: Standing, now: Moment) -> bool:
    if standing.pressed is None or standing.pressed.boot != now.boot:
        return False
    return elapsed(standing.pressed, now).steady_s < APART_S
