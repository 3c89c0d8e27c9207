"""What the events add up to: where the plate is, what it has had, what is to be done."""

from dataclasses import dataclass, replace
from enum import Enum, auto

from toneladder.order.values import Order, Step
from toneladder.tank.clocks import Elapsed, agree
from toneladder.tank.values import Dip, Facts
from toneladder.tank.working_out import aims_of, next_dip


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
    time passed unseen, and a difference of the clocks of ``answered_s`` has been answered. It is
    ``dated`` once somebody set the figure of its lift, ``doubted`` once its lift was taken back;
    ``silent`` if nothing can be heard here.
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
    silent: bool = False
    # the dip under way
    start: Elapsed = Elapsed()
    dip_s: float = 0.0
    warmth: float = 1.0
    slept_s: float = 0.0
    answered_s: float = 0.0
    asked: Elapsed | None = None
    proposed_s: float = 0.0
    moved_s: float = 0.0
    dated: bool = False
    doubted: bool = False
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
    def coming_step(self) -> Step | None:
        """The step at hand, or the next one if its bite is over."""
        least = self.step + self.finished
        return next((s for s in self.order.steps if s.step >= least), None)

    @property
    def planned(self) -> Order:
        """The order that the session was begun with."""
        return self.orders[0]

    @property
    def next_dip_s(self) -> float:
        """How long the next dip of the bite at hand is."""
        return next_dip(self.rest_s, self.facts.longest_dip_s)

    @property
    def had_s(self) -> float:
        """What the step at hand has had of its bite, in all its dips, clock seconds."""
        return sum(dip.bitten_s for dip in self.dips if dip.step == self.step)

    @property
    def rest_s(self) -> float:
        """What remains of the bite at hand, clock seconds."""
        bite = next((s.bite_s for s in self.order.steps if s.step == self.step), 0.0)
        return max(bite - self.had_s, 0.0)

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


def go(course: Course, phase: Phase, at: Elapsed) -> Course:
    """The course in another phase, which began at ``at``."""
    return replace(course, phase=phase, since=at, skip_asked=False)
