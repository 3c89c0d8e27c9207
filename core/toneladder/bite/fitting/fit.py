"""From the patches of strips and proofs to the bite curve that a plate can stand on."""

from collections.abc import Sequence

import numpy as np

from toneladder.bite.curve import BITES, deepest_useful
from toneladder.bite.fitting.likely_curves import likely_curves
from toneladder.bite.fitting.plate_scatter import NINETY_PERCENT, first_law
from toneladder.bite.fitting.posterior import Posterior, posterior
from toneladder.bite.fitting.readings import Readings, gather
from toneladder.bite.fitting.remarks import BAD, remarks_on
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
    found = posterior(readings, curves, first_law(sessions, readings.reference, scatter))
    residuals = _residuals(found, sessions)
    rise_s = _rise(readings, residuals)
    curve, line = _curve(found, rise_s, sessions)
    learnt = found.law.scatter
    return Fit(
        curve=curve,
        line=line,
        residuals=residuals,
        rates=tuple(_rates(found).tolist()),
        scatter=learnt,
        remarks=remarks_on(sessions, residuals, curve, learnt, rise_s),
    )


def _residuals(found: Posterior, sessions: Sequence[Session]) -> tuple[Residual, ...]:
    expected, _ = found.printed(found.readings.bites_s, found.readings.session)
    patches = [patch for session in sessions for patch in session.patches]
    columns = (found.readings.session, patches, expected, found.doubtful)
    return tuple(
        Residual(int(session), patch, float(print_), float(doubtful))
        for session, patch, print_, doubtful in zip(*columns, strict=True)
    )


def _rise(readings: Readings, residuals: Sequence[Residual]) -> float | None:
    """Where the strip of reference gets lighter again, if its good patches show it."""
    good = np.array([residual.doubtful <= BAD for residual in residuals])
    chosen = good & (readings.session == readings.reference)
    columns = (readings.bites_s, readings.lightness, readings.spread)
    return first_of_rise(*(column[chosen] for column in columns))


def _rates(found: Posterior) -> FloatArray:
    """How fast each session was, the next plate being 1."""
    return np.asarray(np.exp(found.shifts[:-1] - found.shifts[-1]))


def _curve(
    found: Posterior, rise_s: float | None, sessions: Sequence[Session]
) -> tuple[BiteCurve, tuple[float, ...]]:
    """The curve for the next plate, and the line as it is expected to look."""
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
    line = drawn(mean) if rise_s is not None else falling
    bites_s = tuple(np.minimum(_KNEE_S * np.expm1(fine), longest).tolist())
    lightness = tuple(falling.tolist())
    curve = BiteCurve(
        bites_s=bites_s,
        lightness=lightness,
        low=tuple(np.minimum.accumulate(drawn(mean - half)).tolist()),
        high=tuple(np.minimum.accumulate(drawn(mean + half)).tolist()),
        longest_tested_s=longest,
        deepest_useful_s=deepest_useful(bites_s, lightness),
        standing=Standing.STRIP,
        temperature_c=sessions[-1].temperature_c,
        source=_source(sessions),
    )
    return curve, tuple(line.tolist())


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
