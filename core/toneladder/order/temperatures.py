"""The same bites in a cooler and in a warmer bath: a guess until strips show it."""

from collections.abc import Mapping, Sequence

from toneladder.bite.today import rate_today
from toneladder.order.rounding import rounded
from toneladder.order.values import Step

EITHER_SIDE_C = 2.0


def bites_by_temperature(
    steps: Sequence[Step], planned_c: float
) -> Mapping[float, tuple[float, ...]]:
    """Bites (seconds) of every step at 2 °C below, at and 2 °C above the planned bath.

    Parameters
    ----------
    steps : sequence of Step
        As planned.
    planned_c : float
        Bath temperature they are planned for, degrees Celsius.
    """
    warmths = (planned_c - EITHER_SIDE_C, planned_c, planned_c + EITHER_SIDE_C)
    return {
        warmth: tuple(
            step.bite_s
            if warmth == planned_c
            else rounded(step.bite_s / rate_today(warmth, planned_c), dark=False)
            for step in steps
        )
        for warmth in warmths
    }
