"""All likely curves, weighed by all readings at once, with the model's own failings allowed for.

The doubt about the model depends on how steep the curve is, and the curve on what is
doubted; so both are found by turns.
"""

from dataclasses import dataclass, replace

import numpy as np

from toneladder.bite.fitting.doubt import Places, covariance, variance
from toneladder.bite.fitting.likely_curves import WHITE, LikelyCurves
from toneladder.bite.fitting.plate_scatter import SessionLaw, learnt
from toneladder.bite.fitting.readings import Readings
from toneladder.bite.fitting.values import BoolArray, IntArray
from toneladder.bite.fitting.weighing import BAD_SPREAD, Weighed, weigh
from toneladder.optics import FloatArray

_PASSES = 3
_PASSES_TOGETHER = 5  # sessions have to find one another first
_SURELY_BAD = 0.6
_NO_BITE_S = 1e-6
_ASIDE = 1000.0  # CIE L*, so that nothing is said
_FIRST_DOUBT = 1.5  # CIE L*, before the slope of the curve is known
_PAPER_DOUBT = 2.5
_LEAST_WEIGHT = 1e-6  # of the greatest
_MOST_READ = 60_000  # curves times readings
_DRAWN = 800
_LEAST_CASE = 0.01


@dataclass(frozen=True, slots=True, eq=False)
class Baths:
    """``k`` likely curves, each at one rate: rows of the table, logarithms of µm per second."""

    which: IntArray
    log_rate: FloatArray
    log_likely: FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class Posterior:
    """What the readings leave of the likely curves.

    ``shifts`` (s + 1,) is how much faster each session was, a logarithm, the next plate last;
    ``known`` (n,) marks readings that are surely bad, ``aside`` (n,) those that say nothing.
    """

    curves: LikelyCurves
    baths: Baths
    readings: Readings
    law: SessionLaw
    shifts: FloatArray
    known: BoolArray
    aside: BoolArray
    here: Places
    centred: FloatArray
    weighed: Weighed

    @property
    def doubtful(self) -> FloatArray:
        """How likely each reading is a bad one, shape (n,)."""
        return np.where(self.known, 1.0, self.weighed.doubtful)

    def printed(self, bites_s: FloatArray, session: IntArray) -> tuple[FloatArray, FloatArray]:
        """Lightness (CIE L*) that bites print, and its variance, both (m,).

        The variance is the curve's; where ``session`` is the next plate, its luck is included.
        """
        picked, share = _drawn(self.weighed.weight)
        curves, slopes = _at(self.curves, self.baths, picked, bites_s, self.shifts[session])
        there = Places(bites_s, session, share @ curves, share @ slopes)
        across = covariance(there, self.here, self.law)
        own = variance(there, self.law)
        curves = curves - there.slope * self.shifts[session]
        mean, square, all_cases = np.zeros(len(own)), np.zeros(len(own)), 0.0
        for case, precision in self._cases(picked):
            weight = share * case
            if (likely := weight.sum()) < _LEAST_CASE:
                continue
            gain = across @ precision
            printed = curves + self.centred[picked] @ gain.T
            centre = weight @ printed / likely
            left = np.maximum(own - np.einsum("mn,mn->m", gain, across), 0.0)
            mean += likely * centre
            square += weight @ (printed - centre) ** 2 + likely * (left + centre**2)
            all_cases += likely
        mean /= all_cases
        luck = self.law.time * there.slope**2 + self.law.tone
        next_one = session == self.law.sessions
        more = np.where(next_one, (self.law.widening - 1.0) * self.law.luck * luck, 0.0)
        return mean, np.maximum(square / all_cases - mean**2, 0.0) + more

    def _cases(self, picked: IntArray) -> list[tuple[FloatArray, FloatArray]]:
        """No further bad reading, or one: how likely for each bath, and the precision then."""
        found = self.weighed
        cases = [(found.good[picked], found.precision)]
        cases += [
            (found.bad[picked, j], found.precision_without(int(j)))
            for j in np.flatnonzero(found.doubtful > _LEAST_CASE / 2.0)
        ]
        return cases


def posterior(
    readings: Readings, curves: LikelyCurves, law: SessionLaw, aside: BoolArray
) -> Posterior:
    """Weigh ``curves`` by ``readings``.

    ``law`` is what is assumed of the sessions; readings put ``aside`` (n,) say nothing.
    """
    unread = np.where(aside, _ASIDE**2, 0.0)
    baths, weight = _screened(readings, curves, unread)
    count = len(readings.bites_s)
    assumed, shifts, known = law, np.zeros(law.sessions + 1), np.zeros(count, dtype=bool)
    for left in reversed(range(_PASSES if law.sessions == 1 else _PASSES_TOGETHER)):
        own = shifts[readings.session]
        every = np.arange(len(weight))
        lightness, slopes = _at(curves, baths, every, readings.bites_s, own)
        here = Places(readings.bites_s, readings.session, weight @ lightness, weight @ slopes)
        noise = readings.spread**2 + unread + np.where(known, BAD_SPREAD**2, 0.0)
        centred = readings.lightness + here.slope * own - lightness
        joint = covariance(here, here, law) + np.diag(noise)
        weighed = weigh(centred, joint, baths.log_likely, known)
        weight = weighed.weight
        if left:
            known = _surely_bad(known, weighed.doubtful)
        if law.sessions > 1:
            pull = weighed.precision @ (weight @ centred)
            shifts, next_law = _compared(assumed, law, here, weighed.precision, pull)
            law = next_law if left else law
    return Posterior(curves, baths, readings, law, shifts, known, aside, here, centred, weighed)


def _screened(
    readings: Readings, curves: LikelyCurves, unread: FloatArray
) -> tuple[Baths, FloatArray]:
    """The baths that may have printed the session of reference, and their weights."""
    of_one = readings.session == readings.reference
    bites, lightness = readings.bites_s[of_one], readings.lightness[of_one]
    rows, rates = len(curves.table), len(curves.log_rates)
    baths = Baths(
        which=np.repeat(np.arange(rows), rates),
        log_rate=np.tile(curves.log_rates, rows),
        log_likely=np.tile(curves.log_likely, rows),
    )
    every = np.arange(rows * rates)
    printed, _ = _at(curves, baths, every, bites, np.zeros(len(bites)))
    paper = np.clip(lightness / WHITE, 0.0, 1.0)
    noise = readings.spread[of_one] ** 2 + unread[of_one] + _FIRST_DOUBT**2
    joint = np.diag(noise) + _PAPER_DOUBT**2 * np.outer(paper, paper)
    none = np.zeros(len(bites), dtype=bool)
    weight = weigh(lightness - printed, joint, baths.log_likely, none).weight
    most = max(_MOST_READ // len(readings.bites_s), _DRAWN)
    least = weight.max() * _LEAST_WEIGHT
    if np.count_nonzero(weight > least) > most:
        least = np.partition(weight, -most)[-most]
    kept = np.flatnonzero(weight >= least)
    left = Baths(baths.which[kept], baths.log_rate[kept], baths.log_likely[kept])
    return left, weight[kept] / weight[kept].sum()


def _at(
    curves: LikelyCurves, baths: Baths, which: IntArray, bites_s: FloatArray, shifts: FloatArray
) -> tuple[FloatArray, FloatArray]:
    log_bites = np.log(np.maximum(bites_s, _NO_BITE_S)) + shifts
    return curves.at(baths.which[which], baths.log_rate[which, None] + log_bites)


def _surely_bad(known: BoolArray, doubtful: FloatArray) -> BoolArray:
    """The readings that go on as bad ones; at most a quarter of all."""
    worst = int(doubtful.argmax())
    if doubtful[worst] <= _SURELY_BAD or known.sum() >= len(known) // 4:
        return known
    more = known.copy()
    more[worst] = True
    return more


def _compared(
    assumed: SessionLaw, law: SessionLaw, here: Places, precision: FloatArray, pull: FloatArray
) -> tuple[FloatArray, SessionLaw]:
    """How much faster each session was, and what that says about the next ones."""
    shared = law.shape[:, here.session]
    faster, lighter = law.time * shared * here.slope, law.tone * shared
    time, tone = (
        learnt(first, law, across @ pull, own * law.shape - across @ precision @ across.T)
        for first, own, across in (
            (assumed.time, law.time, faster),
            (assumed.tone, law.tone, lighter),
        )
    )
    return faster @ pull, replace(law, time=time, tone=tone)


def _drawn(weight: FloatArray) -> tuple[IntArray, FloatArray]:
    """A few baths that stand for all, drawn at even steps of their summed weights."""
    steps = (np.arange(_DRAWN) + 0.5) / _DRAWN
    summed = np.cumsum(weight)
    picked, times = np.unique(np.searchsorted(summed, steps * summed[-1]), return_counts=True)
    return picked, times / _DRAWN
