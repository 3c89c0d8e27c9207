"""Each stage of a plate as an order of its own for the tank, and back onto the tank sheet."""

from collections.abc import Iterator
from dataclasses import replace
from typing import TypeVar

from toneladder.order.day import Work, day, lifts
from toneladder.order.second_grain import painted_at_once, second_stage
from toneladder.order.stages import GrainStep, LineStep, SecondStage
from toneladder.order.values import Order, Rates, Step, Tone
from toneladder.plan.planning import Plan
from toneladder.tank.values import Stage
from toneladder.tones.values import Painting

_S = TypeVar("_S", LineStep, GrainStep)


def stages_of(order: Order) -> tuple[Stage, ...]:
    """What of a plate is bitten, in the order of its days."""
    lines = (Stage.LINES,) if order.line_steps else ()
    grained = order.second_grain is not None and order.second_grain.steps
    return (*lines, Stage.TONES, *((Stage.SECOND,) if grained else ()))


def stage_order(order: Order, stage: Stage, rates: Rates) -> Order:
    """The order in which one stage alone stands as tones and steps.

    Lines have no lightness: tone n is their depth n, tone 0 the plate under its ground. In a
    second grain tones have their numbers and the lightness that both grains print, but total
    bites of that grain alone; step n makes tone n and the darker ones that have no own step.
    """
    if stage is Stage.LINES and order.line_steps:
        tones, steps = tuple(_line_tones(order)), tuple(_line_steps(order))
    elif stage is Stage.SECOND and order.second_grain is not None:
        tones = tuple(_grained_tones(order, order.second_grain))
        steps = tuple(_grain_steps(order, order.second_grain))
    else:
        return order
    stretches = day([Work(s.paint_min, s.dry_min, s.dips_s) for s in steps], rates)
    ends = lifts(stretches)
    timed = tuple(replace(s, lift_after_s=end) for s, end in zip(steps, ends, strict=True))
    own = tuple(replace(one, step=steps[one.step - 1].step) for one in stretches)
    return replace(order, tones=tones, steps=timed, day=own)


def with_stage(plan: Plan, stage: Stage, now: Order) -> Order:
    """The order of ``plan`` with one of its stages as the tank has worked it out by now."""
    order, wish = plan.order, plan.plate.second_grain
    if stage is Stage.LINES:
        lines = {step.step: step for step in order.line_steps}
        return replace(order, line_steps=tuple(_now(lines[s.step], s) for s in now.steps))
    if stage is Stage.SECOND and order.second_grain is not None and wish is not None:
        made = {step.makes: step for step in order.second_grain.steps}
        steps = (replace(_now(made[s.step], s), step=k) for k, s in enumerate(now.steps, start=1))
        totals = tuple(now.tones[tone.tone].total_bite_s for tone in order.second_grain.tones)
        given = replace(wish, bites_s=totals)
        tones = second_stage(given, order, plan.plate.conditions, plan.plate.rates).tones
        both = replace(order.second_grain, tones=tones, steps=tuple(steps))
        return replace(order, second_grain=both)
    return now


def _line_tones(order: Order) -> Iterator[Tone]:
    totals = (0.0, *(step.total_bite_s for step in order.line_steps))
    for depth, total in enumerate(totals):
        yield Tone(depth, 0.0, 0.0, 0.0, 0.0, total, 0.0, total, total)


def _line_steps(order: Order) -> Iterator[Step]:
    lengths = [step.length_cm for step in order.line_steps]
    for one in order.line_steps:
        painted_cm = sum(lengths[depth - 1] for depth in one.stop_out)
        yield _step(one, one.step, Painting(0.0, 0, painted_cm, painted_cm))


def _grained_tones(order: Order, stage: SecondStage) -> Iterator[Tone]:
    printed = {tone.tone: tone.lightness for tone in stage.tones}
    totals = {step.makes: step.total_bite_s for step in stage.steps}
    total = 0.0
    for tone in order.tones:
        total = totals.get(tone.tone, total)
        both = printed.get(tone.tone, tone.lightness)
        yield Tone(tone.tone, both, both, both, both, total, tone.share, total, total)


def _grain_steps(order: Order, stage: SecondStage) -> Iterator[Step]:
    for one in stage.steps:
        painting = painted_at_once([order.steps[tone].painting for tone in one.stop_out])
        yield _step(one, one.makes, painting)


def _step(one: LineStep | GrainStep, number: int, painting: Painting) -> Step:
    return Step(
        step=number,
        stop_out=one.stop_out,
        bite_s=one.bite_s,
        total_bite_s=one.total_bite_s,
        painting=painting,
        paint_min=one.paint_min,
        dry_min=one.dry_min,
        dips_s=one.dips_s,
        lift_after_s=0.0,
        shortest_s=one.bite_s,
        longest_s=one.bite_s,
    )


def _now(planned: _S, now: Step) -> _S:
    return replace(
        planned,
        stop_out=now.stop_out,
        bite_s=now.bite_s,
        total_bite_s=now.total_bite_s,
        dips_s=now.dips_s,
        paint_min=now.paint_min,
    )
