"""How far a peg may go, in which steps, and what a hand on it means: pure values.

A peg's reading is a whole number as it is spoken: hundredths of printed darkness, or seconds of
total bite. Both rise downwards, so that up is always lighter and shorter.
"""

from dataclasses import dataclass, replace

from toneladder.order.rounding import hand_step, rounded
from toneladder.quantities import write_bite
from toneladder.wording import say
from toneladder_desktop.ladder.content import Content, Peg, Side
from toneladder_desktop.ladder.layout import Layout

SMALL_STEP = 5
"""Hundredths of darkness that an arrow key moves a parting."""

FINE = 0.2
"""Share of the hand's way that a peg goes while Ctrl is down."""

LEAST_BETWEEN = 10
"""Hundredths of darkness between two partings."""

MOST_TYPED_S = 4 * 3600.0
_GRAIN = 1e-6


@dataclass(frozen=True, slots=True)
class Limits:
    """The least and the most reading of a peg."""

    least: int
    most: int

    def holds(self, reading: float) -> bool:
        """Whether a reading lies within."""
        return self.least <= reading <= self.most

    def kept(self, reading: float) -> float:
        """The reading, or the limit that it passes."""
        return min(max(reading, self.least), self.most)


@dataclass(frozen=True, slots=True)
class Grip:
    """A hand on a peg.

    ``taken`` is the peg on the ladder ``before``, as it was, and ``peg`` the same one now;
    ``asked`` is the number of its tone as it was asked for. The peg was at ``true_y`` on its
    rail when the hand was at ``hand_y``. ``reading`` is where it is now, and ``stopped`` says
    why it goes no further.
    """

    peg: Peg
    taken: Peg
    asked: int
    before: Content
    limits: Limits
    true_y: float
    hand_y: float
    fine: bool
    reading: int
    stopped: str = ""


def reading_of(content: Content, peg: Peg) -> int:
    """Where a peg is."""
    return _reading(peg.side, content.value(peg))


def value_at(side: Side, reading: float) -> float:
    """Printed lightness L* or seconds of a reading."""
    return 100.0 - reading / 10.0 if side is Side.PARTING else float(reading)


def limits_of(content: Content, peg: Peg) -> Limits:
    """How far a peg may go: to its neighbours, less the shortest bite a hand can time."""
    at = reading_of(content, peg)
    if peg.side is Side.PARTING:
        ends = [_reading(Side.PARTING, level) for level in (content.paper, content.deepest)]
        inner = [reading_of(content, Peg(Side.PARTING, n)) for n in range(1, content.count)]
        around = [ends[0] - SMALL_STEP, *inner, ends[1] + SMALL_STEP]
        least, most = around[peg.step - 1] + LEAST_BETWEEN, around[peg.step + 1] - LEAST_BETWEEN
    else:
        shortest = round(content.shortest_s)
        start = round(content.rungs[peg.step - 1].tone.total_bite_s)
        least = start + shortest
        most = round(content.end_s)
        if peg.step + 1 < content.count:
            most = round(content.rungs[peg.step + 1].tone.total_bite_s) - shortest
            most = start + _timed_below(most - start)
    return Limits(min(least, at), max(most, at))


def typed_limits_of(content: Content, peg: Peg) -> Limits:
    """How far a typed peg may go: the longest bite may be longer than the rail."""
    limits = limits_of(content, peg)
    if peg.side is Side.BITE and peg.step + 1 == content.count:
        return Limits(limits.least, round(max(MOST_TYPED_S, float(limits.most))))
    return limits


def stepped(content: Content, peg: Peg, steps: int) -> int:
    """The reading after ``steps`` small steps, downwards if positive, within the limits."""
    limits, reading = limits_of(content, peg), reading_of(content, peg)
    for _ in range(abs(steps)):
        reading = _next(content, peg, reading, down=steps > 0)
    return round(limits.kept(reading))


def grip_of(content: Content, layout: Layout, peg: Peg, y: float, *, fine: bool) -> Grip:
    """A hand takes a peg at height ``y``."""
    return Grip(
        peg=peg,
        taken=peg,
        asked=content.rungs[peg.step].asked,
        before=content,
        limits=limits_of(content, peg),
        true_y=layout.place(peg).true_y,
        hand_y=y,
        fine=fine,
        reading=reading_of(content, peg),
    )


def moved(grip: Grip, layout: Layout, y: float, *, fine: bool) -> Grip:
    """The hand is at ``y`` now."""
    if fine is not grip.fine:
        here = _y_of(layout, grip.peg.side, grip.reading)
        return replace(grip, true_y=here, hand_y=y, fine=fine)
    true_y = grip.true_y + (y - grip.hand_y) * (FINE if fine else 1.0)
    if abs(y - grip.hand_y) < 0.5:
        return grip
    if grip.peg.side is Side.PARTING:
        wanted = 1000.0 - 10.0 * layout.darkness.lightness(true_y)
        grain = 1 if fine else SMALL_STEP
        wanted = grain * round(wanted / grain)
    else:
        start = grip.before.rungs[grip.taken.step - 1].tone.total_bite_s
        wanted = start + rounded(max(layout.bites.total_s(true_y) - start, 0.0), dark=False)
        if true_y > layout.bites.bottom:
            wanted = max(wanted, layout.bites.end_s + 1.0)
    stopped = "" if grip.limits.holds(wanted) else _why(grip, less=wanted < grip.limits.least)
    return replace(grip, reading=round(grip.limits.kept(wanted)), stopped=stopped)


def regripped(grip: Grip, content: Content) -> Grip | None:
    """The grip on a ladder that was worked out anew, or None if its peg is gone."""
    peg = _followed(grip, content)
    return None if peg is None else replace(grip, peg=peg)


def _followed(grip: Grip, content: Content) -> Peg | None:
    if grip.peg.side is Side.PARTING:
        for step, parting in enumerate(content.partings, start=1):
            if _reading(Side.PARTING, parting.lightness) == grip.reading:
                return Peg(Side.PARTING, step)
        return grip.peg if grip.peg.step < content.count else None
    for step, rung in enumerate(content.rungs):
        if rung.asked == grip.asked and step:
            return Peg(Side.BITE, step)
    return None


def _reading(side: Side, value: float) -> int:
    return round(1000.0 - 10.0 * value) if side is Side.PARTING else round(value)


def _y_of(layout: Layout, side: Side, reading: float) -> float:
    value = value_at(side, reading)
    return layout.darkness.y(value) if side is Side.PARTING else layout.bites.y(value)


def _next(content: Content, peg: Peg, reading: int, *, down: bool) -> int:
    """One small step on: a round darkness, or the next bite that a hand can time."""
    if peg.side is Side.PARTING:
        past = reading % SMALL_STEP
        return reading + SMALL_STEP - past if down else reading - (past or SMALL_STEP)
    start = round(content.rungs[peg.step - 1].tone.total_bite_s)
    bite = reading - start
    step = hand_step(bite + _GRAIN) if down else hand_step(bite - _GRAIN)
    over = bite % step
    nearby = bite + step - over if down else bite - (over or step)
    return start + round(nearby)


def _timed_below(bite_s: int) -> int:
    """The longest bite a hand can time that is no longer than ``bite_s``."""
    step = hand_step(bite_s)
    return round(step * (bite_s // step))


def _why(grip: Grip, *, less: bool) -> str:
    """Why the peg stops."""
    step, last = grip.taken.step, grip.before.count - 1
    if grip.peg.side is Side.PARTING:
        if less and step == 1:
            return say("stops at white")
        if not less and step == last:
            return say("stops at the darkest tone")
        other = step - 1 if less else step + 1
        return say("stops at parting {a} | {b}", a=other - 1, b=other)
    if not less and step == last:
        return say("the rail ends here; type a longer bite")
    return say(
        "stops here: step {step} must bite {shortest}",
        step=step if less else step + 1,
        shortest=write_bite(grip.before.shortest_s),
    )
