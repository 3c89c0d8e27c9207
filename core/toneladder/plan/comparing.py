"""How many tones: what each number of them would bring and cost, and how many are enough."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from toneladder.bite.values import BiteCurve
from toneladder.optics import FloatArray
from toneladder.order.ladder import alike
from toneladder.order.making import HARD_TO_PAINT_PLACES
from toneladder.order.values import Order, Tone
from toneladder.plan.choosing import Chosen, choose, targets_of
from toneladder.plan.planning import Plan, finish
from toneladder.plan.preparing import Prepared, distance
from toneladder.plate.values import Plate
from toneladder.quantities import Manner, written
from toneladder.tones.lattice import STEPS
from toneladder.wording import say, say_number

LEAST_GAIN = 0.1
"""Darkness that one more tone must bring to be worth its work: an assumption, editable."""

_LIGHTNESS_PER_DARKNESS = 10.0


@dataclass(frozen=True, slots=True)
class Costs:
    """What a number of tones asks of the etcher.

    ``places`` are separate areas to stop out, over all steps, and ``most_places`` those of the
    step that has most; ``border_cm`` is the border that is painted, without the plate's edge;
    painting and drying are minutes, ``day_s`` is the whole day with its rests, seconds.
    """

    places: int
    most_places: int
    border_cm: float
    paint_min: float
    dry_min: float
    day_s: float

    @property
    def hard_to_paint(self) -> bool:
        """Whether a step has more places than a sane person stops out."""
        return self.most_places > HARD_TO_PAINT_PLACES


@dataclass(frozen=True, slots=True)
class Offer:
    """One number of tones.

    ``asked`` tones were asked for and ``chosen`` is what can be had. ``distance`` is how far the
    print is from the picture as it was squinted at: root mean square, in darkness (0 white,
    10 black). ``alike`` names the lighter tone of each neighbouring pair that would print
    alike. ``bath_s`` is the total bite of the deepest tone. ``costs`` is None until the brush
    is done.
    """

    asked: int
    chosen: Chosen
    distance: float
    alike: tuple[int, ...]
    bath_s: float
    costs: Costs | None = None

    @property
    def count(self) -> int:
        """Number of tones as they would be planned, white included."""
        return self.chosen.count

    @property
    def steps(self) -> int:
        """Number of times to stop out and bite."""
        return self.count - 1


@dataclass(frozen=True, slots=True)
class Enough:
    """How many tones are enough, and why, in one sentence; of one offer there is nothing to say."""

    asked: int
    reason: str


@dataclass(frozen=True, slots=True)
class Gain:
    """What one more tone brings: so much nearer, in darkness, for so many minutes of the day.

    Both are differences of figures as they are written, to 0.01 and to the minute, so that a
    reader who subtracts comes to the same. ``minutes`` is None while costs are not known.
    """

    nearer: float
    minutes: int | None


def offer(prepared: Prepared, plate: Plate, curve: BiteCurve, count: int) -> Offer:
    """``count`` tones on this plate, everything else as it is; the light part, without costs.

    Parameters
    ----------
    prepared : Prepared
        Of the same picture, size, laying, squint and brush.
    plate : Plate
        Every decision; its own number of tones is not looked at.
    curve : BiteCurve
        Of the strip, or the starting point.
    count : int, 2..12
        Tones asked for, white included.
    """
    asked = _with_count(plate, count)
    chosen = choose(prepared, asked, curve)
    tones = chosen.ladder.tones
    printed = _printed(tones)[np.array(chosen.parted.table)]
    away = distance(prepared, targets_of(prepared, asked, curve), printed)
    return Offer(
        asked=count,
        chosen=chosen,
        distance=away / _LIGHTNESS_PER_DARKNESS,
        alike=alike(tones, curve.standing),
        bath_s=tones[-1].total_bite_s,
    )


def plan_of(offered: Offer, prepared: Prepared, plate: Plate, curve: BiteCurve) -> Plan:
    """The plan that would be taken; the heavy part: places, borders, painting, the day."""
    return finish(prepared, offered.chosen, _with_count(plate, offered.asked), curve)


def costed(offered: Offer, plan: Plan) -> Offer:
    """The same offer with what it costs, as its plan says."""
    away = offered.distance
    if plan.plate.brush.smallest_area_mm2:
        away = _distance_painted(plan)
    return replace(offered, distance=away, costs=_costs(plan.order))


def floor_of_brush(prepared: Prepared, plate: Plate, curve: BiteCurve) -> float:
    """The distance, in darkness, below which this brush leads no number of tones.

    Where the brush has joined what the picture keeps apart, the best that any tones can print
    is the mean of what was joined; what is then still missing is the floor.
    """
    targets = targets_of(prepared, plate, curve)
    pairs = prepared.cleaned.astype(np.uint16) << 8 | prepared.asked
    counts = np.bincount(pairs.ravel(), minlength=STEPS * STEPS).reshape(STEPS, STEPS)
    cells = counts.sum(axis=1)
    mean = counts @ targets / np.maximum(cells, 1)
    missing = (counts * (targets[None, :] - mean[:, None]) ** 2).sum() / cells.sum()
    return float(np.sqrt(missing)) / _LIGHTNESS_PER_DARKNESS


def gain(fewer: Offer, more: Offer) -> Gain:
    """What ``more`` brings against ``fewer``, and how much longer it makes the day."""
    nearer = round(round(fewer.distance, 2) - round(more.distance, 2), 2)
    minutes = None
    if fewer.costs is not None and more.costs is not None:
        minutes = round(more.costs.day_s / 60.0) - round(fewer.costs.day_s / 60.0)
    return Gain(nearer, minutes)


def enough(
    offers: Sequence[Offer], least_gain: float = LEAST_GAIN, *, manner: Manner | None = None
) -> Enough:
    """How many tones are enough: the fewest of which one more brings less than ``least_gain``.

    Parameters
    ----------
    offers : sequence of Offer, at least one
        For numbers of tones that follow each other, fewest first.
    least_gain : float, darkness
        What one more tone must bring to be worth its work.
    manner : Manner
        How numbers are written in the sentence.
    """
    for fewer, more in pairwise(offers):
        brings = gain(fewer, more)
        if brings.nearer < least_gain - 1e-9:
            return Enough(fewer.asked, _reason(fewer, more, brings, manner))
    last = offers[-1]
    if len(offers) == 1:
        return Enough(last.asked, "")
    reason = say(
        "{Number} are not too many for this picture: the last one brings the print {nearer} "
        "nearer.",
        Number=_numbers()[last.asked].capitalize(),
        nearer=write_distance(gain(offers[-2], last).nearer, manner),
    )
    return Enough(last.asked, reason)


def write_distance(darkness: float, manner: Manner | None = None) -> str:
    """A distance in darkness, to 0.01.

    >>> write_distance(0.3849)
    '0.38'
    """
    return (manner or written()).rounded(darkness, 2)


def _reason(fewer: Offer, more: Offer, brings: Gain, manner: Manner | None) -> str:
    number, one_more = _numbers()[fewer.asked].capitalize(), _one_more()[more.asked]
    if more.count == fewer.count:
        return say(
            "{Number} are enough for this picture: {one_more} finds no room in it.",
            Number=number,
            one_more=one_more,
        )
    nearer = say("no nearer")
    if brings.nearer > 0.0:
        nearer = say("{nearer} nearer", nearer=write_distance(brings.nearer, manner))
    if brings.minutes is None or brings.minutes <= 0:
        return say(
            "{Number} are enough for this picture: {one_more} would bring the print {nearer}.",
            Number=number,
            one_more=one_more,
            nearer=nearer,
        )
    return say(
        "{Number} are enough for this picture: {one_more} would bring the print {nearer} and "
        "make the day {longer} longer.",
        Number=number,
        one_more=one_more,
        nearer=nearer,
        longer=_span(brings.minutes),
    )


def _span(minutes: int) -> str:
    """A stretch of the day in words: minutes, or from two hours on whole hours."""
    if minutes < 120:
        return say_number("{n} minute", "{n} minutes", minutes)
    return say_number("{n} hour", "{n} hours", round(minutes / 60.0))


def _with_count(plate: Plate, count: int) -> Plate:
    """Patches that were pointed at make one number of tones; any other takes the best."""
    kept = plate.tones.patches_s if len(plate.tones.patches_s) + 1 == count else ()
    return replace(plate, tones=replace(plate.tones, count=count, patches_s=kept))


def _printed(tones: Sequence[Tone]) -> FloatArray:
    return np.array([tone.lightness for tone in tones])


def _distance_painted(plan: Plan) -> float:
    """Distance, in darkness, of tones that a look-up table alone does not paint."""
    targets = targets_of(plan.prepared, plan.plate, plan.curve)
    printed = _printed(plan.order.tones)
    pairs = plan.prepared.asked.astype(np.uint16) << 4 | plan.tones
    counts = np.bincount(pairs.ravel(), minlength=STEPS * 16).reshape(STEPS, 16)
    squared = (targets[:, None] - printed[None, :]) ** 2
    mean = (counts[:, : len(printed)] * squared).sum() / counts.sum()
    return float(np.sqrt(mean)) / _LIGHTNESS_PER_DARKNESS


def _costs(order: Order) -> Costs:
    steps = order.steps
    return Costs(
        places=sum(step.painting.places for step in steps),
        most_places=max((step.painting.places for step in steps), default=0),
        border_cm=sum(step.painting.new_border_cm for step in steps),
        paint_min=sum(step.paint_min for step in steps),
        dry_min=sum(step.dry_min for step in steps),
        day_s=order.day[-1].end_s if order.day else 0.0,
    )


def _numbers() -> dict[int, str]:
    """Numbers of tones in words."""
    words = (
        say("two"),
        say("three"),
        say("four"),
        say("five"),
        say("six"),
        say("seven"),
        say("eight"),
        say("nine"),
        say("ten"),
        say("eleven"),
        say("twelve"),
    )
    return dict(enumerate(words, start=2))


def _one_more() -> dict[int, str]:
    """The last tone of so many, in words."""
    words = (
        say("a third"),
        say("a fourth"),
        say("a fifth"),
        say("a sixth"),
        say("a seventh"),
        say("an eighth"),
        say("a ninth"),
        say("a tenth"),
        say("an eleventh"),
        say("a twelfth"),
    )
    return dict(enumerate(words, start=3))
