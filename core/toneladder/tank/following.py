"""One event after another turns a course into the next."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from toneladder.tank import between, dipping, mending
from toneladder.tank.clocks import Elapsed
from toneladder.tank.course import Course
from toneladder.tank.values import Event, Kind


def after(course: Course, event: Event, at: Elapsed) -> Course:
    """The course once ``event`` happened at ``at`` on both clocks; what cannot be is left out."""
    course = replace(course, back=None) if event.kind in _BY_HAND else course
    turn = _TURNS.get(event.kind)
    return course if turn is None else turn(course, event, at)


Turn = Callable[[Course, Event, Elapsed], Course]

_TURNS: Mapping[Kind, Turn] = {
    Kind.CHECKED: between.checked,
    Kind.COUNTING: dipping.counting,
    Kind.NOT_YET: dipping.not_yet,
    Kind.STARTED: dipping.started,
    Kind.ASKED: dipping.asked,
    Kind.LEFT_IN: dipping.left_in,
    Kind.PROPOSED: dipping.proposed,
    Kind.MOVED: dipping.moved,
    Kind.LIFTED: dipping.lifted,
    Kind.ASSUMED: dipping.lifted,
    Kind.STILL_IN: dipping.still_in,
    Kind.GIVEN: dipping.given,
    Kind.ENDED_HERE: dipping.ended_here,
    Kind.SEEN: between.seen,
    Kind.POINTED: mending.pointed,
    Kind.CHOSE: mending.chose,
    Kind.STOPPING_OUT: between.stopping_out,
    Kind.PAINTED: between.painted,
    Kind.DRY: between.dry,
    Kind.SKIP_ASKED: between.skip_asked,
    Kind.SKIPPED: between.skipped,
    Kind.KEPT: between.kept,
    Kind.TEMPERATURE: mending.temperature,
    Kind.CHECK_PATCH: mending.check_patch,
    Kind.WRONG_TONE: mending.wrong_tone,
    Kind.TOO_LATE: mending.too_late,
    Kind.SLEPT: dipping.slept,
    Kind.CLOCK_SET: dipping.clock_set,
    Kind.NO_SOUND: between.no_sound,
    Kind.BACK: dipping.back,
    Kind.CLOSED: between.closed,
}

_BY_HAND: Sequence[Kind] = (Kind.ASKED, Kind.LEFT_IN, Kind.PROPOSED, Kind.LIFTED)
