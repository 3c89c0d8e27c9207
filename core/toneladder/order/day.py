"""The day: when each step is painted, dry, in the bath and lifted."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from toneladder.order.values import Doing, Rates, Stretch
from toneladder.tones.values import Painting

LOOK_BETWEEN_DIPS_S = 120.0
_MOMENT_S = 1e-6


@dataclass(frozen=True, slots=True)
class Work:
    """What one step takes: painting and drying in minutes, dips in seconds."""

    paint_min: float
    dry_min: float
    dips_s: tuple[float, ...]


def paint_minutes(painting: Painting, rates: Rates, edge_cm: float = 0.0) -> float:
    """Minutes to stop out one step: area, new border and ``edge_cm`` of bevel, places.

    Parameters
    ----------
    painting : Painting
        What the step asks for.
    rates : Rates
        How fast this etcher paints.
    edge_cm : float
        Edge of the plate to go along; step 1 paints the bevel whatever else there is.
    """
    fill = painting.area_cm2 / rates.fill_cm2_per_min
    border = (painting.new_border_cm + edge_cm) / rates.border_cm_per_min
    return fill + border + painting.places * rates.place_s / 60.0


def day(work: Sequence[Work], rates: Rates) -> tuple[Stretch, ...]:
    """The stretches of the day, one after another from its start, with their rests.

    A rest comes whenever ``rates.rest_every_min`` have gone without one, before the next
    thing to do and within long painting, never within a bite.
    """
    return tuple(_stretches(work, rates))


def _stretches(work: Sequence[Work], rates: Rates) -> Iterator[Stretch]:
    now = rested = 0.0
    for step, load in enumerate(work, start=1):
        for doing, length in _doings(load, rates):
            left = length
            while left > _MOMENT_S:
                room = rested + rates.rest_every_min * 60.0 - now
                if room <= _MOMENT_S and doing is not Doing.BITE:
                    yield Stretch(step, Doing.REST, now, now + rates.rest_min * 60.0)
                    now = rested = now + rates.rest_min * 60.0
                    continue
                part = left if doing is not Doing.PAINT else min(left, room)
                yield Stretch(step, doing, now, now + part)
                now, left = now + part, left - part


def _doings(load: Work, rates: Rates) -> Iterator[tuple[Doing, float]]:
    yield Doing.LOOK, rates.between_min * 60.0
    yield Doing.PAINT, load.paint_min * 60.0
    yield Doing.DRY, load.dry_min * 60.0
    for k, dip in enumerate(load.dips_s):
        if k:
            yield Doing.LOOK, LOOK_BETWEEN_DIPS_S
        yield Doing.BITE, dip


def lifts(stretches: Sequence[Stretch]) -> tuple[float, ...]:
    """When each step is lifted for the last time, seconds from the start of the day."""
    last: dict[int, float] = {}
    for stretch in stretches:
        if stretch.doing is Doing.BITE:
            last[stretch.step] = stretch.end_s
    return tuple(last[step] for step in sorted(last))
