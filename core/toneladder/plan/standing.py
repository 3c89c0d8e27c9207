"""What the times of a plate stand on: its strips and the proofs since, or a starting point."""

from dataclasses import dataclass, replace

from toneladder.bite.curve import starting_curve
from toneladder.bite.fitting import Fit
from toneladder.bite.today import USUAL_Q
from toneladder.bite.values import BiteCurve, Conditions, Varnish
from toneladder.plan.memory import Memory
from toneladder.plate.values import Plate
from toneladder.strip.curve import fit_strips
from toneladder.strip.staleness import Today, why_stale
from toneladder.strip.values import Strip


@dataclass(frozen=True, slots=True)
class Footing:
    """Everything of a plate that decides its curve.

    ``strips`` are those of its metal and mordant, ``q`` the rate gained over 10 °C between
    them; without strips only ``conditions`` count, without what does not change a curve: today's
    temperature, strength, varnish.
    """

    strips: tuple[Strip, ...]
    q: float
    conditions: Conditions


def footing_of(plate: Plate) -> Footing:
    """What decides the curve of ``plate``; two plates of one footing share a curve."""
    now, plain = plate.conditions, Conditions()
    pair = (now.metal, now.mordant)
    strips = tuple(
        strip
        for strip in plate.evidence.strips
        if (strip.conditions.metal, strip.conditions.mordant) == pair
    )
    if strips:
        return Footing(strips, plate.evidence.q, plain)
    warmth, strength = plain.temperature_c, plain.strength
    bare = replace(now, temperature_c=warmth, strength=strength, varnish=Varnish.SPIRIT)
    return Footing((), USUAL_Q, bare)


def fit_of(plate: Plate, memory: Memory | None = None) -> Fit | None:
    """The fit of the plate's strips and the proofs since, or None if it has no strip that counts.

    Parameters
    ----------
    plate : Plate
        Its evidence; the day's temperature changes nothing here.
    memory : Memory, optional
        Keeps the last fit.

    Raises
    ------
    StripError
        If no curve can be drawn from the strips.
    """
    footing = footing_of(plate)
    if not footing.strips:
        return None
    memory = memory or Memory()
    request = (footing.strips, footing.q)
    return memory.recall("fit", request, lambda: fit_strips(footing.strips, q=footing.q))


def curve_of(plate: Plate, memory: Memory | None = None) -> BiteCurve:
    """The bite curve of ``plate``: from its strips, else the starting point of its bath.

    Its remarks are those of the fit.

    Raises
    ------
    StripError
        If no curve can be drawn from the strips.
    RefusedPairError
        Metal and mordant must not meet, or have no starting point.
    """
    memory = memory or Memory()
    found = fit_of(plate, memory)
    if found is not None:
        return replace(found.curve, remarks=found.remarks)
    conditions = footing_of(plate).conditions
    return memory.recall("starting curve", conditions, lambda: starting_curve(conditions))


def doubts_of(plate: Plate) -> tuple[str, ...]:
    """Why the newest strip may not stand for this plate today; nothing without strips."""
    if not plate.evidence.strips:
        return ()
    strips = footing_of(plate).strips or plate.evidence.strips
    today = Today(plate.conditions, plate.grained_on, check=plate.evidence.check)
    return why_stale(strips[-1], today)
