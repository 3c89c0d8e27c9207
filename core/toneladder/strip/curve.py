"""From kept strips, and the proofs of plates bitten since, to the curve a plan stands on."""

from collections.abc import Sequence
from dataclasses import replace

from toneladder.bite.fitting import FOLLOW_NEWEST, Fit, Scatter, Session, fit
from toneladder.bite.today import USUAL_Q
from toneladder.errors import StripError
from toneladder.quantities import write_day
from toneladder.strip.values import Dryness, Strip
from toneladder.wording import say

OTHER_BATH_C = 1.0
"""Beyond this difference of temperature a session tells nothing of how fast the newest one was."""


def session_of(strip: Strip) -> Session:
    """The strip's patches as one session, named by the day it was bitten."""
    name = say("strip of {day}", day=write_day(strip.bitten_on)) if strip.bitten_on else ""
    return Session(strip.patches, strip.conditions.temperature_c, name=name)


def fit_strips(
    strips: Sequence[Strip],
    proofs: Sequence[Session] = (),
    *,
    scatter: Scatter | None = None,
    q: float = USUAL_Q,
) -> Fit:
    """The bite curve of one bath from its strips and the proofs bitten since.

    Parameters
    ----------
    strips : sequence of Strip, oldest first
        Of one metal in one mordant, all read dry or all read wet, each with the proofs of the
        plates bitten since. What is likely beforehand comes from the newest one's ground.
    proofs : sequence of Session, oldest first
        Proofs that no strip holds, of plates bitten after all of them.
    scatter : Scatter, optional
        As for :func:`toneladder.bite.fitting.fit`. If it is not given, the usual one; but where a
        session was bitten at another temperature than the newest, the plan stands on the newest
        one's rate alone, since how much temperature changes it is an assumption.
    q : float
        Rate gained over 10 °C.

    Raises
    ------
    StripError
        If there is no strip, the strips do not belong together, or no curve can be drawn.
    RefusedPairError
        If metal and mordant must not meet.
    """
    if not strips:
        raise StripError(say("No strip was given. Nothing was changed. Read one first."))
    newest = strips[-1]
    for strip in strips:
        _require_together(strip, newest)
    kept = [session for strip in strips for session in (session_of(strip), *strip.proofs)]
    sessions = [*kept, *proofs]
    found = fit(sessions, newest.conditions, scatter=scatter or _assumed(sessions), q=q)
    if newest.dryness is Dryness.DRY:
        return found
    wet = say(
        "The strip was read wet: it dries to other tones. Read it again when it is dry, a day"
        " later, before a plate is planned on it."
    )
    source = say("{source}, read wet", source=found.curve.source)
    return replace(found, curve=replace(found.curve, source=source), remarks=(wet, *found.remarks))


def _assumed(sessions: Sequence[Session]) -> Scatter:
    """How sessions are taken to differ before they are compared."""
    newest = sessions[-1].temperature_c
    if any(abs(session.temperature_c - newest) > OTHER_BATH_C for session in sessions):
        return Scatter(wandering=FOLLOW_NEWEST)
    return Scatter()


def _require_together(strip: Strip, newest: Strip) -> None:
    one, other = strip.conditions, newest.conditions
    if (one.metal, one.mordant) != (other.metal, other.mordant):
        raise StripError(
            say(
                "A strip of {metal} in {mordant} tells nothing about {other} in {bath}."
                " Nothing was changed. Choose strips of one metal and one bath.",
                metal=say(one.metal.value),
                mordant=say(one.mordant.value),
                other=say(other.metal.value),
                bath=say(other.mordant.value),
            )
        )
    if strip.dryness is not newest.dryness:
        raise StripError(
            say(
                "A strip read wet and one read dry cannot be fitted together: ink dries to"
                " another tone. Nothing was changed. Read the wet one again when it is dry."
            )
        )
