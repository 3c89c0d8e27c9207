"""Any stay at the tank with overruns, early lifts and warm baths: are its totals met?"""

from dataclasses import replace
from functools import cache

from hypothesis import strategies as st
from tests.core.tank.hands import NOON, curve

from toneladder.order.rounding import hand_step
from toneladder.order.values import Order
from toneladder.tank.clocks import Elapsed
from toneladder.tank.course import Course, Phase, begin
from toneladder.tank.following import after
from toneladder.tank.reworking import effective_totals
from toneladder.tank.values import Event, Facts, Kind, Remedy
from toneladder.tank.working_out import AS_PLANNED_S

# seconds late (above 0), or the share of the dip after which it is lifted early (below 0)
LIFTS = st.one_of(st.just(0.0), st.floats(0.5, 90.0), st.floats(-0.95, -0.05))
STEPS = st.lists(
    st.tuples(st.none() | st.floats(14.0, 26.0), st.lists(LIFTS, max_size=3)),
    min_size=5,
    max_size=5,
)
Happened = list[tuple[float | None, list[float]]]


@cache
def coarse() -> Facts:
    """The same curve in fewer points: quicker, and as good for sums of time."""
    fine = curve()

    def few(line: tuple[float, ...]) -> tuple[float, ...]:
        return (*line[::12], line[-1])

    cut = replace(
        fine,
        bites_s=few(fine.bites_s),
        lightness=few(fine.lightness),
        low=few(fine.low),
        high=few(fine.high),
    )
    return Facts(cut, 1.0, 20.0)


class Tank:
    """Events one after another, each as soon as it is told."""

    def __init__(self, order: Order, facts: Facts) -> None:
        self.course: Course = begin(order, facts)
        self.at = 0.0

    def tell(self, kind: Kind, wait: float = 0.0, reading: float = 0.0, text: str = "") -> None:
        self.at += wait
        event = Event(0, kind, NOON.later(self.at), 0.0, reading, 0, text)
        self.course = after(self.course, event, Elapsed(self.at, self.at))


def bite_step(tank: Tank, lifts: list[float]) -> None:
    """One step to its end: strayed dips first, then as many as asked for, lifted as told."""
    strayed = iter(lifts)
    while True:
        tank.tell(Kind.STARTED, 60.0)
        how = next(strayed, 0.0)
        length = tank.course.dip_s
        tank.tell(Kind.LIFTED, length * (1.0 + how) if how < 0.0 else length + how)
        if tank.course.phase is not Phase.BETWEEN:
            return


def allow_left_out(course: Course, made: set[int], allowed: dict[int, float]) -> None:
    """A step whose rest was rounded to nothing may be off by that rest, in that hour's bath."""
    for step in made - {s.step for s in course.order.steps} - allowed.keys():
        allowed[step] = 2.5 * course.rate + 1e-6


def require_totals_met(order: Order, facts: Facts, steps: Happened) -> None:
    """When no total is past, the final totals in effective time are met within the rounding."""
    tank = Tank(order, facts)
    made = {s.step for s in order.steps}
    past: set[int] = set()
    allowed = dict.fromkeys(range(min(made)), 0.0)
    for bath_c, lifts in steps:
        if bath_c is not None:
            tank.tell(Kind.TEMPERATURE, 60.0, bath_c)
            allow_left_out(tank.course, made, allowed)
        if tank.course.lost:
            tank.tell(Kind.CHOSE, text=Remedy.LEAVE.value)
        if tank.course.phase is Phase.END:
            break
        before = sum(dip.effective_s for dip in tank.course.dips)
        wanted = (tank.course.aims_s[tank.course.step] - before) / tank.course.rate
        bite_step(tank, lifts)
        if tank.course.lost:
            tank.tell(Kind.CHOSE, text=Remedy.LEAVE.value)
        course = tank.course
        totals = effective_totals(course)
        step = course.step
        bitten = sum(dip.bitten_s for dip in course.dips if dip.step == step)
        slack = hand_step(max(wanted, bitten)) / 2.0
        rate = max(dip.warmth for dip in course.dips if dip.step == step)
        allowed[step] = rate * (max(slack, 2.5) + AS_PLANNED_S) + 1e-6
        past |= {t for t in made if t > step and totals[step] > course.aims_s[t]}
        past |= {step} if totals[step] > course.aims_s[step] + allowed[step] else set()
        allow_left_out(course, made, allowed)
        if course.next_step is None:
            break
        tank.tell(Kind.DRY, 600.0)
    strayed = any(dip.bitten_s > dip.planned_s + 1e-6 for dip in tank.course.dips)
    assert strayed or not past
    totals = effective_totals(tank.course)
    longest = float("inf") if facts.curve is None else facts.curve.longest_tested_s
    for tone, aim in enumerate(tank.course.aims_s):
        step = max((s for s in made if s <= tone), default=0)
        if step in past:
            continue
        within = allowed.get(step, 2.5 * tank.course.rate)
        near_the_end = aim + within > longest  # there no rounding goes up
        assert abs(totals[tone] - aim) <= within * (2.0 if near_the_end else 1.0)
