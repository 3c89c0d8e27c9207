"""Works out the rest of the bites, so that the totals are met after all that happened."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from toneladder.bite.curve import band_at, bite_for, bite_range_for, lightness_at
from toneladder.order.day import Work, day, lifts
from toneladder.order.rounding import dips, hand_step, hand_timed
from toneladder.order.values import Order, Step, Tone
from toneladder.tank.values import Dip, Facts
from toneladder.tones.parting import TOLD_APART
from toneladder.tones.values import Painting

AS_PLANNED_S = 0.5
NO_BITE_S = 1e-3
MET_WITHIN_S = 2.5
"""Half of the shortest step a hand can time: nearer to its total no bite is begun again."""


@dataclass(frozen=True, slots=True)
class Given:
    """What the plate has had.

    ``step`` is the one at hand, or the last one if all are done; ``finished`` if it is done.
    ``kept_s`` are total bites (seconds on the curve) of tones stopped out at another time than
    planned. ``rate`` is today's, seconds on the curve per second on the clock. ``shown_s`` are
    the bites now on the screen, by step: they stay as long as they meet the totals.
    """

    dips: tuple[Dip, ...]
    step: int
    finished: bool
    kept_s: Mapping[int, float]
    rate: float
    shown_s: Mapping[int, float]


def aims_of(order: Order, facts: Facts) -> tuple[float, ...]:
    """Total bite of each tone as planned, seconds on the curve."""
    return tuple(tone.total_bite_s * facts.rate for tone in order.tones)


def effective(dips: Sequence[Dip], tones: int, kept_s: Mapping[int, float]) -> tuple[float, ...]:
    """Seconds on the curve that each tone has had: the sum of bite times rate up to its step."""
    sums = [sum(dip.effective_s for dip in dips if dip.step <= tone) for tone in range(tones)]
    return tuple(kept_s.get(tone, total) for tone, total in enumerate(sums))


def work_out(base: Order, aims_s: Sequence[float], given: Given, facts: Facts) -> Order:
    """The order with the bites that remain changed so that its totals are met.

    Parameters
    ----------
    base : Order
        All steps that were ever to be done, with their bites as last planned.
    aims_s : sequence of float
        Total bite of each tone to be met, seconds on the curve.
    given : Given
        What the plate has had.
    facts : Facts
        Curve and rates.

    Returns
    -------
    Order
        Done steps have the bites that were really given. Bites that remain are what a hand can
        time, except the rest of a bite once begun, which the program times. A step whose
        total is reached already is left out; the next one stops out its tones too.
    """
    reached = sum(dip.effective_s for dip in given.dips)
    first = given.step + 1 if given.finished else given.step
    left = [s for s in base.steps if s.step >= first]
    so_far = sum(dip.bitten_s for dip in given.dips if left and dip.step == left[0].step)
    wanted = [max(aims_s[s.step] - reached, 0.0) / given.rate for s in left]
    shown = [given.shown_s.get(s.step, 0.0) for s in left]
    tested = math.inf if facts.curve is None else facts.curve.longest_tested_s
    longest = (tested - reached) / given.rate
    bites = _bites(wanted, shown, so_far, longest)
    clock = {
        s.step: sum(dip.bitten_s for dip in given.dips if dip.step == s.step) for s in base.steps
    }
    for s, bite in zip(left, bites, strict=True):
        clock[s.step] += bite
    had = effective(given.dips, len(base.tones), given.kept_s)
    coming = dict(zip((s.step for s in left), np.cumsum(bites) * given.rate, strict=True))
    totals: list[float] = []
    now = reached
    for tone in range(len(base.tones)):
        now = reached + coming.get(tone, now - reached)
        kept = tone in given.kept_s or not left or tone < left[0].step
        totals.append(had[tone] if kept else now)
    return _order(base, clock, totals, given.rate, facts)


def alike(now: Order, planned: Order, *, by_bite: bool = False) -> tuple[int, ...]:
    """The lighter tone of each pair of neighbours told apart in the plan but no more now.

    Where nothing but bites is known, ``by_bite``, they are alike if no bite is left between them.
    """
    if by_bite:
        return _alike_by_bite(now, planned)
    return tuple(
        a.tone
        for (a, b), (was_a, was_b) in zip(pairwise(now.tones), pairwise(planned.tones), strict=True)
        if abs(a.lightness - b.lightness) < TOLD_APART <= was_a.lightness - was_b.lightness
    )


def _alike_by_bite(now: Order, planned: Order) -> tuple[int, ...]:
    return tuple(
        a.tone
        for (a, b), (was_a, was_b) in zip(pairwise(now.tones), pairwise(planned.tones), strict=True)
        if b.total_bite_s - a.total_bite_s < MET_WITHIN_S <= was_b.total_bite_s - was_a.total_bite_s
    )


def spaced_anew(
    base: Order, aims_s: Sequence[float], after: int, reached_s: float, facts: Facts
) -> tuple[float, ...] | None:
    """Aims with the tones of the steps after ``after`` evenly spaced in lightness.

    They lie between what is reached and the deepest tone; None if there is no room, or no curve.
    """
    if facts.curve is None:
        return None
    coming = [s.step for s in base.steps if s.step > after]
    if not coming:
        return None
    deepest = aims_s[coming[-1]]
    top, foot = (float(lightness_at(facts.curve, total)) for total in (reached_s, deepest))
    if top - foot < TOLD_APART * len(coming):
        deepest = facts.curve.deepest_useful_s
        foot = float(lightness_at(facts.curve, deepest))
    if top - foot < TOLD_APART * len(coming):
        return None
    aims = list(aims_s)
    for tone, level in zip(coming, np.linspace(top, foot, len(coming) + 1)[1:], strict=True):
        aims[tone] = max(bite_for(facts.curve, float(level)), reached_s)
    aims[coming[-1]] = deepest
    return tuple(aims)


def without(base: Order, step: int) -> Order:
    """The order without one step: what it was to stop out is stopped out with the next one."""
    steps = [one for one in base.steps if one.step != step]
    gone = next((one for one in base.steps if one.step == step), None)
    if gone is None:
        return base
    heir = next((k for k, one in enumerate(steps) if one.step > step), None)
    if heir is not None:
        steps[heir] = _joined(gone, steps[heir])
    return replace(base, steps=tuple(steps))


def next_dip(rest_s: float, longest_s: float) -> float:
    """How long the next dip is when so much of a bite remains: the last one takes the rest."""
    parts = dips(rest_s, longest_s)
    return parts[0] if len(parts) > 1 else rest_s


def _bites(
    wanted_s: Sequence[float], shown_s: Sequence[float], so_far: float, longest_s: float
) -> tuple[float, ...]:
    """Clock seconds still to be bitten, step by step, for totals counted from now on."""
    totals = [round(float(total), 6) for total in np.maximum.accumulate(wanted_s)]
    stay = [max(bite - so_far * (k == 0), 0.0) for k, bite in enumerate(shown_s)]
    if all(
        abs(total - reached) <= (AS_PLANNED_S if so_far and not k else hand_step(bite) / 2.0)
        for k, (total, reached, bite) in enumerate(zip(totals, np.cumsum(stay), stay, strict=True))
    ):
        return tuple(stay)
    begun = [k == 0 and so_far > 0.0 for k in range(len(totals))]
    return hand_timed(totals, 0.0, longest_s, begun)


def _order(
    base: Order, clock: Mapping[int, float], totals: Sequence[float], rate: float, facts: Facts
) -> Order:
    sums = np.cumsum([clock.get(tone.tone, 0.0) for tone in base.tones])
    tones = tuple(
        tone
        if abs(tone.total_bite_s * facts.rate - total) < 1e-6 and abs(tone.total_bite_s - at) < 1e-6
        else _tone(tone, float(at), total, rate, facts)
        for tone, at, total in zip(base.tones, sums, totals, strict=True)
    )
    whole = replace(base, tones=tones)
    for step in base.steps:
        if clock[step.step] < NO_BITE_S:
            whole = without(whole, step.step)
    return _worked(whole, clock, facts)


def _worked(order: Order, clock: Mapping[int, float], facts: Facts) -> Order:
    """The order with its bites, its dips and its day."""
    steps = order.steps
    longest = facts.longest_dip_s
    split = [
        s.dips_s if clock[s.step] == s.bite_s else _parts(clock[s.step], longest) for s in steps
    ]
    work = [Work(s.paint_min, s.dry_min, parts) for s, parts in zip(steps, split, strict=True)]
    stretches = day(work, facts.rates)
    worked = tuple(
        replace(
            s,
            bite_s=clock[s.step],
            total_bite_s=order.tones[s.step].total_bite_s,
            dips_s=parts,
            lift_after_s=end,
            shortest_s=s.shortest_s * clock[s.step] / s.bite_s,
            longest_s=s.longest_s * clock[s.step] / s.bite_s,
        )
        for s, parts, end in zip(steps, split, lifts(stretches), strict=True)
    )
    numbered = tuple(
        one if one.step == steps[one.step - 1].step else replace(one, step=steps[one.step - 1].step)
        for one in stretches
    )
    return replace(order, steps=worked, day=numbered)


def _parts(bite_s: float, longest_s: float) -> tuple[float, ...]:
    """A bite in dips that make it up to the second."""
    first = dips(bite_s, longest_s)[:-1]
    return (*first, bite_s - sum(first))


def _tone(tone: Tone, clock_s: float, total_s: float, rate: float, facts: Facts) -> Tone:
    if facts.curve is None:
        return replace(tone, total_bite_s=clock_s, shortest_s=clock_s, longest_s=clock_s)
    lightness = float(lightness_at(facts.curve, total_s))
    low, high = band_at(facts.curve, total_s)
    short, long = bite_range_for(facts.curve, lightness) if total_s else (0.0, 0.0)
    return replace(
        tone,
        lightness=lightness,
        lightness_low=float(low),
        lightness_high=float(high),
        total_bite_s=clock_s,
        shortest_s=min(short / rate, clock_s),
        longest_s=max(long / rate, clock_s),
    )


def _joined(gone: Step, heir: Step) -> Step:
    a, b = gone.painting, heir.painting
    painting = Painting(
        area_cm2=a.area_cm2 + b.area_cm2,
        places=a.places + b.places,
        border_cm=b.border_cm,
        new_border_cm=a.new_border_cm + b.new_border_cm,
        small_darks=max(a.small_darks, b.small_darks),
    )
    return replace(
        heir,
        stop_out=tuple(sorted({*gone.stop_out, *heir.stop_out})),
        painting=painting,
        paint_min=gone.paint_min + heir.paint_min,
    )
