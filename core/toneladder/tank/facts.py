"""What the tank must know of a plan."""

from toneladder.plan.planning import Plan
from toneladder.tank.values import Facts


def facts_of(plan: Plan, *, count_in_s: float = 10.0) -> Facts:
    """Curve and rates with which the order of ``plan`` was worked out.

    Parameters
    ----------
    plan : Plan
        The plate worked out.
    count_in_s : float, 0 or more
        How long the plate takes from the key to the bath.
    """
    return Facts(
        curve=plan.curve,
        rate=plan.chosen.rate,
        planned_c=plan.plate.conditions.temperature_c,
        rates=plan.plate.rates,
        q=plan.plate.evidence.q,
        count_in_s=count_in_s,
    )
