"""The session: what to do now, as a function of the order, what happened, and the time."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, tzinfo

from toneladder.order.values import Order
from toneladder.tank.clocks import Elapsed, elapsed
from toneladder.tank.course import (
    IN_BATH,
    RESTING,
    Course,
    Phase,
    after,
    begin,
    bitten,
    effective_totals,
)
from toneladder.tank.sounds import LONG_BITE_S
from toneladder.tank.telling import SAID_LATER_S, TAKEN_BACK_WITHIN_S, Told, View, tell
from toneladder.tank.values import Event, Facts, Kind, Moment, Standing, State
from toneladder.wording import say

LAST_S = 10.0
ASKED_FOR_S = 15.0
ANSWER_WITHIN_S = 60.0
BACK_SAID_S = 15.0
_OF_THEMSELVES = (Kind.STARTED, Kind.ASSUMED, Kind.BACK, Kind.NO_SOUND)
_MOMENT_S = 1e-6
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
    state = _state(course, at)
    so_far, apart = bitten(course, at) if course.phase in IN_BATH else (0.0, 0.0)
    view = View(
        course=course,
        utc_s=now.utc_s,
        zone=zone,
        since_s=(at - course.since).steady_s,
        bitten_s=so_far,
        left_s=course.dip_s - so_far if course.phase in IN_BATH else 0.0,
        apart_s=apart,
    )
    told = tell(state, view)
    return _standing(state, view, told, now, [*events, *due], due)


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
        if event.kind is Kind.UNDONE and event.number not in undone:
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

    The plate went in on the long tone. A lift that nobody dated in time was when it was said,
    but not before its tone: that errs to light, since overbiting cannot be taken back.
    """
    passed = (end - course.since).steady_s
    if course.phase is Phase.COUNT_IN and passed >= course.facts.count_in_s:
        count = course.facts.count_in_s
        return Kind.STARTED, course.since + Elapsed(count, count), 0.0
    if course.phase is Phase.WHEN and passed >= ANSWER_WITHIN_S:
        when = course.since + Elapsed(ANSWER_WITHIN_S, ANSWER_WITHIN_S)
        answer = course.proposed_s + course.moved_s
        if not course.moved_s:
            answer = max(answer, course.dip_s)
        return Kind.ASSUMED, when, bitten(course, when)[0] - answer
    return None


def _state(course: Course, at: Elapsed) -> State:
    if course.phase is Phase.BITING:
        return _biting_state(course, at)
    if course.phase not in RESTING:
        return _PLAIN[course.phase]
    return _question(course) or _PLAIN[course.phase]


def _question(course: Course) -> State | None:
    """What must be answered or seen before anything else, while the plate is out."""
    if course.no_sound:
        return State.NO_SOUND
    if course.lost:
        return State.LOST_TONE
    if course.phase is Phase.OUT and not course.seen:
        return State.WORKED_OUT
    return State.SKIP if course.skip_asked else None


def _biting_state(course: Course, at: Elapsed) -> State:
    so_far, apart = bitten(course, at)
    left = course.dip_s - so_far
    back = course.back is not None and (at - course.back[0]).steady_s <= BACK_SAID_S
    if apart:
        return State.CLOCKS
    if left <= _MOMENT_S:
        return State.BACK if back else State.LIFT
    if left <= LAST_S:
        return State.LAST_TEN
    if course.asked is not None and (at - course.asked).steady_s < ASKED_FOR_S:
        return State.ASKED
    return State.BACK if back else State.BITING


_PLAIN = {
    Phase.CHECK: State.CHECK,
    Phase.READY: State.READY,
    Phase.COUNT_IN: State.COUNT_IN,
    Phase.WHEN: State.WHEN,
    Phase.BETWEEN: State.OUT_EARLY,
    Phase.OUT: State.OUT,
    Phase.STOP_OUT: State.STOP_OUT,
    Phase.DRYING: State.DRYING,
    Phase.END: State.END,
    Phase.CLOSED: State.CLOSED,
}


def _standing(
    state: State,
    view: View,
    told: Told,
    now: Moment,
    events: Sequence[Event],
    due: tuple[Event, ...],
) -> Standing:
    course = view.course
    in_bath = course.phase in IN_BATH
    then_in = told.then_in_s
    pressed = next((e.at for e in reversed(events) if e.kind not in _OF_THEMSELVES), None)
    return Standing(
        state=state,
        now=now,
        step=course.step,
        sentence=told.sentence,
        figure=told.figure,
        then=told.then,
        then_utc_s=None if then_in is None else now.utc_s + then_in,
        main=told.main,
        second=told.second,
        earlier=told.earlier,
        later=told.later,
        changes_in_s=_changes_in(state, view),
        in_bath=in_bath,
        zero=_zero(view, now),
        length_s=course.dip_s if in_bath else 0.0,
        answered=course.phase is Phase.WHEN,
        bitten_s=view.bitten_s,
        apart_s=view.apart_s,
        bath_c=course.bath_c,
        said=course.said,
        order=course.order,
        orders=course.orders,
        dips=course.dips,
        effective_s=effective_totals(course),
        next_number=len(events),
        due=due,
        pressed=pressed,
    )


def _zero(view: View, now: Moment) -> Moment | None:
    """The instant to which sounds are counted."""
    course = view.course
    if course.phase in IN_BATH:
        return now.later(view.left_s)
    if course.phase is Phase.COUNT_IN:
        return now.later(course.facts.count_in_s - view.since_s)
    if course.phase is Phase.DRYING and course.next_step is not None:
        return now.later(course.next_step.dry_min * 60.0 - view.since_s)
    return None


def _changes_in(state: State, view: View) -> float | None:
    """Seconds until the screen changes by itself, but for its figure."""
    course, left = view.course, view.left_s
    ends: list[float] = []
    match state:
        case State.COUNT_IN:
            ends = [course.facts.count_in_s - view.since_s]
        case State.BITING | State.ASKED | State.BACK | State.LAST_TEN | State.CLOCKS:
            length = course.dip_s
            news = (60.0, 30.0) if length >= LONG_BITE_S else (length / 2.0,)
            ends = [left - mark for mark in (*news, LAST_S, 0.0)]
            if state is State.ASKED or state is State.BACK:
                ends.append(ASKED_FOR_S - 1.0)
        case State.LIFT:
            ends = [left + 3.0, left + SAID_LATER_S]
        case State.WHEN:
            ends = [ANSWER_WITHIN_S - view.since_s, left]
        case State.OUT | State.OUT_EARLY | State.WORKED_OUT | State.LOST_TONE:
            ends = [TAKEN_BACK_WITHIN_S - view.since_s]
        case State.DRYING if course.next_step is not None:
            ends = [course.next_step.dry_min * 60.0 - view.since_s]
        case _:
            ends = []
    coming = [end for end in ends if end > _MOMENT_S]
    return min(coming) if coming else None
