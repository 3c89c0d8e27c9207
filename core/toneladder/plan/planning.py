"""The whole plan: from a picture and a plate's decisions to its stop-out order."""

from dataclasses import dataclass, field

from toneladder.bite.values import BiteCurve, Standing
from toneladder.order.line_steps import with_lines
from toneladder.order.making import Job, make_order
from toneladder.order.second_grain import with_second_grain
from toneladder.order.soft_remedies import with_remedies
from toneladder.order.values import Order
from toneladder.picture.opening import Picture
from toneladder.plan.choosing import Chosen, choose
from toneladder.plan.correcting import corrected, with_shares
from toneladder.plan.memory import Memory, Tell, quietly
from toneladder.plan.preparing import Prepared, prepare, seen_of
from toneladder.plan.softening import passages_in
from toneladder.plan.standing import curve_of, doubts_of
from toneladder.plate.values import Plate
from toneladder.strip.margin import margin_notes
from toneladder.tones.notes import NoteTold
from toneladder.tones.parting import ToneArray
from toneladder.tones.places import paintings
from toneladder.wording import say


@dataclass(frozen=True, slots=True, eq=False)
class Plan:
    """A plate worked out.

    ``tones`` is the tone number of every cell of the grid, (height, width) of uint8, as printed;
    ``told`` says what became of each note.
    """

    plate: Plate
    curve: BiteCurve
    prepared: Prepared
    chosen: Chosen
    tones: ToneArray = field(repr=False)
    order: Order
    told: tuple[NoteTold, ...] = ()


def plan(
    picture: Picture,
    plate: Plate,
    curve: BiteCurve | None = None,
    *,
    memory: Memory | None = None,
    tell: Tell = quietly,
) -> Plan:
    """Work a plate out.

    Parameters
    ----------
    picture : Picture
        The one the plate refers to.
    plate : Plate
        Every decision.
    curve : BiteCurve, optional
        That a plate's file brought with it; else it follows from the plate's strips, and
        without any from metal, mordant and grain.
    memory : Memory, optional
        What was worked out before; stages that did not change are not done again.
    tell : callable, optional
        Told in a few words what is begun; it may raise to stop the work.

    Raises
    ------
    RefusedPairError
        Metal and mordant must not meet, or have no starting point.
    StripError
        No curve can be drawn from the plate's strips.
    PlanError
        The brush is finer than the grid can hold.
    """
    memory = memory or Memory()
    if curve is None:
        curve = curve_of(plate, memory)
    prepared = prepare(picture, seen_of(plate), memory, tell)
    tell(say("Counting places and borders …"))
    return finish(prepared, choose(prepared, plate, curve), plate, curve)


def finish(prepared: Prepared, chosen: Chosen, plate: Plate, curve: BiteCurve) -> Plan:
    """Everything that follows from the chosen tones: places, painting, the order, the day."""
    done = corrected(prepared, chosen, plate)
    work = paintings(done.tones, chosen.count, prepared.grid.px_per_mm)
    untested = curve.standing is Standing.UNTESTED
    job = Job(plate.tones.count, plate.size, plate.conditions, plate.rates, companion=untested)
    margin = margin_notes(plate.margin_strip, plate.size, chosen.count)
    notes = (*doubts_of(plate), *curve.remarks, *prepared.notes, *chosen.warnings, *margin)
    told = (note.sentence for note in done.told if note.sentence)
    ladder = with_shares(chosen.ladder, done.tones)
    order = make_order(job, ladder, work, (*notes, *told))
    if plate.lines is not None and prepared.lines is not None:
        lengths = prepared.lines.lengths_cm
        order = with_lines(order, plate.lines, lengths, plate.conditions, plate.rates)
    if plate.second_grain is not None:
        order = with_second_grain(order, plate.second_grain, plate.conditions, plate.rates)
    if plate.soft.remedies:
        order = with_remedies(order, passages_in(plate, prepared, done.tones, chosen.count))
    return Plan(plate, curve, prepared, chosen, done.tones, order, done.told)
