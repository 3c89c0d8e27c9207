"""How fast today's bath bites: by its temperature, or by one check patch."""

import math
from dataclasses import dataclass

from toneladder.bite.curve import NINETY_PERCENT, bite_reaching
from toneladder.bite.today import rate_today
from toneladder.bite.values import BiteCurve, Standing
from toneladder.errors import StripError
from toneladder.quantities import name_tone, write_bite, write_percent, write_temperature
from toneladder.strip.values import CheckPatch, Evidence
from toneladder.wording import say

LEAST_SPREAD = 0.3
"""No reading is better than this, CIE L*: an assumption."""

WIDEST_DOUBT = 0.5
"""A check patch that leaves the rate more in doubt than this, as a share, tells nothing."""

FAR_OFF = 2.0
"""A bath so many times faster or slower is another bath: an assumption."""

_NOTED_C = 1.0


@dataclass(frozen=True, slots=True)
class Checked:
    """How fast the bath was at a check patch: curve seconds per clock second, 90 % range."""

    rate: float
    low: float
    high: float

    @property
    def doubt(self) -> float:
        """Half the range, as a share of the rate."""
        return math.sqrt(self.high / self.low) - 1.0


@dataclass(frozen=True, slots=True)
class BathToday:
    """Today's bath: curve seconds that pass in one second on the clock, and the reason."""

    rate: float
    said: tuple[str, ...] = ()


def bath_today(evidence: Evidence, bath_c: float, curve: BiteCurve) -> BathToday:
    """How fast today's bath bites against the bath of ``curve``.

    Parameters
    ----------
    evidence : Evidence
        The rate gained over 10 °C, and the check patch if one was bitten.
    bath_c : float
        Temperature of the bath, degrees Celsius. A check patch bitten at another one is brought
        to it.
    curve : BiteCurve
        Of the strip, or the starting point.

    Returns
    -------
    BathToday
        A check patch that tells nothing is left out of it, and that is said.
    """
    check = evidence.check
    by_warmth = rate_today(bath_c, curve.temperature_c, q=evidence.q)
    if check is None:
        return BathToday(by_warmth)
    try:
        checked = checked_rate(check, curve)
    except StripError as refused:
        return BathToday(by_warmth, (str(refused),))
    since = rate_today(bath_c, check.temperature_c, q=evidence.q)
    return BathToday(checked.rate * since, _said(checked, check, bath_c, curve))


def checked_rate(check: CheckPatch, curve: BiteCurve) -> Checked:
    """The rate at which ``curve`` prints what the check patch printed.

    Parameters
    ----------
    check : CheckPatch
        Its bite in clock seconds, its reading and the reading's spread.
    curve : BiteCurve
        Of the strip, or the starting point.

    Returns
    -------
    Checked
        The range is that of the reading: where the curve is steep, little is in doubt.

    Raises
    ------
    StripError
        If the curve is so flat there that a reading says nothing about time.
    """
    reach = NINETY_PERCENT * max(check.spread, LEAST_SPREAD)
    ends = [check.lightness + reach, check.lightness, check.lightness - reach]
    shortest, bite, longest = (bite_reaching(curve, tone) for tone in ends)
    if math.isinf(longest):
        raise _flat(check, say("shorter"))
    if shortest <= 0.0 or check.bite_s <= 0.0:
        raise _flat(check, say("longer"))
    checked = Checked(*(one / check.bite_s for one in (bite, shortest, longest)))
    if checked.doubt > WIDEST_DOUBT:
        middle = (curve.lightness[0] + curve.lightness[-1]) / 2.0
        raise _flat(check, say("longer") if check.lightness > middle else say("shorter"))
    return checked


def _flat(check: CheckPatch, other: str) -> StripError:
    return StripError(
        say(
            "A check patch of {bite} that reads {tone} says nothing about the bath:"
            " the curve is too flat there. The bites follow the temperature alone. Bite a"
            " {other} patch.",
            bite=write_bite(check.bite_s),
            tone=name_tone(check.lightness),
            other=other,
        )
    )


def _said(checked: Checked, check: CheckPatch, bath_c: float, curve: BiteCurve) -> tuple[str, ...]:
    said = [_compared(checked, curve.standing)]
    if not 1.0 / FAR_OFF < checked.rate < FAR_OFF:
        said.append(say("That is too far from the strip to trust: bite a new strip."))
    if abs(bath_c - check.temperature_c) > _NOTED_C:
        said.append(
            say(
                "The check patch was bitten at {then}, the bath is at {now}: its rate is brought"
                " there by a rule that is an assumption.",
                then=write_temperature(check.temperature_c),
                now=write_temperature(bath_c),
            )
        )
    return tuple(said)


def _compared(checked: Checked, standing: Standing) -> str:
    values = {
        "then": say("than on the strip's day")
        if standing is Standing.STRIP
        else say("than the starting points say"),
        "by": write_percent(abs(checked.rate - 1.0)),
        "doubt": write_percent(max(checked.doubt, 0.01)),
    }
    if round(100.0 * abs(checked.rate - 1.0)) == 0:
        return say(
            "Today's bath bites neither faster nor slower {then}, by the check patch, give or"
            " take {doubt}.",
            **values,
        )
    if checked.rate > 1.0:
        return say(
            "Today's bath bites {by} faster {then}, by the check patch, give or take {doubt}.",
            **values,
        )
    return say(
        "Today's bath bites {by} slower {then}, by the check patch, give or take {doubt}.",
        **values,
    )
