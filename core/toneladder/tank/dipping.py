"""Into the bath and out of it: the turns that a course takes there."""

from dataclasses import replace

from toneladder.quantities import write_bite
from toneladder.tank.clocks import Elapsed
from toneladder.tank.course import IN_BATH, RESTING, Course, Phase, bitten, go, warmth_at
from toneladder.tank.remarks import clocks_remark, strayed
from toneladder.tank.reworking import onward, reworked, settled
from toneladder.tank.values import Dip, Event, Kind
from toneladder.tank.working_out import AS_PLANNED_S, MET_WITHIN_S
from toneladder.wording import say

_CAN_GO_IN = (Phase.CHECK, Phase.READY, Phase.BETWEEN)


def counting(course: Course, _event: Event, at: Elapsed) -> Course:
    """The count-in begins, wherever the plate is out of the bath and a bite is left."""
    if course.phase not in RESTING:
        return course
    course = onward(settled(course))
    if course.phase not in _CAN_GO_IN:
        return course
    resting = Phase.BETWEEN if course.phase is Phase.BETWEEN else Phase.READY
    return replace(go(course, Phase.COUNT_IN, at), resting=resting)


def not_yet(course: Course, _event: Event, at: Elapsed) -> Course:
    """The count-in is called off."""
    return go(course, course.resting, at) if course.phase is Phase.COUNT_IN else course


def started(course: Course, event: Event, at: Elapsed) -> Course:
    """The plate is wet, now or some seconds ago: the bite begins."""
    course = counting(course, event, at)
    if course.phase is not Phase.COUNT_IN:
        return course
    return replace(
        go(course, Phase.BITING, at),
        start=at - Elapsed(max(event.seconds, 0.0), max(event.seconds, 0.0)),
        dip_s=course.next_dip_s,
        warmth=warmth_at(course.bath_c, course.facts),
        slept_s=0.0,
        answered_s=0.0,
        asked=None,
        before_lift=None,
        doubted=False,
        said=(),
        seen=True,
    )


def asked(course: Course, _event: Event, at: Elapsed) -> Course:
    """Somebody pressed while the plate bites: it is asked whether it is out."""
    return replace(course, asked=at) if course.phase is Phase.BITING else course


def left_in(course: Course, _event: Event, _at: Elapsed) -> Course:
    """No, it is in: the bite runs on as if nothing had been asked."""
    if course.phase is Phase.WHEN and course.before_lift is not None:
        return course.before_lift
    return replace(course, asked=None) if course.phase is Phase.BITING else course


def proposed(course: Course, _event: Event, at: Elapsed) -> Course:
    """It is out, says somebody; when that was is asked next."""
    if course.phase is not Phase.BITING:
        return course
    return replace(
        go(course, Phase.WHEN, at),
        proposed_s=bitten(course, at)[0],
        moved_s=0.0,
        dated=False,
        before_lift=replace(course, asked=None),
    )


def moved(course: Course, event: Event, _at: Elapsed) -> Course:
    """It was a little earlier, or a little later."""
    if course.phase is not Phase.WHEN:
        return course
    return replace(course, moved_s=course.moved_s + event.seconds, dated=True)


def lifted(course: Course, event: Event, at: Elapsed) -> Course:
    """The plate is under the rinse, now or some seconds ago."""
    if course.phase not in IN_BATH:
        return course
    so_far, apart = bitten(course, at)
    dip = Dip(
        step=course.step,
        planned_s=course.dip_s,
        bitten_s=min(max(so_far - event.seconds, 0.0), so_far),
        warmth=course.warmth,
        strength=course.strength,
        assumed=event.kind is Kind.ASSUMED,
    )
    before = course.before_lift or replace(course, asked=None)
    return _dip_over(course, dip, at, before, (clocks_remark(apart),) if apart else ())


def given(course: Course, event: Event, at: Elapsed) -> Course:
    """A bite timed by a watch is entered after the fact."""
    if course.phase not in RESTING or event.seconds <= 0.0:
        return course
    course = onward(settled(course))
    if course.finished:
        return course
    warmth = warmth_at(course.bath_c, course.facts)
    dip = Dip(course.step, course.next_dip_s, event.seconds, warmth, course.strength)
    return _dip_over(course, dip, at, None, ())


def still_in(course: Course, _event: Event, _at: Elapsed) -> Course:
    """The lift is taken back: the bite never stopped."""
    back = course.before_lift
    if back is None or course.phase not in {Phase.OUT, Phase.BETWEEN}:
        return course
    return replace(
        back,
        bath_c=course.bath_c,
        strength=course.strength,
        patched=course.patched,
        silent=course.silent,
        doubted=True,
    )


def ended_here(course: Course, _event: Event, at: Elapsed) -> Course:
    """The rest of a bite is given up; later bites make up for it."""
    if course.phase is not Phase.BETWEEN:
        return course
    short = say("Ended {time} short.", time=write_bite(course.rest_s))
    return reworked(go(course, Phase.OUT, at), (short,))


def slept(course: Course, _event: Event, at: Elapsed) -> Course:
    """The computer was asleep: the clock on the wall is right."""
    return _clocks(course, at, slept=True)


def clock_set(course: Course, _event: Event, at: Elapsed) -> Course:
    """Somebody set the clock on the wall: the other one is right."""
    return _clocks(course, at, slept=False)


def back(course: Course, event: Event, at: Elapsed) -> Course:
    """The program is there again after nothing was seen for some seconds."""
    return replace(course, back=(at, event.seconds))


def _clocks(course: Course, at: Elapsed, *, slept: bool) -> Course:
    new = bitten(course, at)[1]
    if course.phase is not Phase.BITING or not new:
        return course
    return replace(
        course,
        answered_s=(at - course.start).apart_s,
        slept_s=course.slept_s + (new if slept else 0.0),
    )


def _dip_over(
    course: Course, dip: Dip, at: Elapsed, before: Course | None, doubt: tuple[str, ...]
) -> Course:
    """A dip is over: the bite goes on after a look, or the step is done.

    A dip that strayed is made up for by the next one of its step; only the step can stray.
    """
    bite_s = course.had_s + course.rest_s
    had = replace(course, dips=(*course.dips, dip), before_lift=before, said=(), seen=True)
    reached = sum(one.effective_s for one in had.dips)
    left = (had.aims_s[had.step] - reached) / had.rate
    goes_on = left > MET_WITHIN_S and had.rest_s > AS_PLANNED_S
    phase = Phase.BETWEEN if goes_on else Phase.OUT
    strays = () if goes_on else strayed(had.had_s, bite_s)
    return reworked(go(had, phase, at), (*doubt, *strays))
