"""The ladder's content made from a plan: where pegs are held, what prints alike, what to say.

It needs the core's arithmetic, so it is imported when the first plan is there to be shown.
"""

from collections.abc import Iterator
from math import isclose

import numpy as np

from toneladder.bite.curve import bite_for
from toneladder.bite.values import BiteCurve, Standing
from toneladder.optics import FloatArray
from toneladder.order.ladder import alike
from toneladder.order.rounding import shortest_bite
from toneladder.order.values import Order, Tone
from toneladder.plan.choosing import Chosen, targets_of
from toneladder.plan.planning import Plan
from toneladder.plan.preparing import Prepared
from toneladder.plate.values import Plate
from toneladder.preview.colour import palette
from toneladder_desktop.ladder.content import Content, Parting, Remark, Rung

BINS = 100
OUT_OF_PLACE = 0.5
"""L* by which a tone may print outside its place in the picture without a remark."""

PAST_TESTED = 1.2
"""The right rail goes on, dotted, a little past the longest tested bite."""


def content_of(
    plate: Plate, prepared: Prepared, chosen: Chosen, plan: Plan | None, curve: BiteCurve
) -> Content:
    """What the ladder shows of a plate.

    Places and minutes are left open without ``plan``, or with one of other tones.
    """
    known = plan is not None and plan.chosen.parted == chosen.parted
    tones = chosen.ladder.tones
    targets = targets_of(prepared, plate, curve)
    tested_s = curve.longest_tested_s / chosen.rate
    untested = curve.standing is Standing.UNTESTED
    shortest_s = shortest_bite(plate.size)
    held_partings = plate.tones.held_partings
    order = plan.order if plan is not None and known else None
    rungs = tuple(_rungs(plate, chosen, curve, order, shortest_s))
    partings = tuple(
        Parting(p, any(isclose(p, held, abs_tol=1e-6) for held in held_partings))
        for p in chosen.parted.partings
    )
    placed = sum(rung.held for rung in rungs) + sum(parting.held for parting in partings)
    return Content(
        rungs=rungs,
        partings=partings,
        alike=alike(tones, curve.standing),
        histogram=_histogram(targets, prepared),
        paper=float(targets.max()),
        deepest=float(targets.min()),
        tested_s=tested_s,
        end_s=max(tested_s * PAST_TESTED, tones[-1].total_bite_s * PAST_TESTED, 60.0),
        shortest_s=shortest_s,
        untested=untested,
        choice=plate.tones.choice,
        asked_tones=plate.tones.count,
        swatches=tuple(
            "#" + bytes(colour).hex()
            for colour in palette([tone.lightness for tone in tones], plate.printing).tolist()
        ),
        set_aside=len(held_partings) + len(plate.tones.held_bites) - placed,
    )


def _rungs(
    plate: Plate, chosen: Chosen, curve: BiteCurve, order: Order | None, shortest_s: float
) -> Iterator[Rung]:
    parted, tones = chosen.parted, chosen.ladder.tones
    as_asked = [k for k in range(len(tones) + len(parted.joined)) if k not in parted.joined]
    held = {tone for tone, _ in plate.tones.held_bites}
    steps = order.steps if order is not None and len(order.steps) == len(tones) - 1 else None
    for k, tone in enumerate(tones):
        step = steps[k - 1] if k and steps else None
        remarks = [
            *_place_remarks(tone, parted.partings),
            *_bite_remarks(tones[k - 1 : k + 1], curve, chosen.rate, shortest_s),
        ]
        yield Rung(
            tone=tone,
            asked=as_asked[k],
            bite_s=chosen.ladder.bites_s[k - 1] if k else 0.0,
            held=as_asked[k] in held and k > 0,
            places=step.painting.places if step else None,
            minutes=step.paint_min if step else None,
            remarks=tuple(remarks),
        )


def _place_remarks(tone: Tone, partings: tuple[float, ...]) -> Iterator[Remark]:
    k = tone.tone
    if k and tone.lightness > partings[k - 1] + OUT_OF_PLACE:
        yield Remark.LIGHTER
    if k < len(partings) and tone.lightness < partings[k] - OUT_OF_PLACE:
        yield Remark.DARKER
    if tone.share <= 0.0:
        yield Remark.EMPTY


def _bite_remarks(
    pair: tuple[Tone, ...], curve: BiteCurve, rate: float, shortest_s: float
) -> Iterator[Remark]:
    """Remarks on the bite of the second of two neighbours; white has none."""
    if len(pair) < 2:
        return
    before, tone = pair
    wanted_s = bite_for(curve, tone.target_lightness) / rate - before.total_bite_s
    bitten_s = tone.total_bite_s - before.total_bite_s
    if bitten_s <= shortest_s and wanted_s < shortest_s - 2.5:
        yield Remark.SHORT
    if tone.total_bite_s > curve.longest_tested_s / rate + 1.0:
        yield Remark.UNTESTED


def _histogram(targets: FloatArray, prepared: Prepared) -> tuple[float, ...]:
    """Share of the picture in each bin of printed darkness, a little smoothed.

    The two ends hold all that was clipped to them; the fullest bin between is 1, and so are
    they at the most.
    """
    where = np.clip((100.0 - targets) * BINS / 100.0, 0, BINS - 1).astype(int)
    filled = np.bincount(where, weights=prepared.asked_counts, minlength=BINS)
    between = filled[where.min() + 1 : where.max()]
    fullest = between.max() if between.size and between.max() > 0 else max(filled.max(), 1.0)
    smooth = np.convolve(np.minimum(filled, fullest), (0.1, 0.2, 0.4, 0.2, 0.1), mode="same")
    smooth[filled == 0.0] = 0.0
    return tuple((smooth / smooth.max()).tolist()) if smooth.max() > 0 else tuple(smooth.tolist())
