"""Metals and baths that may meet, for lists that offer them."""

from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.errors import RefusedPairError

_USUAL = {
    Metal.COPPER: Mordant.FERRIC_CHLORIDE,
    Metal.ZINC: Mordant.COPPER_SULPHATE_SALT,
    Metal.ALUMINIUM: Mordant.COPPER_SULPHATE_SALT,
}


def why_not(conditions: Conditions) -> str:
    """Why nothing can be planned for metal, bath and grain; empty if it can."""
    from toneladder.bite.starting_points import starting_point

    try:
        starting_point(conditions)
    except RefusedPairError as refusal:
        return str(refusal)
    return ""


def fitting_mordant(metal: Metal, mordant: Mordant) -> Mordant:
    """The same bath if the metal can be planned in it, or the metal's usual one."""
    if not why_not(Conditions(metal=metal, mordant=mordant)):
        return mordant
    return _USUAL.get(metal, mordant)
