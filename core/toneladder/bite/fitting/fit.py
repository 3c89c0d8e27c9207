"""From the patches of strips and proofs to the bite curve that a plate can stand on."""

from collections.abc import Sequence

import numpy as np

from toneladder.bite.curve import BITES, NINETY_PERCENT, deepest_useful
from toneladder.bite.fitting.likely_curves import likely_curves
from toneladder.bite.fitting.plate_scatter import first_law
from toneladder.bite.fitting.posterior import Posterior, posterior
from toneladder.bite.fitting.readings import Readings, gather
from toneladder.bite.fitting.remarks import remarks_on
from toneladder.bite.fitting.rising import first_of_rise
from toneladder.bite.fitting.values import Fit, Residual, Scatter, Session
from toneladder.bite.today import USUAL_Q
from toneladder.bite.values import BiteCurve, Conditions, Standing
from toneladder.errors import StripError
from toneladder.optics import FloatArray
from toneladder.wording import say, say_number

_KNOTS = 80
_KNEE_S = 6.0
_ASSUMED = Scatter()


def fit(
    sessions: Sequence[Session],
    conditions: Conditions,
    *,
    scatter: Scatter = _ASSUMED,
    q: float = USUAL_Q,
) -> Fit:
    """The bite curve for the next plate, from strips and proofs of one bath.

    Parameters
    ----------
    sessions : sequence of Session, oldest first
        At least one bitten patch between them. Each has its own rate.
    conditions : Conditions
        Metal, bath and ground; they say what is likely before any patch is read. Their
        temperature and strength change nothing: sessions have their own.
    scatter : Scatter
        From plate to plate, as assumed before sessions can be compared.
    q : float
        Rate gained over 10 °C, between sessions of different temperature.

    Returns
    -------
    Fit

    Raises
    ------
    StripError
        If no curve can be drawn from the patches.
    RefusedPairError
        If metal and mordant must not meet.

    References
    ----------
    [Rasmussen2006] ch. 2 for the model's failings, [BoxTiao1968] for bad readings.
    """
    if not sessions:
        raise StripError(say("No strip was given. Nothing was changed. Read one first."))
    curves = likely_curves(conditions)
    readings = gather(sessions, q=q)
    rise_s = _rise(readings)
    law = first_law(sessions, readings.reference, scatter)
    found = posterior(readings, curves, law, readings.past(rise_s))
    curve = _curve(found, sessions)
    line = _line(curve, readings, rise_s)
    residuals = _residuals(found, sessions, np.interp(readings.bites_s, curve.bites_s, line))
    learnt = found.law.scatter
    return Fit(
        curve=curve,
        line=tuple(line.tolist()),
        residuals=residuals,
        rates=tuple(_rates(found).tolist()),
        scatter=learnt,
        remarks=remarks_on(sessions, residuals, curve, learnt, rise_s),
    )


def _rise(readings: Readings) -> float | None:
    """Where the strip of reference gets lighter again, if its patches show it."""
    chosen = readings.session == readings.reference
    columns = (readings.bites_s, readings.lightness, readings.spread)
    return first_of_rise(*(column[chosen] for column in columns))


def _line(curve: BiteCurve, readings: Readings, rise_s: float | None) -> FloatArray:
    """The print as it is expected to look; past the darkest patch it goes from patch to patch."""
    falling = np.array(curve.lightness)
    past = readings.past(rise_s)
    if not past.any():
        return falling
    order = np.argsort(readings.bites_s[past], kind="stable")
    times, tones = readings.bites_s[past][order], readings.lightness[past][order]
    bites = np.array(curve.bites_s)
    darkest = float(np.interp(rise_s or 0.0, bites, falling))
    risen = np.interp(bites, [rise_s or 0.0, *times], [darkest, *tones])
    return np.where(bites <= (rise_s or 0.0), falling, risen)


def _residuals(
    found: Posterior, sessions: Sequence[Session], as_drawn: FloatArray
) -> tuple[Residual, ...]:
    fitted, _ = found.printed(found.readings.bites_s, found.readings.session)
    expected = np.where(found.aside, as_drawn, fitted)
    doubtful = np.where(found.aside, 0.0, found.doubtful)
    patches = [patch for session in sessions for patch in session.patches]
    columns = (found.readings.session, patches, expected, doubtful)
    return tuple(
        Residual(int(session), patch, float(tone), float(doubt))
        for session, patch, tone, doubt in zip(*columns, strict=True)
    )


def _rates(found: Posterior) -> FloatArray:
    """How fast each session was, the next plate being 1."""
    return np.asarray(np.exp(found.shifts[:-1] - found.shifts[-1]))


def _curve(found: Posterior, sessions: Sequence[Session]) -> BiteCurve:
    """The curve for the next plate."""
    bites = found.readings.bites_s
    as_next = bites * _rates(found)[found.readings.session]
    longest = float(min(bites.max(), as_next.max()))
    axis = np.linspace(0.0, np.log1p(longest / _KNEE_S), _KNOTS)
    knots = np.minimum(_KNEE_S * np.expm1(axis), longest)
    mean, variance = found.printed(knots, np.full(_KNOTS, found.law.sessions))
    half = NINETY_PERCENT * np.sqrt(variance)
    fine = np.linspace(0.0, axis[-1], BITES)

    def drawn(column: FloatArray) -> FloatArray:
        return np.asarray(np.clip(np.interp(fine, axis, column), 0.0, 100.0))

    falling = np.minimum.accumulate(drawn(mean))
    bites_s = (*(_KNEE_S * np.expm1(fine[:-1])).tolist(), longest)
    lightness = tuple(falling.tolist())
    return BiteCurve(
        bites_s=bites_s,
        lightness=lightness,
        low=tuple(np.minimum.accumulate(drawn(mean - half)).tolist()),
        high=tuple(np.minimum.accumulate(drawn(mean + half)).tolist()),
        longest_tested_s=longest,
        deepest_useful_s=deepest_useful(bites_s, lightness) or longest,
        standing=Standing.STRIP,
        temperature_c=sessions[-1].temperature_c,
        source=_source(sessions),
    )


def _source(sessions: Sequence[Session]) -> str:
    count = sum(len(session.patches) for session in sessions)
    patches = say_number("one patch", "{n} patches", count)
    if len(sessions) == 1:
        return say("this bath's own strip, {patches}", patches=patches)
    return say(
        "{n} sessions of this bath, {patches}; each with its own rate",
        n=len(sessions),
        patches=patches,
    )
