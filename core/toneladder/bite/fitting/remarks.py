"""What a fit has to tell about its patches: nothing is dropped, nothing is kept quiet."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np

from toneladder.bite.curve import NINETY_PERCENT
from toneladder.bite.fitting.values import Patch, Residual, Scatter, Session
from toneladder.bite.values import BiteCurve
from toneladder.quantities import name_apart, write_apart, write_bite, write_percent
from toneladder.wording import begins, say, say_number

BAD = 0.5
"""A reading that is more likely bad than this is named."""

_FEW = 2
_LEAST_REVERSAL = 1.0  # CIE L*
_STILL_FALLING = 3.0  # CIE L* over the last third of the tested bites
_LAST = 2.0 / 3.0


def remarks_on(
    sessions: Sequence[Session],
    residuals: Sequence[Residual],
    curve: BiteCurve,
    scatter: Scatter,
    rise_s: float | None,
) -> tuple[str, ...]:
    """Sentences about a fit: reversals, bad readings, what is missing, what was learnt.

    ``rise_s`` is the bite (seconds) past which the patches show a rise, if they do.
    """
    return (
        *_bad_readings(sessions, residuals),
        *_reversals(sessions),
        *_rise(rise_s),
        *_missing(sessions, curve),
        *_learnt(scatter),
    )


def _bad_readings(sessions: Sequence[Session], residuals: Sequence[Residual]) -> Iterator[str]:
    for residual in residuals:
        if residual.doubtful <= BAD:
            continue
        values = {
            "where": _where(sessions, residual.session),
            "bite": write_bite(residual.patch.total_bite_s),
            "apart": write_apart(residual.difference),
        }
        if residual.difference > 0.0:
            said = say(
                "{where}the patch of {bite} reads {apart} lighter than all the others allow."
                " It is kept and hardly counts: read it again, or bite another like it.",
                **values,
            )
        else:
            said = say(
                "{where}the patch of {bite} reads {apart} darker than all the others allow."
                " It is kept and hardly counts: read it again, or bite another like it.",
                **values,
            )
        yield begins(said)


def _reversals(sessions: Sequence[Session]) -> Iterator[str]:
    for number, session in enumerate(sessions):
        for shorter, longer in pairwise(sorted(session.patches, key=_bite)):
            apart = longer.lightness - shorter.lightness
            spread = NINETY_PERCENT * float(np.hypot(longer.spread, shorter.spread))
            if shorter.total_bite_s < longer.total_bite_s and apart > max(_LEAST_REVERSAL, spread):
                yield say(
                    "{where}{shorter} reads darker than {longer}, by {apart}: the order is"
                    " reversed there. Neither is dropped, and the curve never turns back.",
                    where=_where(sessions, number),
                    shorter=write_bite(shorter.total_bite_s),
                    longer=write_bite(longer.total_bite_s),
                    apart=write_apart(apart),
                )


def _rise(rise_s: float | None) -> Iterator[str]:
    if rise_s is not None:
        yield say(
            "Past {bite} the patches get lighter again, and more than one shows it: overbitten,"
            " the grain is going. Nothing is planned to bite longer than that.",
            bite=write_bite(rise_s),
        )


def _missing(sessions: Sequence[Session], curve: BiteCurve) -> Iterator[str]:
    patches = [patch for session in sessions for patch in session.patches]
    bitten = [patch for patch in patches if patch.total_bite_s > 0.0]
    if len(bitten) <= _FEW:
        yield say_number(
            "One bitten patch only: the curve leans on what is likely for this metal and bath,"
            " and the band is wide.",
            "{n} bitten patches only: the curve leans on what is likely for this metal and bath,"
            " and the band is wide.",
            len(bitten),
        )
    if len(bitten) == len(patches):
        yield say("No unbitten patch was read: how light the paper prints is assumed.")
    end = curve.longest_tested_s
    before = float(np.interp(_LAST * end, curve.bites_s, curve.lightness))
    if before - curve.lightness[-1] > _STILL_FALLING:
        yield say(
            "The longest patch, {bite}, is not the darkest this bath can do: longer bites are"
            " not tested, and none is planned.",
            bite=write_bite(end),
        )


def _learnt(scatter: Scatter) -> Iterator[str]:
    if scatter.learnt_from:
        yield say(
            "After {n} sessions of this bath: nine plates in ten are likely to stray no more than"
            " {share} in time and {apart} in tone.",
            n=scatter.learnt_from,
            share=write_percent(scatter.time),
            apart=name_apart(scatter.lightness),
        )


def _bite(patch: Patch) -> float:
    return patch.total_bite_s


def _where(sessions: Sequence[Session], number: int) -> str:
    """Which session is meant, where there are several."""
    if len(sessions) == 1:
        return ""
    name = sessions[number].name or say("session {n}", n=number + 1)
    return say("{name}: ", name=name)
