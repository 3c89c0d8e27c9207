"""The stop-out order: tones, steps, the day and every sentence that hangs by the tank."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from toneladder.bite.cautions import cautions
from toneladder.bite.values import Conditions
from toneladder.bite.varnish import harm_to_grain, varnish_facts
from toneladder.order.companion import companion_of
from toneladder.order.day import Work, day, lifts, paint_minutes
from toneladder.order.ladder import Ladder
from toneladder.order.practice import after_last_bite, before_first_bite, within_step
from toneladder.order.rounding import dips
from toneladder.order.values import Order, Rates, Step, Stretch
from toneladder.picture.values import PlateSize
from toneladder.quantities import write_minutes
from toneladder.tones.values import Painting
from toneladder.wording import say, say_number

HARD_TO_PAINT_PLACES = 150
LONG_DAY_MIN = 8 * 60


@dataclass(frozen=True, slots=True)
class Job:
    """What an order is made for; ``companion`` asks for a strip on the day before."""

    asked_tones: int
    size: PlateSize
    conditions: Conditions
    rates: Rates
    companion: bool = False


def make_order(
    job: Job, ladder: Ladder, paintings: Sequence[Painting], notes: Sequence[str] = ()
) -> Order:
    """The order of one plate.

    Parameters
    ----------
    job : Job
        Plate, conditions and the etcher's own rates.
    ladder : Ladder
        Tones and bites, from ``make_ladder``.
    paintings : sequence of Painting
        What each step paints, one for every bite.
    notes : sequence of str
        What was said on the way here; it comes first among the warnings.
    """
    edge_cm = (job.size.width_mm + job.size.height_mm) / 5.0
    usual_min = varnish_facts(job.conditions.varnish).drying_min
    dry_min = usual_min if job.rates.dry_min is None else job.rates.dry_min
    work = [
        Work(paint_minutes(painting, job.rates, 0.0 if k else edge_cm), dry_min, dips(bite))
        for k, (painting, bite) in enumerate(zip(paintings, ladder.bites_s, strict=True))
    ]
    stretches = day(work, job.rates)
    steps = tuple(_steps(ladder, paintings, work, lifts(stretches)))
    return Order(
        asked_tones=job.asked_tones,
        tones=ladder.tones,
        steps=steps,
        before=before_first_bite(job.conditions),
        within=within_step(),
        after=after_last_bite(job.conditions),
        cautions=cautions(job.conditions),
        warnings=(*notes, *ladder.warnings, *_hand_warnings(job, steps, stretches)),
        day=stretches,
        companion=companion_of(job.conditions) if job.companion else None,
    )


def _steps(
    ladder: Ladder, paintings: Sequence[Painting], work: Sequence[Work], lift: Sequence[float]
) -> Iterator[Step]:
    for k, painting in enumerate(paintings):
        tone, bite = ladder.tones[k + 1], ladder.bites_s[k]
        yield Step(
            step=k + 1,
            stop_out=(k,),
            bite_s=bite,
            total_bite_s=tone.total_bite_s,
            painting=painting,
            paint_min=work[k].paint_min,
            dry_min=work[k].dry_min,
            dips_s=work[k].dips_s,
            lift_after_s=lift[k],
            shortest_s=bite * tone.shortest_s / tone.total_bite_s,
            longest_s=bite * tone.longest_s / tone.total_bite_s,
        )


def _hand_warnings(job: Job, steps: Sequence[Step], stretches: Sequence[Stretch]) -> Iterator[str]:
    harm = harm_to_grain(job.conditions.varnish, job.conditions.grain)
    if harm is not None:
        yield harm
    for step in steps:
        if step.painting.places > HARD_TO_PAINT_PLACES:
            yield say(
                "Step {step} has {n} places to stop out, hard to paint. A wider brush, a stronger "
                "squint or one tone less makes fewer of them.",
                step=step.step,
                n=step.painting.places,
            )
    darks = max((step.painting.small_darks for step in steps), default=0)
    if darks:
        minutes = max(1, round(darks * job.rates.place_s / 60.0))
        yield say_number(
            "{n} small dark in a lighter field must be painted around, about {time}. "
            "Lift ground, or a second grain for the darks, would do without.",
            "{n} small darks in lighter fields must be painted around, about {time} a "
            "step. Lift ground, or a second grain for the darks, would do them all at once.",
            darks,
            time=write_minutes(minutes),
        )
    if stretches and stretches[-1].end_s > LONG_DAY_MIN * 60.0:
        yield say(
            "The work takes {time}: spread it over two days, and let the plate rest "
            "stopped out, rinsed and dry.",
            time=write_minutes(60.0 * round(stretches[-1].end_s / 3600.0)),
        )
