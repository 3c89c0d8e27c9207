"""What the bite curve shows: the curve, its readings, and the rungs, as one frozen value."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from toneladder.bite.values import BiteCurve, Standing

if TYPE_CHECKING:
    from toneladder.bite.fitting import Fit
    from toneladder.order.values import Tone

DOUBTFUL = 0.5
"""How likely a reading must be a bad one to be drawn as such."""


@dataclass(frozen=True, slots=True)
class Reading:
    """One patch that was read: total bite (seconds on the curve) and printed lightness, CIE L*.

    ``session`` counts strips and proofs from the oldest; ``newest`` is the one the plan stands
    on. ``expected`` is what all patches together lead to.
    """

    bite_s: float
    lightness: float
    spread: float
    expected: float
    session: int
    newest: bool
    doubtful: bool


@dataclass(frozen=True, slots=True)
class Rung:
    """One tone of the plate on the curve: total bite in seconds on the curve, lightness L*.

    ``clock_s`` is its total bite by the clock, in today's bath.
    """

    tone: int
    bite_s: float
    clock_s: float
    lightness: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Content:
    """The whole drawing.

    ``bites_s`` rises from 0 and goes with ``line``, ``low`` and ``high``, CIE L*.
    """

    bites_s: tuple[float, ...]
    line: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]
    longest_tested_s: float
    deepest_useful_s: float
    untested: bool
    readings: tuple[Reading, ...]
    rungs: tuple[Rung, ...]

    @property
    def end_s(self) -> float:
        """End of the scale of bites: a little past everything that is shown."""
        last = max([self.longest_tested_s, *(rung.bite_s for rung in self.rungs)])
        return 1.15 * max(last, 60.0)


def content_of(
    curve: BiteCurve, fit: "Fit | None", tones: "tuple[Tone, ...]", rate: float
) -> Content:
    """The drawing of a plate's curve.

    Parameters
    ----------
    curve : BiteCurve
        What the plan stands on.
    fit : Fit or None
        Where strips were read: their patches, and the line they lead to.
    tones : tuple of Tone
        The plate's own; white is left out.
    rate : float
        Seconds on the curve per second on the clock in today's bath.
    """
    shown = fit.line if fit is not None and fit.curve.bites_s == curve.bites_s else curve.lightness
    return Content(
        bites_s=curve.bites_s,
        line=shown,
        low=curve.low,
        high=curve.high,
        longest_tested_s=curve.longest_tested_s,
        deepest_useful_s=curve.deepest_useful_s,
        untested=curve.standing is Standing.UNTESTED,
        readings=() if fit is None else _readings(fit),
        rungs=tuple(
            Rung(
                tone.tone,
                tone.total_bite_s * rate,
                tone.total_bite_s,
                tone.lightness,
                tone.lightness_low,
                tone.lightness_high,
            )
            for tone in tones
            if tone.tone
        ),
    )


def _readings(fit: "Fit") -> tuple[Reading, ...]:
    newest = max((one.session for one in fit.residuals), default=0)
    return tuple(
        Reading(
            one.patch.total_bite_s,
            one.patch.lightness,
            one.patch.spread,
            one.expected,
            one.session,
            one.session == newest,
            one.doubtful > DOUBTFUL,
        )
        for one in fit.residuals
    )
