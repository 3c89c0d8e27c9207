"""What stands on the screen: the state of a course at one moment, told in full."""

from datetime import tzinfo

from toneladder.tank.clocks import Elapsed
from toneladder.tank.course import IN_BATH, RESTING, Course, Phase, bitten
from toneladder.tank.reworking import effective_totals
from toneladder.tank.sounds import warnings_of
from toneladder.tank.telling import tell
from toneladder.tank.telling_in_bath import QUICK_S, SAID_LATER_S
from toneladder.tank.telling_stage import bite_at_hand
from toneladder.tank.values import Moment, Standing, State
from toneladder.tank.view import TAKEN_BACK_WITHIN_S, View

LAST_S = 10.0
ASKED_FOR_S = 15.0
ANSWER_WITHIN_S = 60.0
BACK_SAID_S = 15.0
_MOMENT_S = 1e-6


def standing_of(course: Course, at: Elapsed, now: Moment, zone: tzinfo) -> Standing:
    """The standing of a course when both clocks are ``at``, which is ``now``."""
    state = state_at(course, at)
    in_bath = course.phase in IN_BATH
    so_far, apart = bitten(course, at) if in_bath else (0.0, 0.0)
    view = View(
        course=course,
        utc_s=now.utc_s,
        zone=zone,
        since_s=(at - course.since).steady_s,
        bitten_s=so_far,
        left_s=course.dip_s - so_far if in_bath else 0.0,
        apart_s=apart,
    )
    told = tell(state, view)
    coming = [end for end in _ends(state, view, at) if end > _MOMENT_S]
    return Standing(
        state=state,
        now=now,
        step=course.step,
        sentence=told.sentence,
        figure=told.figure,
        then=told.then,
        then_utc_s=None if told.then_in_s is None else now.utc_s + told.then_in_s,
        main=told.main,
        second=told.second,
        earlier=told.earlier,
        later=told.later,
        changes_in_s=min(coming, default=None),
        in_bath=in_bath,
        zero=_zero(view, now),
        length_s=course.dip_s if in_bath else 0.0,
        answered=course.phase is Phase.WHEN,
        bitten_s=so_far,
        apart_s=apart,
        bath_c=course.bath_c,
        said=course.said,
        order=course.order,
        orders=course.orders,
        dips=course.dips,
        effective_s=effective_totals(course),
        bite_name=bite_at_hand(course),
        silent=course.silent,
    )


def state_at(course: Course, at: Elapsed) -> State:
    """What stands on the screen when both clocks are ``at``."""
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


def _ends(state: State, view: View, at: Elapsed) -> tuple[float, ...]:
    """In how many seconds the screen changes by itself, but for its figure; past ones too."""
    course, left, since = view.course, view.left_s, view.since_s
    if course.phase is Phase.BITING and state is not State.LIFT:
        return _ends_in_bath(view, at)
    match state:
        case State.COUNT_IN:
            return (course.facts.count_in_s - since,)
        case State.LIFT:
            return left + QUICK_S, left + SAID_LATER_S
        case State.WHEN:
            return ANSWER_WITHIN_S - since, left
        case State.DRYING if course.next_step is not None:
            return (course.next_step.dry_min * 60.0 - since,)
        case _:
            return (TAKEN_BACK_WITHIN_S - since,) if course.before_lift is not None else ()


def _ends_in_bath(view: View, at: Elapsed) -> tuple[float, ...]:
    course, left = view.course, view.left_s
    asked, back = course.asked, course.back
    return (
        *(left - mark for mark in (*warnings_of(course.dip_s), LAST_S, 0.0)),
        ASKED_FOR_S - (at - asked).steady_s if asked else 0.0,
        BACK_SAID_S - (at - back[0]).steady_s if back else 0.0,
    )


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
