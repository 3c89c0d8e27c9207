"""The session: what to do now, as a function of the order, what happened, and the time."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, tzinfo

from toneladder.order.values import Order
from toneladder.tank.clocks import Elapsed, elapsed
from toneladder.tank.course import Course, Phase, begin, bitten
from toneladder.tank.following import after
from toneladder.tank.standing import ANSWER_WITHIN_S, standing_of
from toneladder.tank.values import Event, Facts, Kind, Moment, Standing, State
from toneladder.wording import say

_NO_PRESSES = (
    *(Kind.STARTED, Kind.ASSUMED, Kind.BACK, Kind.NO_SOUND),  # come of themselves
    *(Kind.MOVED, Kind.TEMPERATURE),  # another key, or dry hands
)
_NO_MOMENT = Moment(0.0, 0.0)


def session(
    order: Order, facts: Facts, events: Sequence[Event], now: Moment, *, zone: tzinfo = UTC
) -> Standing:
    """Where the plate stands.

    Parameters
    ----------
    order : Order
        As planned, before anything happened.
    facts : Facts
        The curve and rates it was worked out with.
    events : sequence of Event
        Everything logged, in its order.
    now : Moment
        The time now, on both clocks.
    zone : tzinfo
        For times of day alone; no length of time depends on it.
    """
    course, at, due = _followed(order, facts, events, now)
    standing = standing_of(course, at, now, zone)
    logged = (*events, *due)
    pressed = next((e.at for e in reversed(logged) if e.kind not in _NO_PRESSES), None)
    return replace(standing, next_number=len(logged), due=due, pressed=pressed)


def elsewhere(now: Moment) -> Standing:
    """What a second window of a plate says that is at the tank already."""
    return Standing(
        State.ELSEWHERE,
        now,
        step=0,
        sentence=say("This plate is at the tank in another window. Look only."),
    )


def active(events: Sequence[Event]) -> tuple[Event, ...]:
    """Events that count: none that was undone, and no undoing that was itself undone."""
    undone: set[int] = set()
    for event in reversed(events):
        if event.kind is Kind.UNDONE and event.of < event.number not in undone:
            undone.add(event.of)
    return tuple(e for e in events if e.number not in undone and e.kind is not Kind.UNDONE)


def _followed(
    order: Order, facts: Facts, events: Sequence[Event], now: Moment
) -> tuple[Course, Elapsed, tuple[Event, ...]]:
    """The course up to now, where now is on both clocks, and what came by itself since."""
    counting = {event.number for event in active(events)}
    course, at = begin(order, facts), Elapsed()
    last = events[0].at if events else now
    for event in events:
        here = at + elapsed(last, event.at)
        course, _ = _let_come(course, here)
        if event.number in counting:
            course = after(course, event, here)
        at, last = here, event.at
    end = at + elapsed(last, now)
    course, came = _let_come(course, end)
    due = tuple(
        replace(event, number=len(events) + k, at=last.later((when - at).steady_s))
        for k, (event, when) in enumerate(came)
    )
    return course, end, due


def _let_come(course: Course, until: Elapsed) -> tuple[Course, list[tuple[Event, Elapsed]]]:
    came: list[tuple[Event, Elapsed]] = []
    while (coming := _by_itself(course, until)) is not None:
        kind, when, seconds = coming
        event = Event(-1, kind, _NO_MOMENT, seconds=seconds)
        course = after(course, event, when)
        came.append((event, when))
    return course, came


def _by_itself(course: Course, end: Elapsed) -> tuple[Kind, Elapsed, float] | None:
    """What has come by itself.

    The plate went in on the long signal. A lift that nobody dated in time was when it was said,
    but not before its signal: that errs to light, since overbiting cannot be taken back. A figure
    that somebody set stands.
    """
    passed = (end - course.since).steady_s
    if course.phase is Phase.COUNT_IN and passed >= course.facts.count_in_s:
        count = course.facts.count_in_s
        return Kind.STARTED, course.since + Elapsed(count, count), 0.0
    if course.phase is Phase.WHEN and passed >= ANSWER_WITHIN_S:
        when = course.since + Elapsed(ANSWER_WITHIN_S, ANSWER_WITHIN_S)
        answer = course.proposed_s + course.moved_s
        if not course.dated:
            answer = max(answer, course.dip_s)
        return Kind.ASSUMED, when, bitten(course, when)[0] - answer
    return None
