"""The preview of a whole plan: its tones, its grain, its ink and paper."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from toneladder.bite.grain import Grain
from toneladder.bite.print_model import ETCH_FACTOR, BathModel
from toneladder.bite.starting_points import starting_point
from toneladder.bite.texture import correlation_area_um2
from toneladder.bite.values import Conditions
from toneladder.errors import RefusedPairError
from toneladder.order.values import Order
from toneladder.plan.planning import Plan
from toneladder.preview.preview import lightness_after, preview
from toneladder.preview.values import LoupeGrain, Texture

LONGEST_PX = 2400

LAID_EVENLY = 0.25
"""Correlation area of a ground as laid, beside one of grains thrown quite at random.

Grain rolls off where grain lies, and fused it draws together into beads, so that a good ground
is more even than chance. By how much is an assumption, chosen so that the grain is as silent at
arm's length as it is on a good print.
"""


def texture_of(conditions: Conditions) -> Texture:
    """How restless this ground looks; without a starting point as a ground on copper."""
    model = _bath_model(conditions)
    grain = Grain(model.coverage, model.diameter_um, model.spread)
    return Texture(float(grain.coverage), LAID_EVENLY * correlation_area_um2(grain))


def loupe_grain_of(conditions: Conditions, bitten_s: Sequence[float] = ()) -> LoupeGrain:
    """The ground as the loupe shows it; without a starting point as a ground on copper.

    Parameters
    ----------
    conditions : Conditions
    bitten_s : (n,) seconds, >= 0
        Total bite of each tone, as it would be at the bite curve's temperature; without it the
        grain is eaten only as far as each tone needs.
    """
    model = _bath_model(conditions)
    pace_um = float(model.rate_um_per_min) / 60.0 / ETCH_FACTOR
    return LoupeGrain(
        float(model.coverage),
        float(model.diameter_um),
        float(model.spread),
        tuple(pace_um * bite_s for bite_s in bitten_s),
    )


def printed_after(order: Order, step: int | None = None) -> tuple[float, ...]:
    """CIE L* that each tone prints after a step of the first grain; None is the finished plate.

    Finished is with the second grain, if there is one.
    """
    first = [tone.lightness for tone in order.tones]
    if step is not None:
        return lightness_after(first, step)
    if order.second_grain is not None:
        for tone in order.second_grain.tones:
            first[tone.tone] = tone.lightness
    return tuple(first)


def _bath_model(conditions: Conditions) -> BathModel:
    copper = Conditions(grain=conditions.grain, fineness=conditions.fineness)
    try:
        return starting_point(conditions).model
    except RefusedPairError:
        return starting_point(copper).model


def preview_of(
    plan: Plan,
    *,
    step: int | None = None,
    px_per_mm: float | None = None,
    margins: bool = True,
    seed: int = 0,
) -> NDArray[np.uint8]:
    """The print as it would be seen if the plate were stopped after ``step``.

    Parameters
    ----------
    plan : Plan
        The plate worked out.
    step : int, optional
        0 to the number of steps; None is the finished plate.
    px_per_mm : float, optional
        Of the picture wanted; None makes its longest side 2,400 pixels at most.
    margins : bool
        With the paper's margins and the plate mark, or the plate alone.
    seed : int, >= 0
        Of the grain.

    Returns
    -------
    (H, W, 3) uint8, sRGB.
    """
    plate, grid = plan.plate, plan.prepared.grid
    lightness = printed_after(plan.order, step)
    border = 2.0 * plate.printing.margin_mm if margins else 0.0
    longest_mm = max(plate.size.width_mm, plate.size.height_mm) + border
    return preview(
        plan.tones,
        lightness,
        plate.printing,
        texture_of(plate.conditions),
        px_per_mm=grid.px_per_mm,
        out_px_per_mm=px_per_mm or min(grid.px_per_mm, LONGEST_PX / longest_mm),
        margins=margins,
        seed=seed,
        lines=None if plan.prepared.lines is None else plan.prepared.lines.ink,
    )
