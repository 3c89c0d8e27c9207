"""What a pulled proof of a plate is held against, and what of it teaches the bath's curve."""

from toneladder.plan.planning import Plan
from toneladder.plan.previewing import printed_after
from toneladder.plate.values import Plate


def regrained(plate: Plate) -> frozenset[int]:
    """Tones that were bitten in a second grain too: what they print is not the first one's."""
    return frozenset(tone for tone, had_s in enumerate(plate.second_given_s) if had_s > 0.0)


def wanted_of(plan: Plan) -> list[float]:
    """Lightness that a proof of the plate as it is should show, tone by tone, CIE L*.

    With the second grain only if it was bitten: the first proof is pulled before it.
    """
    if regrained(plan.plate):
        return list(printed_after(plan.order))
    return [tone.lightness for tone in plan.order.tones]
