"""Which lightnesses the tones print: evenly spaced, or following the picture.

Following the picture is an exact dynamic programme over the 256 steps of the lattice, for
every number of tones in one pass. A cluster is a run of steps; it prints at the mean of
what it holds, or at a level that is pinned (paper, deepest) or held by the etcher.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from toneladder.optics import FloatArray

_Index = NDArray[np.intp]
_Reach = tuple[_Index, FloatArray]
_CLOSE = 1e-12


@dataclass(frozen=True, slots=True)
class Levels:
    """Printed lightness of each tone and where the tones part, both L* and falling.

    ``error`` is the sum over the picture of weight times squared distance, L*².
    """

    levels: tuple[float, ...]
    partings: tuple[float, ...]
    error: float

    @property
    def count(self) -> int:
        """Number of tones, white included."""
        return len(self.levels)


@dataclass(frozen=True, slots=True)
class Demand:
    """What the chosen levels must respect, all L*.

    ``paper`` and ``deepest`` are the pinned first and last level; None leaves one free.
    ``gap`` is the least distance of neighbours; ``held_partings`` must be partings;
    ``held_levels`` gives tone numbers their lightness.
    """

    paper: float | None = None
    deepest: float | None = None
    gap: float = 0.0
    held_partings: tuple[float, ...] = ()
    held_levels: tuple[tuple[int, float], ...] = ()


def even_levels(
    targets: FloatArray, weights: FloatArray, count: int, paper: float, deepest: float, want: Demand
) -> Levels:
    """Levels evenly spaced from ``paper`` to ``deepest``, as many as the gap allows.

    Parameters
    ----------
    targets, weights : (n,) arrays
        Target lightness L* of each step, and how many cells of the plate ask for it.
    count : int, 2..12
        Tones asked for. Fewer come back where the gap or the held bites leave no room.
    paper, deepest : float, L*
        First and last level.
    want : Demand
        Gap and held levels and partings; its pins are not looked at.
    """
    room = count if want.gap <= 0 else int((paper - deepest) / want.gap + 1e-9) + 1
    count = max(2, min(count, room))
    fixed = {0: paper, count - 1: deepest}
    fixed |= {k: level for k, level in want.held_levels if 0 < k < count}
    knots = sorted(fixed)
    levels = np.interp(np.arange(count), knots, [fixed[k] for k in knots])
    return levels_at(targets, weights, levels, want.held_partings)


def levels_following(
    targets: FloatArray, weights: FloatArray, counts: Sequence[int], want: Demand
) -> Mapping[int, Levels]:
    """The levels nearest to the picture, exact, for each of ``counts`` that can be had.

    Parameters
    ----------
    targets, weights : (n,) arrays
        Target lightness L* of each step, and how many cells of the plate ask for it.
    counts : sequence of int
        Numbers of tones; those that gap, holds or the picture do not allow are left out.
    want : Demand
        Pins, gap and holds.

    References
    ----------
    [WangSong2011] optimal 1-D k-means by dynamic programming; the gap, pins and holds are ours.
    """
    x, w = _falling(targets, weights)
    programme = _Programme(x, w, want)
    found = {n: programme.cuts(n) for n in counts}
    return {n: _cut_levels(x, w, cuts, n, want) for n, cuts in found.items() if cuts is not None}


def levels_at(
    targets: FloatArray, weights: FloatArray, levels: FloatArray, held_partings: tuple[float, ...]
) -> Levels:
    """Given levels, parted half way between each two, but for partings that are held.

    Parameters
    ----------
    targets, weights : (n,) arrays
        Target lightness L* of each step, and how many cells of the plate ask for it.
    levels : (k,) array, L*, falling
        Printed lightness of each tone.
    held_partings : tuple of float, L*
        Each takes the place of its nearest parting.
    """
    partings = _with_held((levels[:-1] + levels[1:]) / 2.0, held_partings)
    tone = np.searchsorted(-partings, -np.asarray(targets), side="left")
    error = float(np.sum(weights * (np.asarray(targets) - levels[tone]) ** 2))
    return Levels(tuple(map(float, levels)), tuple(map(float, partings)), error)


def _falling(targets: FloatArray, weights: FloatArray) -> tuple[FloatArray, FloatArray]:
    """The steps that occur, lightest first, equal targets joined."""
    x, inverse = np.unique(-np.asarray(targets, dtype=np.float64), return_inverse=True)
    w: FloatArray = np.zeros(len(x))
    np.add.at(w, inverse.ravel(), weights)
    occurs = w > 0
    return -x[occurs], w[occurs]


class _Programme:
    """F[m][a, b]: least error of m clusters over steps before b, the last one being [a, b)."""

    def __init__(self, x: FloatArray, w: FloatArray, want: Demand) -> None:
        self.x, self.n, self.want = x, len(x), want
        self.held = dict(want.held_levels)
        self.centre = float(np.average(x, weights=w)) if self.n else 0.0
        y = x - self.centre
        self.sums = [np.concatenate(([0.0], np.cumsum(v))) for v in (w, w * y, w * y * y)]
        weight, first, second = (s[None, :] - s[:, None] for s in self.sums)
        runs = np.triu(np.ones((self.n + 1, self.n + 1), dtype=bool), 1)
        self.mean = np.where(runs, first / np.where(runs, weight, 1.0), np.nan)
        self.crossing = self._crossing(runs.shape)
        error = np.where(runs, np.maximum(second - first * self.mean, 0.0), np.inf)
        self.error = np.where(self.crossing, np.inf, error)
        self.weight, self.first, self.second = weight, first, second
        self.reaches: dict[tuple[float | None, float | None, float], _Reach] = {}
        self.at_levels: dict[float, FloatArray] = {}
        self.tables = [self._start()]
        self.bests = [np.minimum.accumulate(self.tables[0], axis=0)]

    def _crossing(self, shape: tuple[int, ...]) -> NDArray[np.bool_]:
        """Runs that a held parting forbids."""
        crossing = np.zeros(shape, dtype=bool)
        for parting in self.want.held_partings:
            p = int(np.count_nonzero(self.x > parting))
            crossing[:p, p + 1 :] = True
        return crossing

    def _at_level(self, level: float) -> FloatArray:
        """Error of every run if it prints at ``level``; empty runs are allowed."""
        if level not in self.at_levels:
            y = level - self.centre
            error = self.second - 2.0 * y * self.first + y * y * self.weight
            runs = np.triu(np.ones(error.shape, dtype=bool))
            self.at_levels[level] = np.where(runs & ~self.crossing, np.maximum(error, 0.0), np.inf)
        return self.at_levels[level]

    def _start(self) -> FloatArray:
        level = self.held.get(0, self.want.paper)
        whole = self.error if level is None else self._at_level(level)
        table = np.full_like(whole, np.inf)
        table[0] = whole[0]
        return table

    def _level_of(self, index: int) -> float | None:
        """The fixed level of tone ``index``, relative to the centre, or None."""
        level = self.want.paper if index == 0 else None
        level = self.held.get(index, level)
        return None if level is None else level - self.centre

    def _reach(self, index: int, following: float | None, gap: float) -> _Reach:
        """The last start a of tone ``index``'s run [a, b) that keeps the gap to what follows.

        With it what it costs: nothing, or infinitely much where no start does. One row for each
        b; one column for each end of the following run if that prints at its mean
        (``following`` None), else one column for all.
        """
        level = self._level_of(index)
        request = (level, following, gap)
        if request not in self.reaches:
            starts = self._starts_within(level, following, gap)
            cost = np.where(starts > 0, 0.0, np.inf)
            self.reaches[request] = (np.clip(starts - 1, 0, self.n), cost)
        return self.reaches[request]

    def _starts_within(self, level: float | None, following: float | None, gap: float) -> _Index:
        """How many starts keep the gap, counted from the lightest."""
        size = self.n + 1
        if following is not None:
            own = self.mean if level is None else np.full((size, size), level)
            kept: _Index = np.count_nonzero(own >= following + gap - _CLOSE, axis=0)
            return kept[:, None]
        if level is not None:
            return np.where(self.mean + gap <= level + _CLOSE, size, 0)
        reach = np.zeros((size, size), dtype=np.intp)
        for b in range(1, size):
            wanted = -self.mean[b, b + 1 :] - gap + _CLOSE
            reach[b, b + 1 :] = (-self.mean[:b, b]).searchsorted(wanted, side="right")
        return reach

    def _gap(self, index: int) -> float:
        """The gap between tones ``index`` and ``index + 1``: none beside a held bite."""
        return 0.0 if {index, index + 1} & self.held.keys() else self.want.gap

    def _extended(self, index: int) -> FloatArray:
        """Table of ``index + 2`` clusters from that of ``index + 1``."""
        best = self.bests[index]
        following = self._level_of(index + 1)
        cost = self.error if following is None else self._at_level(following + self.centre)
        extended: FloatArray
        if following is None and self._gap(index) <= 0 and self._level_of(index) is None:
            extended = cost + np.diagonal(best)[:, None]
            return extended
        last, closed = self._reach(index, following, self._gap(index))
        extended = cost + np.take_along_axis(best.T, last, axis=1) + closed
        return extended

    def table(self, clusters: int) -> FloatArray:
        """F[clusters], extending the programme as far as needed."""
        while len(self.tables) < clusters:
            self.tables.append(self._extended(len(self.tables) - 1))
            self.bests.append(np.minimum.accumulate(self.tables[-1], axis=0))
        return self.tables[clusters - 1]

    def cuts(self, count: int) -> list[int] | None:
        """Where each of ``count`` clusters starts, or None if there is no such choice."""
        pinned = self.want.deepest is not None and count - 1 not in self.held
        if count < 2 and pinned:
            return None
        last = self._pinned_last(count) if pinned else self.table(count)[:, self.n]
        start = int(np.argmin(last))
        if not np.isfinite(last[start]):
            return None
        starts = [start]
        end: float | None = None if not pinned else (self.want.deepest or 0.0) - self.centre
        b, e = start, self.n
        for index in range(count - 2, -1, -1):
            level = end if end is not None else self._fixed_or_mean(index + 1, b, e)
            a = self._best_start(index, b, level)
            starts.append(a)
            b, e, end = a, b, None
        return starts[::-1]

    def _fixed_or_mean(self, index: int, a: int, b: int) -> float:
        level = self._level_of(index)
        return float(self.mean[a, b]) if level is None else level

    def _pinned_last(self, count: int) -> FloatArray:
        """Least error for each start of the last cluster, which prints at the deepest."""
        deepest = self.want.deepest or 0.0
        self.table(count - 1)
        best = self.bests[count - 2]
        last, closed = self._reach(count - 2, deepest - self.centre, self._gap(count - 2))
        before = best[last[:, 0], np.arange(self.n + 1)] + closed[:, 0]
        total: FloatArray = self._at_level(deepest)[:, self.n] + before
        return total

    def _best_start(self, index: int, b: int, following: float) -> int:
        level = self._level_of(index)
        column = self.tables[index][:, b]
        wanted = following + self._gap(index) - _CLOSE
        allowed = level >= wanted if level is not None else self.mean[:, b] >= wanted
        return int(np.argmin(np.where(allowed, column, np.inf)))


def _cut_levels(x: FloatArray, w: FloatArray, cuts: list[int], count: int, want: Demand) -> Levels:
    held = dict(want.held_levels)
    ends = [*cuts[1:], len(x)]
    levels = np.empty(count)
    for k, (a, b) in enumerate(zip(cuts, ends, strict=True)):
        pin = want.paper if k == 0 else want.deepest if k == count - 1 else None
        level = held.get(k, pin)
        levels[k] = np.average(x[a:b], weights=w[a:b]) if level is None else level
    return levels_at(x, w, levels, want.held_partings)


def _with_held(partings: FloatArray, held: tuple[float, ...]) -> FloatArray:
    """``partings`` with each held one in the place of its nearest, still falling."""
    result = partings.copy()
    free = list(range(len(result)))
    for parting in sorted(held, reverse=True)[: len(result)]:
        nearest = min(free, key=lambda k: abs(float(partings[k]) - parting))
        result[nearest] = parting
        free.remove(nearest)
    return -np.sort(-result)
