"""What a bath holds and what a plate takes from it: Baumé degrees, masses, capacity."""

from toneladder.bite.values import Metal, Mordant
from toneladder.errors import QuantityError
from toneladder.wording import say

PRACTICAL_SHARE = 0.5
"""Share of the stoichiometric capacity after which ferric chloride is usually thrown away
[SharpeGarn1959]: 60 of 119 g of copper to the litre."""

_MODULUS = 145.0  # of the heavy Baumé scale of today, at 60 °F [CRC1970]; older books use others

# Abridged standard atomic weights, g/mol [IUPAC].
_H, _O, _AL, _S, _CL = 1.008, 15.999, 26.981538, 32.06, 35.45
_FE, _CU, _ZN = 55.845, 63.546, 65.38

_FERRIC_CHLORIDE = _FE + 3.0 * _CL
_BLUE_VITRIOL = _CU + _S + 4.0 * _O + 5.0 * (2.0 * _H + _O)

# Grams of reagent used up by a gram of metal: Cu + 2 FeCl3, Zn + CuSO4 5H2O,
# 2 Al + 3 CuSO4 5H2O.
_REAGENT_PER_METAL = {
    (Metal.COPPER, Mordant.FERRIC_CHLORIDE): 2.0 * _FERRIC_CHLORIDE / _CU,
    (Metal.COPPER, Mordant.FERRIC_CITRIC): 2.0 * _FERRIC_CHLORIDE / _CU,
    (Metal.ZINC, Mordant.COPPER_SULPHATE_SALT): _BLUE_VITRIOL / _ZN,
    (Metal.ALUMINIUM, Mordant.COPPER_SULPHATE_SALT): 3.0 * _BLUE_VITRIOL / (2.0 * _AL),
}

_DENSITY_G_PER_CM3 = {Metal.COPPER: 8.96, Metal.ZINC: 7.14, Metal.ALUMINIUM: 2.70}  # [CRC1970]


def specific_gravity(baume: float) -> float:
    """Specific gravity at 60 °F of a liquid heavier than water, from degrees Baumé (below 145).

    References
    ----------
    [CRC1970] 145 / (145 - degrees).
    """
    return _MODULUS / (_MODULUS - baume)


def baume(specific_gravity: float) -> float:
    """Degrees Baumé from specific gravity (1 or more) at 60 °F; see :func:`specific_gravity`."""
    return _MODULUS - _MODULUS / specific_gravity


def metal_bitten_g(metal: Metal, open_cm2: float, depth_um: float) -> float:
    """Grams of metal in ``open_cm2`` bitten ``depth_um`` deep; an estimate, as the depth is.

    Raises
    ------
    QuantityError
        If the metal is not copper, zinc or aluminium.
    """
    density = _DENSITY_G_PER_CM3.get(metal)
    if density is None:
        raise QuantityError(say("How heavy {metal} is, is not known here.", metal=say(metal.value)))
    return density * open_cm2 * depth_um * 1e-4


def reagent_per_metal(metal: Metal, mordant: Mordant) -> float:
    """Grams of the bath's salt that a gram of metal uses up.

    The salt is ferric chloride without water, or blue copper sulphate (with five of water).

    Raises
    ------
    QuantityError
        If nobody can say, because the reaction is not a single one.
    """
    used = _REAGENT_PER_METAL.get((metal, mordant))
    if used is None:
        raise QuantityError(
            say(
                "What {metal} uses up of {mordant} cannot be reckoned.",
                metal=say(metal.value),
                mordant=say(mordant.value),
            )
        )
    return used


def share_used(metal: Metal, mordant: Mordant, metal_g: float, reagent_g: float) -> float:
    """Share (0..1) of a bath's capacity that ``metal_g`` of metal have used up.

    ``reagent_g`` (above 0) is the salt that the fresh bath held, as in
    :func:`reagent_per_metal`. Above :data:`PRACTICAL_SHARE` a bath is usually spent; more than
    1 is not to be had.
    """
    return min(metal_g * reagent_per_metal(metal, mordant) / reagent_g, 1.0)
