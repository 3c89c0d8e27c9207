"""Between two bites: the turns of a course while the plate is looked at, painted and dried."""

from dataclasses import replace

from toneladder.tank.clocks import Elapsed
from toneladder.tank.course import Course, Phase, go
from toneladder.tank.reworking import onward, reworked, settled
from toneladder.tank.values import Event, Stage
from toneladder.tank.working_out import without


def checked(course: Course, _event: Event, at: Elapsed) -> Course:
    """Back, edges and plate were looked at; in a fresh grain the lights are stopped out next."""
    if course.phase is not Phase.CHECK:
        return course
    if course.facts.stage is Stage.SECOND:
        return go(replace(course, step=0), Phase.STOP_OUT, at)
    return go(course, Phase.READY, at)


def seen(course: Course, _event: Event, _at: Elapsed) -> Course:
    """What was said has been read."""
    if course.no_sound:
        return replace(course, no_sound=False)
    return replace(course, seen=True)


def no_sound(course: Course, _event: Event, _at: Elapsed) -> Course:
    """Nothing can be heard from the machine."""
    return replace(course, no_sound=True, silent=True)


def stopping_out(course: Course, _event: Event, at: Elapsed) -> Course:
    """The brush is taken up; after the last lift there is nothing to stop out."""
    if course.phase is not Phase.OUT:
        return course
    course = settled(course)
    return go(course, Phase.END if course.next_step is None else Phase.STOP_OUT, at)


def painted(course: Course, event: Event, at: Elapsed) -> Course:
    """All is stopped out, and dries."""
    course = stopping_out(course, event, at)
    return go(course, Phase.DRYING, at) if course.phase is Phase.STOP_OUT else course


def dry(course: Course, event: Event, at: Elapsed) -> Course:
    """The varnish is dry: the next step is at hand."""
    course = painted(course, event, at)
    return go(onward(course), Phase.READY, at) if course.phase is Phase.DRYING else course


def skip_asked(course: Course, _event: Event, _at: Elapsed) -> Course:
    """Somebody wants to skip the step: it is asked again."""
    return replace(course, skip_asked=course.phase is Phase.READY)


def kept(course: Course, _event: Event, _at: Elapsed) -> Course:
    """No, it is kept."""
    return replace(course, skip_asked=False)


def skipped(course: Course, _event: Event, at: Elapsed) -> Course:
    """The bite is left out: its tone stays as the one before, both are stopped out together."""
    gone = course.step
    if course.phase is not Phase.READY or any(dip.step == gone for dip in course.dips):
        return course
    base = without(course.base, gone)
    if not base.steps:
        return course
    left = replace(course, base=base, settled=(*course.settled, gone - 1), before_lift=None)
    before = max((s.step for s in base.steps if s.step < gone), default=0)
    if not before:
        return reworked(go(replace(left, step=base.steps[0].step), Phase.READY, at))
    return stopping_out(reworked(go(replace(left, step=before), Phase.OUT, at)), _event, at)


def closed(course: Course, _event: Event, at: Elapsed) -> Course:
    """The session is over."""
    return go(course, Phase.CLOSED, at) if course.phase is Phase.END else course
