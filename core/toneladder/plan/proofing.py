"""The preview of a whole plan: its tones, its grain, its ink and paper."""

import numpy as np
from numpy.typing import NDArray

from toneladder.bite.grain import Grain
from toneladder.bite.starting_points import starting_point
from toneladder.bite.texture import correlation_area_um2
from toneladder.bite.values import Conditions
from toneladder.errors import RefusedPairError
from toneladder.plan.planning import Plan
from toneladder.proof.preview import lightness_after, preview
from toneladder.proof.values import Texture

LONGEST_PX = 2400

LAID_EVENLY = 0.25
"""Correlation area of a ground as laid, beside one of grains thrown quite at random.

Grain rolls off where grain lies, and fused it draws together into beads, so that a good ground
is more even than chance. By how much is an assumption, chosen so that the grain is as silent at
arm's length as it is on a good print.
"""


def texture_of(conditions: Conditions) -> Texture:
    """How restless this ground looks; without a starting point as a ground on copper."""
    copper = Conditions(grain=conditions.grain, fineness=conditions.fineness)
    try:
        model = starting_point(conditions).model
    except RefusedPairError:
        model = starting_point(copper).model
    grain = Grain(model.coverage, model.diameter_um, model.spread)
    return Texture(float(grain.coverage), LAID_EVENLY * correlation_area_um2(grain))


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
    lightness = [tone.lightness for tone in plan.order.tones]
    if step is not None:
        lightness = list(lightness_after(lightness, step))
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
    )
