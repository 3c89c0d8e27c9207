"""What the events add up to: one after another they turn a course into the next."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum, auto

from toneladder.bite.curve import bite_for
from toneladder.order.values import Order, Step
from toneladder.quantities import write_temperature
from toneladder.tank.clocks import Elapsed, agree
from toneladder.tank.remarks import changed_bites, clocks_remark, strayed
from toneladder.tank.values import Dip, Event, Facts, Kind, Remedy
from toneladder.tank.working_out import (
    MET_WITHIN_S,
    Given,
    aims_of,
    alike,
    effective,
    next_dip,
    spaced_anew,
    without,
    work_out,
)
from toneladder.wording import say


class Phase(Enum):
    """Where the plate is: the states of the screen follow from it and from the time."""

    CHECK = auto()
    READY = auto()
    COUNT_IN = auto()
    BITING = auto()
    WHEN = auto()
    BETWEEN = auto()
    OUT = auto()
    STOP_OUT = auto()
    DRYING = auto()
    END = auto()
    CLOSED = auto()


IN_BATH = (Phase.BITING, Phase.WHEN)
RESTING = (Phase.CHECK, Phase.READY, Phase.BETWEEN, Phase.OUT, Phase.STOP_OUT, Phase.DRYING)
"""Where a plate is that can go into the bath."""


@dataclass(frozen=True, slots=True)
class Course:
    """What all events so far add up to.

    ``base`` has every step that was ever to be done, ``order`` what is to be done now, ``orders``
    all that were. ``aims_s`` are total bites of the tones, seconds on the curve. ``since`` is
    where on both clocks the phase began, ``start`` where the plate went in; ``slept_s`` of its
    time passed unseen, and a difference of the clocks of ``answered_s`` has been answered.
    """

    facts: Facts
    base: Order
    order: Order
    aims_s: tuple[float, ...]
    bath_c: float
    step: int
    orders: tuple[Order, ...] = ()
    phase: Phase = Phase.CHECK
    since: Elapsed = Elapsed()
    resting: Phase = Phase.READY
    dips: tuple[Dip, ...] = ()
    kept_s: tuple[tuple[int, float], ...] = ()
    strength: float = 1.0
    patched: bool = False
    # the dip under way
    start: Elapsed = Elapsed()
    dip_s: float = 0.0
    warmth: float = 1.0
    slept_s: float = 0.0
    answered_s: float = 0.0
    asked: Elapsed | None = None
    proposed_s: float = 0.0
    moved_s: float = 0.0
    before_lift: "Course | None" = None
    # what waits to be seen or chosen
    lost: tuple[int, ...] = ()
    settled: tuple[int, ...] = ()
    pointed: int = 0
    said: tuple[str, ...] = ()
    seen: bool = True
    skip_asked: bool = False
    no_sound: bool = False
    back: tuple[Elapsed, float] | None = None

    @property
    def now_step(self) -> Step:
        """The step at hand."""
        return next(s for s in self.order.steps if s.step == self.step)

    @property
    def next_step(self) -> Step | None:
        """The step after the one at hand, if there is one."""
        return next((s for s in self.order.steps if s.step > self.step), None)

    @property
    def rest_s(self) -> float:
        """What remains of the bite at hand, clock seconds."""
        had = sum(dip.bitten_s for dip in self.dips if dip.step == self.step)
        bite = next((s.bite_s for s in self.order.steps if s.step == self.step), 0.0)
        return max(bite - had, 0.0)

    @property
    def finished(self) -> bool:
        """Whether the bite of the step at hand is over."""
        over = (Phase.OUT, Phase.STOP_OUT, Phase.DRYING, Phase.END, Phase.CLOSED)
        return self.phase in over

    @property
    def rate(self) -> float:
        """Seconds on the curve per second on the clock in the bath as it is now."""
        return warmth_at(self.bath_c, self.facts) * self.strength


def warmth_at(bath_c: float, facts: Facts) -> float:
    """Rate by temperature alone."""
    return float(facts.rate * facts.q ** ((bath_c - facts.planned_c) / 10.0))


def begin(order: Order, facts: Facts) -> Course:
    """A session before anything happened."""
    first = order.steps[0].step
    return Course(facts, order, order, aims_of(order, facts), facts.planned_c, first, (order,))


def bitten(course: Course, at: Elapsed) -> tuple[float, float]:
    """Seconds in the bath so far, and by how much the clocks disagree about them, unanswered.

    Where they disagree, the longer time counts: overbiting cannot be taken back.
    """
    passed = at - course.start
    new = passed.apart_s - course.answered_s
    sure = passed.steady_s + course.slept_s
    if agree(new, passed.steady_s):
        return sure, 0.0
    return sure + max(new, 0.0), new


def after(course: Course, event: Event, at: Elapsed) -> Course:
    """The course once ``event`` happened at ``at`` on both clocks; what cannot be is left out."""
    course = replace(course, back=None) if event.kind in _BY_HAND else course
    turn = _TURNS.get(event.kind)
    return course if turn is None else turn(course, event, at)


def _go(course: Course, phase: Phase, at: Elapsed, **more: object) -> Course:
    return replace(course, phase=phase, since=at, skip_asked=False, **more)  # type: ignore[arg-type]  # names of fields


def _settled(course: Course) -> Course:
    """No question about lost tones is left open: unanswered, they are left as they are."""
    return _chosen(course, Remedy.LEAVE) if course.lost else course


def _onward(course: Course) -> Course:
    """The next step is at hand, if the last one is finished."""
    after_this = course.next_step
    if not course.finished or after_this is None:
        return course
    return replace(course, step=after_this.step, phase=Phase.READY, said=(), seen=True)


def _ready(course: Course, event: Event, at: Elapsed) -> Course:
    if course.phase is Phase.CHECK:
        return _go(course, Phase.READY, at)
    return course if event.kind is Kind.CHECKED else _go(_onward(course), Phase.READY, at)


def _counting(course: Course, _event: Event, at: Elapsed) -> Course:
    if course.phase not in RESTING:
        return course
    course = _onward(_settled(course))
    if course.phase not in {Phase.CHECK, Phase.READY, Phase.BETWEEN}:
        return course
    resting = Phase.BETWEEN if course.phase is Phase.BETWEEN else Phase.READY
    return _go(course, Phase.COUNT_IN, at, resting=resting)


def _not_yet(course: Course, _event: Event, at: Elapsed) -> Course:
    return _go(course, course.resting, at) if course.phase is Phase.COUNT_IN else course


def _started(course: Course, event: Event, at: Elapsed) -> Course:
    if course.phase is not Phase.COUNT_IN:
        course = _counting(course, event, at)
    if course.phase is not Phase.COUNT_IN:
        return course
    ago = Elapsed(event.seconds, event.seconds)
    return _go(
        course,
        Phase.BITING,
        at,
        start=at - ago,
        dip_s=next_dip(course.rest_s),
        warmth=warmth_at(course.bath_c, course.facts),
        slept_s=0.0,
        answered_s=0.0,
        asked=None,
        before_lift=None,
        said=(),
        seen=True,
    )


def _asked(course: Course, _event: Event, at: Elapsed) -> Course:
    return replace(course, asked=at) if course.phase is Phase.BITING else course


def _left_in(course: Course, _event: Event, _at: Elapsed) -> Course:
    if course.phase is Phase.WHEN and course.before_lift is not None:
        return course.before_lift
    return replace(course, asked=None) if course.phase is Phase.BITING else course


def _proposed(course: Course, _event: Event, at: Elapsed) -> Course:
    if course.phase is not Phase.BITING:
        return course
    kept = replace(course, asked=None)
    return _go(
        course,
        Phase.WHEN,
        at,
        proposed_s=bitten(course, at)[0],
        moved_s=0.0,
        before_lift=kept,
    )


def _moved(course: Course, event: Event, _at: Elapsed) -> Course:
    if course.phase is not Phase.WHEN:
        return course
    return replace(course, moved_s=course.moved_s + event.seconds)


def _lifted(course: Course, event: Event, at: Elapsed) -> Course:
    if course.phase not in IN_BATH:
        return course
    so_far, apart = bitten(course, at)
    before = course.before_lift or replace(course, asked=None)
    dip = Dip(
        step=course.step,
        planned_s=course.dip_s,
        bitten_s=max(so_far - event.seconds, 0.0),
        warmth=course.warmth,
        strength=course.strength,
        assumed=event.kind is Kind.ASSUMED,
    )
    done = replace(course, dips=(*course.dips, dip), before_lift=before)
    doubt = (clocks_remark(apart),) if apart else ()
    return _bitten(done, at, strayed(dip, done.rest_s), doubt)


def _given(course: Course, event: Event, at: Elapsed) -> Course:
    course = _settled(course)
    if course.phase not in RESTING:
        return course
    course = _onward(course)
    if course.finished:
        return course
    warmth = warmth_at(course.bath_c, course.facts)
    dip = Dip(course.step, next_dip(course.rest_s), event.seconds, warmth, course.strength)
    return _bitten(
        replace(course, dips=(*course.dips, dip), before_lift=None), at, strayed(dip, 0.0), ()
    )


def _bitten(course: Course, at: Elapsed, said: tuple[str, ...], doubt: tuple[str, ...]) -> Course:
    """A dip is over: the bite goes on after a look, or the step is done."""
    aim = course.aims_s[course.step]
    left = (aim - sum(dip.effective_s for dip in course.dips)) / course.rate
    phase = Phase.BETWEEN if min(left, course.rest_s) > MET_WITHIN_S else Phase.OUT
    return _reworked(_go(course, phase, at, said=()), (*doubt, *said))


def _still_in(course: Course, _event: Event, _at: Elapsed) -> Course:
    back = course.before_lift
    if back is None or course.phase not in {Phase.OUT, Phase.BETWEEN}:
        return course
    return replace(back, bath_c=course.bath_c, strength=course.strength, patched=course.patched)


def _ended_here(course: Course, _event: Event, at: Elapsed) -> Course:
    if course.phase is not Phase.BETWEEN:
        return course
    short = (say("{n} s short.", n=round(course.rest_s)),)
    return _reworked(_go(course, Phase.OUT, at), short)


def _seen(course: Course, _event: Event, _at: Elapsed) -> Course:
    if course.no_sound:
        return replace(course, no_sound=False)
    return replace(course, seen=True)


def _pointed(course: Course, event: Event, _at: Elapsed) -> Course:
    return replace(course, pointed=course.pointed + event.of)


def _chose(course: Course, event: Event, _at: Elapsed) -> Course:
    if not course.lost or event.text not in set(Remedy):
        return course
    return _chosen(course, Remedy(event.text))


def _chosen(course: Course, remedy: Remedy) -> Course:
    base, aims = course.base, course.aims_s
    if remedy is Remedy.ONE:
        for lighter in course.lost:
            base = without(base, lighter + 1)
    elif remedy is Remedy.ANEW:
        reached = sum(dip.effective_s for dip in course.dips)
        last = course.step if course.finished else course.step - 1
        aims = spaced_anew(base, aims, last, reached, course.facts) or aims
    settled = (*course.settled, *course.lost)
    chosen = replace(course, base=base, aims_s=aims, lost=(), settled=settled, pointed=0)
    made = _reworked(chosen, ())
    now_alike = alike(made.order, made.orders[0])
    return replace(made, lost=(), settled=tuple(sorted({*settled, *now_alike})))


def _stopping_out(course: Course, _event: Event, at: Elapsed) -> Course:
    if course.phase is not Phase.OUT:
        return course
    course = _settled(course)
    return _go(course, Phase.END if course.next_step is None else Phase.STOP_OUT, at)


def _painted(course: Course, event: Event, at: Elapsed) -> Course:
    course = _stopping_out(course, event, at)
    return _go(course, Phase.DRYING, at) if course.phase is Phase.STOP_OUT else course


def _dry(course: Course, event: Event, at: Elapsed) -> Course:
    course = _painted(course, event, at)
    return _go(_onward(course), Phase.READY, at) if course.phase is Phase.DRYING else course


def _skip_asked(course: Course, _event: Event, _at: Elapsed) -> Course:
    return replace(course, skip_asked=course.phase is Phase.READY)


def _kept(course: Course, _event: Event, _at: Elapsed) -> Course:
    return replace(course, skip_asked=False)


def _skipped(course: Course, _event: Event, at: Elapsed) -> Course:
    """The bite is left out: its tone stays as the one before, both are stopped out together."""
    if course.phase is not Phase.READY or any(dip.step == course.step for dip in course.dips):
        return course
    gone = course.step
    left = replace(course, base=without(course.base, gone), settled=(*course.settled, gone - 1))
    before = max((s.step for s in left.base.steps if s.step < gone), default=0)
    if before:
        return _reworked(_go(left, Phase.OUT, at, step=before, before_lift=None), ())
    first = next((s.step for s in left.base.steps), 0)
    if not first:
        return course
    return _reworked(_go(left, Phase.READY, at, step=first), ())


def _temperature(course: Course, event: Event, _at: Elapsed) -> Course:
    warmed = replace(course, bath_c=event.reading)
    if course.phase in IN_BATH:
        return warmed
    return _reworked(
        warmed, (say("The bath is at {bath}.", bath=write_temperature(event.reading)),)
    )


def _check_patch(course: Course, event: Event, _at: Elapsed) -> Course:
    """The first patch tells of the whole day; a later one of the bites after it."""
    curve_s = bite_for(course.facts.curve, event.reading)
    if event.seconds <= 0.0 or curve_s <= 0.0:
        return course
    strength = curve_s / (event.seconds * warmth_at(course.bath_c, course.facts))
    dips = course.dips
    if not course.patched:
        dips = tuple(replace(dip, strength=strength) for dip in dips)
    read = replace(course, strength=strength, patched=True, dips=dips)
    said = say(
        "The bath bites {ratio:.2f} times as fast as planned.", ratio=read.rate / course.facts.rate
    )
    return read if course.phase in IN_BATH else _reworked(read, (said,))


def _wrong_tone(course: Course, event: Event, _at: Elapsed) -> Course:
    """Varnish lies on a tone that was to bite on: it stays as dark as it is now."""
    tone = event.of
    open_from = course.step + 1 if course.finished else course.step
    if course.phase in IN_BATH or not open_from <= tone < len(course.base.tones):
        return course
    reached = sum(dip.effective_s for dip in course.dips)
    base = _without_tone(course.base, tone)
    kept = (*course.kept_s, (tone, reached))
    said = say(
        "Tone {tone} is under varnish and stays as it is. The rest follows; a later grain can "
        "darken it.",
        tone=tone,
    )
    return _moved_on(replace(course, base=base, kept_s=kept), tone, said)


def _too_late(course: Course, event: Event, _at: Elapsed) -> Course:
    """A tone bit on after it should have been stopped out: it is as dark as the plate is now."""
    tone = event.of
    if course.phase in IN_BATH or not 0 <= tone < course.step:
        return course
    reached = sum(dip.effective_s for dip in course.dips)
    said = say(
        "Tone {tone} was stopped out late and prints as dark as tone {now}. Nothing takes a bite "
        "back; the rest follows.",
        tone=tone,
        now=course.step,
    )
    settled = (*course.settled, *range(tone, course.step))
    late = replace(course, kept_s=(*course.kept_s, (tone, reached)), settled=settled)
    return _reworked(late, (said,))


def _without_tone(base: Order, tone: int) -> Order:
    """No step makes this tone, and none stops it out."""
    shorter = without(base, tone)
    return replace(
        shorter,
        steps=tuple(
            replace(s, stop_out=tuple(t for t in s.stop_out if t != tone)) for s in shorter.steps
        ),
    )


def _moved_on(course: Course, tone: int, said: str) -> Course:
    course = replace(course, settled=(*course.settled, tone - 1, tone))
    if tone == course.step and not course.finished:
        coming = next((s.step for s in course.base.steps if s.step > tone), None)
        if coming is None:
            return _reworked(replace(course, phase=Phase.END), (said,))
        course = replace(course, step=coming)
    return _reworked(course, (said,))


def _slept(course: Course, _event: Event, at: Elapsed) -> Course:
    return _clocks(course, at, slept=True)


def _clock_set(course: Course, _event: Event, at: Elapsed) -> Course:
    return _clocks(course, at, slept=False)


def _clocks(course: Course, at: Elapsed, *, slept: bool) -> Course:
    if course.phase is not Phase.BITING:
        return course
    new = bitten(course, at)[1]
    answered = (at - course.start).apart_s
    return replace(
        course,
        answered_s=answered if new else course.answered_s,
        slept_s=course.slept_s + (new if slept else 0.0),
    )


def _no_sound(course: Course, _event: Event, _at: Elapsed) -> Course:
    return replace(course, no_sound=True)


def _back(course: Course, event: Event, at: Elapsed) -> Course:
    return replace(course, back=(at, event.seconds))


def _closed(course: Course, _event: Event, at: Elapsed) -> Course:
    return _go(course, Phase.CLOSED, at) if course.phase is Phase.END else course


def _reworked(course: Course, said: tuple[str, ...]) -> Course:
    """The rest worked out again after what happened, and what there is to say of it."""
    given = Given(
        dips=course.dips,
        step=course.step,
        finished=course.finished,
        kept_s=dict(course.kept_s),
        rate=course.rate,
        shown_s={s.step: s.bite_s for s in course.order.steps},
    )
    order = work_out(course.base, course.aims_s, given, course.facts)
    new = changed_bites(course.order, order, course.step, finished=course.finished)
    lost = tuple(
        lighter
        for lighter in alike(order, course.orders[0])
        if lighter >= course.step - (not course.finished) and lighter not in course.settled
    )
    orders = course.orders if _same_bites(order, course.orders[-1]) else (*course.orders, order)
    lines = (*course.said, *said, *new)
    quiet = course.seen and not (said or new)
    return replace(course, order=order, orders=orders, lost=lost, said=lines, seen=quiet)


def _same_bites(one: Order, other: Order) -> bool:
    return [(s.step, s.bite_s) for s in one.steps] == [(s.step, s.bite_s) for s in other.steps]


def effective_totals(course: Course) -> tuple[float, ...]:
    """Seconds on the curve that every tone has had so far."""
    return effective(course.dips, len(course.base.tones), dict(course.kept_s))


Turn = Callable[[Course, Event, Elapsed], Course]

_TURNS: Mapping[Kind, Turn] = {
    Kind.CHECKED: _ready,
    Kind.COUNTING: _counting,
    Kind.NOT_YET: _not_yet,
    Kind.STARTED: _started,
    Kind.ASKED: _asked,
    Kind.LEFT_IN: _left_in,
    Kind.PROPOSED: _proposed,
    Kind.MOVED: _moved,
    Kind.LIFTED: _lifted,
    Kind.ASSUMED: _lifted,
    Kind.STILL_IN: _still_in,
    Kind.GIVEN: _given,
    Kind.ENDED_HERE: _ended_here,
    Kind.SEEN: _seen,
    Kind.POINTED: _pointed,
    Kind.CHOSE: _chose,
    Kind.STOPPING_OUT: _stopping_out,
    Kind.PAINTED: _painted,
    Kind.DRY: _dry,
    Kind.SKIP_ASKED: _skip_asked,
    Kind.SKIPPED: _skipped,
    Kind.KEPT: _kept,
    Kind.TEMPERATURE: _temperature,
    Kind.CHECK_PATCH: _check_patch,
    Kind.WRONG_TONE: _wrong_tone,
    Kind.TOO_LATE: _too_late,
    Kind.SLEPT: _slept,
    Kind.CLOCK_SET: _clock_set,
    Kind.NO_SOUND: _no_sound,
    Kind.BACK: _back,
    Kind.CLOSED: _closed,
}

_BY_HAND: Sequence[Kind] = (Kind.ASKED, Kind.LEFT_IN, Kind.PROPOSED, Kind.LIFTED)
