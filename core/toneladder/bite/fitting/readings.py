"""Sessions as columns of numbers, at one temperature."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from toneladder.bite.fitting.values import BoolArray, IntArray, Patch, Session
from toneladder.bite.today import USUAL_Q, rate_today
from toneladder.errors import StripError
from toneladder.optics import FloatArray
from toneladder.quantities import name_apart, write_number
from toneladder.wording import say

LEAST_SPREAD = 0.3
"""No reading is better than this, CIE L*: an assumption."""

MOST_READINGS = 400

_SHORTEST_S = 1.0  # nobody bites for less
_LEAST_FALL = 2.0
_RISING = 0.3


@dataclass(frozen=True, slots=True, eq=False)
class Readings:
    """``n`` patches of all sessions, in the order in which they were given.

    ``bites_s`` are seconds at the newest session's temperature, ``lightness`` and ``spread``
    CIE L*, ``session`` counts from 0; ``reference`` is the session with most patches.
    """

    bites_s: FloatArray
    lightness: FloatArray
    spread: FloatArray
    session: IntArray
    reference: int

    def past(self, bite_s: float | None) -> BoolArray:
        """Marks (n,) the patches of the reference session bitten longer than ``bite_s``."""
        longer = self.bites_s > (math.inf if bite_s is None else bite_s)
        return np.asarray(longer & (self.session == self.reference))


def gather(sessions: Sequence[Session], *, q: float = USUAL_Q) -> Readings:
    """The patches of ``sessions``; ``q`` is the rate gained over 10 °C.

    Raises
    ------
    StripError
        If no curve can be drawn from them; the sentence says why.
    """
    listed = [(k, patch) for k, session in enumerate(sessions) for patch in session.patches]
    _require_readable([patch for _, patch in listed])
    newest_c = sessions[-1].temperature_c
    rates = [rate_today(session.temperature_c, newest_c, q=q) for session in sessions]
    readings = Readings(
        bites_s=np.array([patch.total_bite_s * rates[k] for k, patch in listed]),
        lightness=np.array([patch.lightness for _, patch in listed]),
        spread=np.array([max(patch.spread, LEAST_SPREAD) for _, patch in listed]),
        session=np.array([k for k, _ in listed]),
        reference=max(range(len(sessions)), key=lambda k: (len(sessions[k].patches), k)),
    )
    _require_falling(readings)
    return readings


def _require_readable(patches: Sequence[Patch]) -> None:
    if not any(patch.total_bite_s >= _SHORTEST_S for patch in patches):
        raise StripError(
            say(
                "No bitten patch was read, so nothing is known about time. Nothing was changed."
                " Read at least one bitten patch."
            )
        )
    if len(patches) > MOST_READINGS:
        raise StripError(
            say(
                "{n} patches are more than one curve can take; {most} are enough."
                " Nothing was changed. Leave out the oldest strips.",
                n=len(patches),
                most=MOST_READINGS,
            )
        )
    for patch in patches:
        numbers = (patch.total_bite_s, patch.lightness, patch.spread)
        if not all(map(math.isfinite, numbers)) or min(patch.total_bite_s, patch.spread) < 0.0:
            raise StripError(
                say("A patch has a bite or a spread below nothing. Nothing was changed. Mend it.")
            )
        if not 0.0 <= patch.lightness <= 100.0:
            raise StripError(
                say(
                    "A patch has the lightness {lightness}; it must lie between 0 and 100."
                    " Nothing was changed. Mend it.",
                    lightness=write_number(patch.lightness),
                )
            )


def _require_falling(readings: Readings) -> None:
    """Refuse strips that tell nothing about time, or were read from the wrong end."""
    of_one = readings.session == readings.reference
    bites, lightness = readings.bites_s[of_one], readings.lightness[of_one]
    if len(bites) < 3:
        return
    if lightness.max() - lightness.min() < _LEAST_FALL:
        raise StripError(
            say(
                "All patches read alike, within {apart}: they say nothing about time."
                " Nothing was changed. Bite a strip with longer bites, or read it again.",
                apart=name_apart(float(lightness.max() - lightness.min())),
            )
        )
    longer = np.sign(np.subtract.outer(bites, bites))
    lighter = np.sign(np.subtract.outer(lightness, lightness))
    if (longer * lighter).sum() > _RISING * np.abs(longer).sum():
        raise StripError(
            say(
                "The patches get lighter the longer they were bitten. Was the strip read from"
                " the wrong end? Nothing was changed. Turn the bites round, or read it again."
            )
        )
