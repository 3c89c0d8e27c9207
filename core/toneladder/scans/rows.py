"""Rows of even tones on a page: what may be a strip or a grey scale, and how well it is one."""

from dataclasses import dataclass
from itertools import islice

import numpy as np

from toneladder.scans.bands import Band, bands_on
from toneladder.scans.page import BARE_PAPER, FloatArray, Raster
from toneladder.scans.profile import POINTS, Profile, profile_of
from toneladder.scans.steps import STEP_COST, Split, splits
from toneladder.scans.values import Corners

EITHER_WAY = 8.0
"""Cost by which two numbers of steps explain a profile about as well."""

_MOST_TRIED = 30
_LEAST_RANGE = 10.0
_MOST_STRAY = 5.0
_MOST_ROUGH = 2.6
_MOST_RAMP = 0.5
_TURNS = 0.25
_MOST_HIDDEN = 3
_NEAR_BLACK, _SAME = 5.0, 0.8  # L*
_MOST_LIGHT = 103.0
_LEAST_BARE = 0.45
_LEAST_PIXELS = 6.0
_SEEN = 1.5
_SURELY_BITTEN, _LIKE_PAPER = 5.5, 1.0  # L* below the paper


@dataclass(frozen=True, slots=True, eq=False)
class Row:
    """A band of the page that parts into even tones; ``splits`` by their number."""

    band: Band
    profile: Profile
    splits: dict[int, Split]

    @property
    def steps(self) -> int:
        """How many steps it shows: the fewest that explain it."""
        least = min(split.cost for split in self.splits.values())
        return min(n for n, split in self.splits.items() if split.cost <= least + 1.0)

    @property
    def size(self) -> float:
        """Its area, pixels of the page."""
        x, y = self.quad(0, self.steps, self.steps)
        return float(abs(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1))) / 2.0)

    def doubt_of(self, count: int) -> float:
        """How much worse ``count`` steps explain it than the number it shows; 0 or more."""
        split = self.splits.get(count)
        return np.inf if split is None else max(0.0, split.cost - self.splits[self.steps].cost)

    def may_have(self, count: int) -> bool:
        """Whether it may be a strip of ``count`` patches.

        More than stand out are believed where two print alike because ink has reached its
        black, and one that is as light as the paper if no unbitten one is seen.
        """
        if count not in self.splits or self.fault(count) >= 1.0:
            return False
        hidden = max(0, count - self.steps)
        if hidden and (self._shows_unbitten(count) or self._halves_tones(count)):
            return False
        return self.doubt_of(count) <= EITHER_WAY + STEP_COST * min(hidden, _MOST_HIDDEN)

    def tones(self, count: int) -> FloatArray:
        """CIE L* (count) of the inner parts of ``count`` steps."""
        return np.array([np.median(part) for part in self._inner(count)])

    def fault(self, count: int) -> float:
        """0 for a row of ``count`` perfectly even, rising tones; 1 and more if it is none."""
        inner = self._inner(count)
        if any(part.size == 0 or not np.isfinite(part).all() for part in inner):
            return np.inf
        tones = self.tones(count)
        gaps = np.abs(np.diff(tones))
        if (
            np.ptp(tones) < _LEAST_RANGE
            or tones.max() > _MOST_LIGHT
            or (gaps > _SEEN).sum() + (BARE_PAPER - tones.max() > _SEEN) < min(2, count - 1)
            or self.profile.bare[self._inside(count)].mean() < _LEAST_BARE
            or self._patch_side(count) < _LEAST_PIXELS
        ):
            return np.inf
        back = float(gaps.sum() - abs(tones[-1] - tones[0])) / 2.0 / float(np.ptp(tones))
        rough = float(np.median([part.std() for part in inner]))
        stray = float(np.median(self.profile.strays[self._inside(count)]))
        return max(
            back / _TURNS,
            rough / _MOST_ROUGH,
            stray / _MOST_STRAY,
            _ramp(inner, gaps) / _MOST_RAMP,
        )

    def quads(self, count: int, scale: float) -> tuple[Corners, ...]:
        """Corners of every step, pixels of the scan, the lightest step first."""
        tones = self.tones(count)
        falls = float(np.polyfit(np.arange(count), tones, 1)[0]) <= 0.0
        order = range(count) if falls else range(count - 1, -1, -1)
        return tuple(
            _corners(*self.quad(step, step + 1, count), scale, falls=falls) for step in order
        )

    def whole(self, count: int, scale: float) -> Corners:
        """Corners of all steps together, pixels of the scan, the light end first."""
        first, last = self.quads(count, scale)[0], self.quads(count, scale)[-1]
        return first[0], last[1], last[2], first[3]

    def quad(self, first: int, last: int, count: int) -> tuple[FloatArray, FloatArray]:
        """Pixels of the page (x, y), four each, round the steps from ``first`` to ``last``."""
        borders = self.splits[count].borders
        start = self.profile.along[0] - self.profile.pitch / 2.0
        ends = [start + borders[number] * self.profile.pitch for number in (first, last)]
        return self.band.to_page(
            np.array([ends[0], ends[1], ends[1], ends[0]]), np.array([0.0, 0.0, 1.0, 1.0])
        )

    def _patch_side(self, count: int) -> float:
        """The shorter side of a patch in the middle, pixels of the page."""
        x, y = self.quad(count // 2, count // 2 + 1, count)
        return float(min(np.hypot(np.diff(x), np.diff(y))[:2]))

    def _inside(self, count: int) -> slice:
        borders = self.splits[count].borders
        return slice(borders[0], borders[-1])

    def _shows_unbitten(self, count: int) -> bool:
        """Whether an unbitten patch is seen, so that there is no paler one beside it."""
        seen, wanted = (BARE_PAPER - self.tones(n).max() for n in (self.steps, count))
        return bool(wanted < _LIKE_PAPER < seen < _SURELY_BITTEN)

    def _halves_tones(self, count: int) -> bool:
        """Whether two neighbours are one tone though bites that long still darken."""
        tones = self.tones(count)
        light = np.minimum(tones[1:], tones[:-1]) > tones.min() + _NEAR_BLACK
        return bool((light & (np.abs(np.diff(tones)) < _SAME)).any())

    def _inner(self, count: int) -> list[FloatArray]:
        split = self.splits[count]
        trim = max(1, round(0.15 * split.width))
        return [
            self.profile.tones[first + trim : last - trim]
            for first, last in zip(split.borders[:-1], split.borders[1:], strict=True)
        ]


def rows_on(tone: Raster) -> list[Row]:
    """All rows of even tones on an evened page, the largest first.

    ``tone`` (height, width) is CIE L*, bare paper being :data:`BARE_PAPER`.
    """
    found: list[Row] = []
    paper = np.full(tone.shape, BARE_PAPER, np.float32)
    for band in islice(bands_on(tone, paper), _MOST_TRIED):
        if any(_inside(band.corners.mean(axis=0), row) for row in found):
            continue
        profile = profile_of(tone, band, BARE_PAPER)
        if not _promising(profile):
            continue
        row = Row(band, profile, splits(profile.tones, profile.paper, POINTS))
        if row.splits and row.fault(row.steps) < 1.0:
            found.append(row)
    return sorted(found, key=lambda row: -row.size)


def _promising(profile: Profile) -> bool:
    """A quick look: paper beside it, and tones that do more than go up and down."""
    on = np.abs(profile.along - 0.5) < 0.45
    tones = profile.tones[on]
    if not np.isfinite(tones).all() or profile.bare[on].mean() < _LEAST_BARE:
        return False
    coarse = np.median(tones[: len(tones) // 6 * 6].reshape(-1, 6), axis=1)
    span = float(np.ptp(coarse))
    turns = float(np.abs(np.diff(coarse)).sum()) - span
    return span > _LEAST_RANGE and turns < 4.0 * _TURNS * span


def _inside(point: FloatArray, row: Row) -> bool:
    x, y = row.quad(0, row.steps, row.steps)
    ways = np.roll(np.stack([x, y], axis=1), -1, axis=0) - np.stack([x, y], axis=1)
    to = point - np.stack([x, y], axis=1)
    turns = ways[:, 0] * to[:, 1] - ways[:, 1] * to[:, 0]
    return bool((turns >= 0).all() or (turns <= 0).all())


def _ramp(inner: list[FloatArray], gaps: FloatArray) -> float:
    """How much of the way to the next tone lies within the tones: 0 in steps, 1 on a ramp."""
    climbs = np.array([abs(np.polyfit(np.arange(p.size), p, 1)[0]) * p.size for p in inner])
    beside = np.maximum(gaps, _SEEN)
    either = np.minimum(climbs[1:], climbs[:-1]) / beside
    return float(np.median(either))


def _corners(x: FloatArray, y: FloatArray, scale: float, *, falls: bool) -> Corners:
    order = (0, 1, 2, 3) if falls else (1, 0, 3, 2)
    a, b, c, d = ((float(x[i]) * scale, float(y[i]) * scale) for i in order)
    return a, b, c, d
