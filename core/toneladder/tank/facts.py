"""What the tank must know of a plan, and of the metal that its bites dissolve."""

from collections.abc import Sequence

import numpy as np

from toneladder.bite.starting_points import STARTING_TEMPERATURE_C, StartingPoint, starting_point
from toneladder.bite.today import rate_today
from toneladder.bite.use import metal_bitten_g
from toneladder.bite.values import Conditions
from toneladder.errors import QuantityError, RefusedPairError
from toneladder.order.line_steps import LONGEST_LINE_DIP_S
from toneladder.order.rounding import LONGEST_DIP_S
from toneladder.order.second_grain import second_conditions
from toneladder.plan.planning import Plan
from toneladder.tank.begun import Begun
from toneladder.tank.staged import stage_order
from toneladder.tank.values import Facts, Stage


def begun_of(plan: Plan, stage: Stage = Stage.TONES) -> Begun:
    """With what a stay at the tank begins."""
    plate = plan.plate
    order = stage_order(plan.order, stage, plate.rates)
    return Begun(order, facts_of(plan, stage), plate.bath, plate.conditions)


def facts_of(plan: Plan, stage: Stage = Stage.TONES, *, count_in_s: float = 10.0) -> Facts:
    """Curve and rates with which the order of ``plan`` was worked out.

    Parameters
    ----------
    plan : Plan
        The plate worked out.
    stage : Stage
        What is bitten. The curve is that of the first grain: it tells of its tones alone.
    count_in_s : float, 0 or more
        How long the plate takes from the key to the bath.
    """
    plate, tones = plan.plate, stage is Stage.TONES
    return Facts(
        curve=plan.curve if tones else None,
        rate=plan.chosen.rate if tones else 1.0,
        planned_c=plate.conditions.temperature_c,
        rates=plate.rates,
        q=plate.evidence.q,
        count_in_s=count_in_s,
        stage=stage,
        longest_dip_s=LONGEST_LINE_DIP_S if stage is Stage.LINES else LONGEST_DIP_S,
        bare_cm2=_bare_cm2(plan, stage),
        um_per_min=_um_per_min(plate.conditions, plate.evidence.q),
    )


def metal_given_g(begun: Begun, effective_s: Sequence[float]) -> float | None:
    """Grams of metal that a stay at the tank gave to its bath, by estimate; None if unknown.

    Parameters
    ----------
    begun : Begun
        With what it began.
    effective_s : sequence of float
        Seconds on the curve that each tone, or line depth, has had.
    """
    facts = begun.facts
    if begun.conditions is None or len(facts.bare_cm2) != len(effective_s):
        return None
    try:
        return sum(
            metal_bitten_g(begun.conditions.metal, bare, facts.um_per_min * had / facts.rate / 60.0)
            for bare, had in zip(facts.bare_cm2, effective_s, strict=True)
        )
    except QuantityError:
        return None


def _bare_cm2(plan: Plan, stage: Stage) -> tuple[float, ...]:
    """Metal of each tone between the grains, or of the lines of each depth, as they are drawn."""
    if stage is Stage.LINES:
        return _inked_cm2(plan)
    conditions, plate = plan.plate.conditions, plan.plate
    if stage is Stage.SECOND and plate.second_grain is not None:
        conditions = second_conditions(plate.second_grain, conditions)
    start = _start(conditions)
    if start is None:
        return ()
    open_cm2 = plate.size.width_mm * plate.size.height_mm / 100.0
    open_cm2 *= 1.0 - float(start.model.coverage)
    return tuple(tone.share * open_cm2 for tone in plan.order.tones)


def _inked_cm2(plan: Plan) -> tuple[float, ...]:
    layer = plan.prepared.lines
    if layer is None:
        return ()
    cell_cm2 = 0.01 / plan.prepared.grid.px_per_mm**2
    ink = np.bincount(layer.depth.ravel(), layer.ink.ravel() / 255.0, len(layer.lengths_cm) + 1)
    return (0.0, *(float(cells) * cell_cm2 for cells in ink[1:]))


def _um_per_min(conditions: Conditions, q: float) -> float:
    """How deep the bath of the day bites, as far as anybody can guess: an assumption."""
    start = _start(conditions)
    if start is None:
        return 0.0
    today = rate_today(conditions.temperature_c, STARTING_TEMPERATURE_C, q=q)
    return float(start.model.rate_um_per_min) * today


def _start(conditions: Conditions) -> StartingPoint | None:
    try:
        return starting_point(conditions)
    except RefusedPairError:
        return None
