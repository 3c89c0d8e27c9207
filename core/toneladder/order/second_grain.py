"""The second grain: the first cleaned off, a fresh one laid, all but the darkest stopped out.

What is done is common practice; that two grains print a richer black than one is published.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from toneladder.bite.cautions import cautions
from toneladder.bite.print_model import SCATTERING, printed_lightness
from toneladder.bite.starting_points import STARTING_TEMPERATURE_C, StartingPoint, starting_point
from toneladder.bite.today import rate_today
from toneladder.bite.values import Conditions
from toneladder.errors import RefusedPairError
from toneladder.lines.bites import stays
from toneladder.optics import lightness, luminance
from toneladder.order.companion import GRAIN_MIN
from toneladder.order.day import paint_minutes
from toneladder.order.rounding import dips
from toneladder.order.stages import GrainedTone, GrainStep, SecondStage
from toneladder.order.values import Order, Rates, SecondGrain
from toneladder.tones.parting import TOLD_APART
from toneladder.tones.values import Painting
from toneladder.wording import say


def with_second_grain(
    order: Order, wish: SecondGrain, conditions: Conditions, rates: Rates
) -> Order:
    """``order`` with the second grain as its last stage, and the cautions that come with it."""
    stage = second_stage(wish, order, conditions, rates)
    more = second_cautions(wish, conditions)
    return replace(
        order,
        second_grain=stage,
        cautions=(*order.cautions[:-1], *more, *order.cautions[-1:]),
        warnings=(*order.warnings, *alike_warnings(stage)),
    )


def second_stage(
    wish: SecondGrain, order: Order, conditions: Conditions, rates: Rates
) -> SecondStage:
    """The last stage of an order.

    Parameters
    ----------
    wish : SecondGrain
        How many tones it deepens, its bites and its grain.
    order : Order
        The plate as the first grain leaves it.
    conditions : Conditions
        Metal and bath; the grain is the first one.
    rates : Rates
        How fast this etcher works.
    """
    start = _start(second_conditions(wish, conditions))
    clock = rate_today(conditions.temperature_c, STARTING_TEMPERATURE_C)
    deepest = order.tones[-min(wish.darkest, len(order.tones) - 1) :]
    totals = wish.bites_s[-len(deepest) :] or (_usual(order, start, clock),) * len(deepest)
    steps = tuple(_steps(totals, deepest[0].tone, order, rates))
    white = order.tones[0].lightness
    printed = tuple(
        GrainedTone(tone.tone, _deepened(tone.lightness, total * clock, white, start))
        for tone, total in zip(deepest, totals, strict=True)
    )
    return SecondStage(printed, steps, tuple(_sentences(wish)), _minutes(steps, rates))


def second_conditions(wish: SecondGrain, conditions: Conditions) -> Conditions:
    """The conditions with the second grain in the place of the first."""
    return replace(conditions, grain=wish.grain, fineness=wish.fineness)


def painted_at_once(paintings: Sequence[Painting]) -> Painting:
    """Several tones stopped out as one: only the border to what stays open is painted."""
    last = paintings[-1]
    area = sum(painting.area_cm2 for painting in paintings)
    return Painting(area, last.places, last.border_cm, last.border_cm)


def overlaid(first: float, second: float, white: float, ink: float) -> float:
    """Lightness that two grains print together, each of which alone prints the given one.

    Two grains know nothing of each other, so their openings add: paper is seen only where both
    leave land, and the share of it is the product of the two shares [Chiu2013]. A tone's share
    of paper is what its printed lightness says, ink taken as lying thick in every opening and
    light as scattering sideways [YuleNielsen1951]. That the second bite leaves the first one's
    openings as deep as they were is an assumption.

    Parameters
    ----------
    first, second, white : float, CIE L*
        Printed by the first grain alone, by the second alone, and by wiped white.
    ink : float, 0..1
        Reflectance of ink lying thick.

    Returns
    -------
    float, CIE L*, never lighter than either.
    """
    black, paper, *shown = (
        float(light) ** (1.0 / SCATTERING)
        for light in (ink, luminance(white), luminance(first), luminance(second))
    )
    black = min(black, *shown)
    seen = 1.0
    for tone in shown:
        seen *= min((tone - black) / max(paper - black, 1e-9), 1.0)
    return float(lightness((black + seen * (paper - black)) ** SCATTERING))


def second_cautions(wish: SecondGrain, conditions: Conditions) -> tuple[str, ...]:
    """Cautions that the second grain adds to those of the first."""
    known = cautions(conditions)
    second = cautions(replace(conditions, grain=wish.grain))
    cleaning = say(
        "Taking the first grain off: fresh air, gloves, no flame near the solvent; the second"
        " grain is as dangerous to lay as the first."
    )
    return (cleaning, *(text for text in second if text not in known))


def alike_warnings(stage: SecondStage) -> Iterator[str]:
    """Neighbours that the second grain leaves too close to tell apart, a sentence each."""
    for one, other in pairwise(stage.tones):
        if one.lightness - other.lightness < TOLD_APART:
            yield say(
                "After the second grain tones {one} and {other} are too close to tell apart. Give"
                " it fewer tones, or each tone a bite of its own.",
                one=one.tone,
                other=other.tone,
            )


def _start(conditions: Conditions) -> StartingPoint | None:
    try:
        return starting_point(conditions)
    except RefusedPairError:
        return None


def _usual(order: Order, start: StartingPoint | None, clock: float) -> float:
    """The longest bite anybody is known to have given, in today's bath; else the first grain's."""
    if start is None:
        return order.tones[-1].total_bite_s
    return 60.0 * max(round(start.longest_tested_s / clock / 60.0), 1)


def _steps(
    totals: Sequence[float], lightest: int, order: Order, rates: Rates
) -> Iterator[GrainStep]:
    """One step for every bite that differs; tones of one bite are made together."""
    bites = [(k, bite) for k, bite in enumerate(stays(totals)) if bite > 0.0]
    covered = 0
    for number, (k, bite) in enumerate(bites, start=1):
        stop_out = tuple(range(covered, lightest + k))
        covered = lightest + k
        yield GrainStep(
            step=number,
            stop_out=stop_out,
            makes=covered,
            bite_s=bite,
            total_bite_s=totals[k],
            dips_s=dips(bite),
            paint_min=paint_minutes(
                painted_at_once([order.steps[tone].painting for tone in stop_out]), rates
            ),
            dry_min=order.steps[-1].dry_min,
        )


def _minutes(steps: Sequence[GrainStep], rates: Rates) -> float:
    return GRAIN_MIN + sum(
        rates.between_min + step.paint_min + step.dry_min + step.bite_s / 60.0 for step in steps
    )


def _deepened(first: float, bite_s: float, white: float, start: StartingPoint | None) -> float:
    if start is None:
        return first
    second = float(printed_lightness(bite_s, start.model))
    ink = float(start.model.black)
    return min(first, overlaid(first, second, white, ink))


def _sentences(wish: SecondGrain) -> Iterator[str]:
    yield say(
        "Only if the darks of the first proof are not rich enough. Take varnish and grain off as"
        " after the last bite, and degrease."
    )
    yield say(
        "Lay a fresh grain over the whole plate: {grain}, {fineness}.",
        grain=say(wish.grain.value),
        fineness=say(wish.fineness.value),
    )
    yield say("These bites start from nothing: they do not add to those of the first grain.")
