"""How much faster or slower today's bath bites than the bath of the curve."""

import math

from toneladder.quantities import write_temperature, write_warmer
from toneladder.wording import say

USUAL_Q = 1.5
"""Rate gained over 10 °C. Published for stirred copper in ferric chloride: 1.1 to 1.5; an
industrial rule of thumb: 2. That it holds for a still bath is an assumption."""

_NOTED_C, _CHECK_PATCH_C, _NEW_STRIP_C = 1.0, 2.0, 3.0
_GAS_CONSTANT = 8.314462618e-3  # kJ / (mol K) [CODATA2018]
_KELVIN = 273.15


def rate_today(bath_c: float, curve_c: float, *, q: float = USUAL_Q) -> float:
    """Seconds on the curve that pass in one second of today's bath.

    Parameters
    ----------
    bath_c, curve_c : float
        Temperature of today's bath and of the curve, degrees Celsius.
    q : float, above 0
        Rate gained over 10 °C.

    Returns
    -------
    float, above 0.
    """
    return float(q ** ((bath_c - curve_c) / 10.0))


def arrhenius(energy_kj_per_mol: float, from_c: float, to_c: float) -> float:
    """How much faster a reaction of that activation energy runs at ``to_c`` than at ``from_c``.

    References
    ----------
    [Arrhenius1889].
    """
    inverse = 1.0 / (from_c + _KELVIN) - 1.0 / (to_c + _KELVIN)
    return math.exp(energy_kj_per_mol / _GAS_CONSTANT * inverse)


def temperature_notes(bath_c: float, curve_c: float) -> tuple[str, ...]:
    """What to say about a bath that is not as warm as the curve's; nothing within 1 °C."""
    apart = abs(bath_c - curve_c)
    if apart <= _NOTED_C:
        return ()
    values = {
        "bath": write_temperature(bath_c),
        "curve": write_temperature(curve_c),
        "apart": write_warmer(apart),
    }
    if bath_c > curve_c:
        note = say(
            "At {bath} the bath bites faster than the curve's {curve}: the bites are"
            " shortened for it, by a rule that is an assumption.",
            **values,
        )
    else:
        note = say(
            "At {bath} the bath bites slower than the curve's {curve}: the bites are"
            " lengthened for it, by a rule that is an assumption.",
            **values,
        )
    if apart > _NEW_STRIP_C:
        return note, say("{apart} apart is too far to trust: bite a new strip.", **values)
    if apart > _CHECK_PATCH_C:
        return note, say(
            "Bite one check patch before the plate: an hour or two, to grain, clean, ink, pull"
            " and dry it. Or go by eye: if its pull looks like a patch of the strip that was"
            " bitten shorter, the bath is as much slower."
        )
    return (note,)
