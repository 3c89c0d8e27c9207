"""Strips read in the studios, plans made from them, and what those plans really print.

Beside the fit stand three ways of going from patches to bites that need no program: the
nearest patch, straight lines between patches, and a monotone curve through them.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache

import numpy as np
from scipy.interpolate import PchipInterpolator
from tests.studios.shops import Shop, all_shops

from toneladder.bite.curve import band_at, bite_for
from toneladder.bite.fitting import Fit, Patch, Session, fit
from toneladder.bite.values import BiteCurve, Metal
from toneladder.optics import FloatArray
from toneladder.strip.planning import telling_strip

NOISE = 0.6
BAD_LEAST, BAD_MOST = 5.0, 12.0
RATE_SCATTER, TONE_SCATTER = 0.10, 1.5
TONES = 6
PLATES_A_STRIP = 4
_WHITEST = 99.0


@dataclass(frozen=True, slots=True)
class Plan:
    """Bites (seconds) and the lightness (CIE L*) each is meant to print."""

    bites_s: FloatArray
    wanted: FloatArray


@dataclass(slots=True)
class Table:
    """Root mean square misses (CIE L*) by way, and what the band held, by studio."""

    misses: dict[str, list[float]] = field(default_factory=dict)
    held: dict[str, list[float]] = field(default_factory=dict)
    named: int = 0
    wrongly_named: int = 0

    def middle(self, way: str = "fit") -> float:
        return float(np.median(self.misses[way]))

    def tail(self, way: str = "fit") -> float:
        return float(np.percentile(self.misses[way], 90.0))

    @property
    def cover(self) -> float:
        return float(np.mean([share for shares in self.held.values() for share in shares]))

    @property
    def worst_cover(self) -> float:
        return min(float(np.mean(shares)) for shares in self.held.values())


def ladder_s(shop: Shop) -> FloatArray:
    """Eight doubling patches: to 16 min on copper, to 8 min on other metals."""
    longest = 960.0 if shop.studio.conditions.metal is Metal.COPPER else 480.0
    return np.array([0.0, *(longest / 2.0**k for k in range(6, -1, -1))])


def read_strip(
    shop: Shop, bites_s: FloatArray, rng: np.random.Generator, *, one_bad: bool = False
) -> tuple[FloatArray, int]:
    """Lightness read from a strip, and which patch is a bad one (-1: none)."""
    read = shop.prints(bites_s) + rng.normal(0.0, NOISE, len(bites_s))
    bad = -1
    if one_bad:
        bad = int(rng.integers(len(bites_s)))
        read[bad] += rng.choice([-1.0, 1.0]) * rng.uniform(BAD_LEAST, BAD_MOST)
    return np.clip(read, 0.0, _WHITEST), bad


def session(bites_s: FloatArray, read: FloatArray, *, proof: bool = False) -> Session:
    pairs = zip(bites_s.tolist(), read.tolist(), strict=True)
    return Session(tuple(Patch(bite, tone, NOISE) for bite, tone in pairs), proof=proof)


def plan_by_fit(found: Fit) -> Plan:
    """Six even tones, white included, down to the deepest useful one."""
    curve = found.curve
    deepest = float(np.interp(curve.deepest_useful_s, curve.bites_s, curve.lightness))
    wanted = np.linspace(curve.lightness[0], deepest, TONES)[1:]
    return Plan(np.array([bite_for(curve, float(tone)) for tone in wanted]), wanted)


def plan_by_nearest_patch(bites_s: FloatArray, read: FloatArray) -> Plan:
    wanted = np.linspace(read[bites_s.argmin()], read.min(), TONES)[1:]
    return Plan(np.array([bites_s[np.abs(read - tone).argmin()] for tone in wanted]), wanted)


def plan_by_straight_lines(bites_s: FloatArray, read: FloatArray) -> Plan:
    fine = np.linspace(0.0, bites_s.max(), 4000)
    return _plan_by_line(fine, np.interp(fine, bites_s, read))


def plan_by_monotone_curve(bites_s: FloatArray, read: FloatArray) -> Plan:
    """Pooled so that it never rises, then a monotone cubic on the logarithm of time."""
    axis = np.log(bites_s + 6.0)
    fine = np.linspace(axis[0], axis[-1], 2000)
    return _plan_by_line(np.exp(fine) - 6.0, PchipInterpolator(axis, _pooled(read))(fine))


def _plan_by_line(bites_s: FloatArray, line: FloatArray) -> Plan:
    falling = np.minimum.accumulate(line)
    wanted = np.linspace(falling[0], falling[-1] + 1.0, TONES)[1:]
    first = np.minimum(np.searchsorted(-falling, -wanted), len(bites_s) - 1)
    return Plan(bites_s[first], wanted)


def _pooled(read: FloatArray) -> FloatArray:
    """The nearest values that never rise [Ayer1955]."""
    pools: list[tuple[float, int]] = []
    for value in read.tolist():
        pools.append((value, 1))
        while len(pools) > 1 and pools[-2][0] < pools[-1][0]:
            (right, many), (left, few) = pools.pop(), pools.pop()
            pools.append(((right * many + left * few) / (many + few), many + few))
    return np.concatenate([np.full(count, value) for value, count in pools])


_WAYS: dict[str, Callable[[FloatArray, FloatArray], Plan]] = {
    "nearest patch": plan_by_nearest_patch,
    "straight lines": plan_by_straight_lines,
    "monotone curve": plan_by_monotone_curve,
}


@cache
def tones_hit(
    patches: tuple[int, ...] = tuple(range(8)),
    *,
    seeds: int = 6,
    one_bad: bool = False,
    telling: int = 0,
) -> Table:
    """Strips of some patches of the ladder in every studio, planned in every way.

    ``telling`` patches, chosen by the program for the bath, are bitten instead if not 0.
    """
    table = Table({way: [] for way in ("fit", *_WAYS)})
    for shop in all_shops():
        bites = ladder_s(shop)[list(patches)]
        if telling:
            bites = np.array(telling_strip(shop.studio.conditions, telling).bites_s)
        for seed in range(seeds):
            rng = np.random.default_rng([shop.seed, seed])
            read, bad = read_strip(shop, bites, rng, one_bad=one_bad)
            found = fit([session(bites, read)], shop.studio.conditions)
            plan = plan_by_fit(found)
            plans = {"fit": plan, **{way: make(bites, read) for way, make in _WAYS.items()}}
            for way, made in plans.items():
                table.misses[way].append(_miss(shop, made))
            held = table.held.setdefault(shop.studio.name, [])
            held.append(share_held(shop, found.curve, plan, PLATES_A_STRIP, rng))
            doubtful = [k for k, patch in enumerate(found.residuals) if patch.doubtful > 0.5]
            table.named += bad in doubtful
            table.wrongly_named += len([k for k in doubtful if k != bad])
    return table


def _miss(shop: Shop, plan: Plan) -> float:
    return float(np.sqrt(np.mean((shop.prints(plan.bites_s) - plan.wanted) ** 2)))


def share_held(
    shop: Shop, curve: BiteCurve, plan: Plan, plates: int, rng: np.random.Generator
) -> float:
    """Share of the tones of some plates, each straying from its strip, that the band holds."""
    low, high = band_at(curve, plan.bites_s)
    held = [
        np.mean((low <= printed) & (printed <= high))
        for printed in (_plate(shop, plan.bites_s, rng) for _ in range(plates))
    ]
    return float(np.mean(held))


def _plate(shop: Shop, bites_s: FloatArray, rng: np.random.Generator) -> FloatArray:
    rate = float(np.exp(rng.normal(0.0, RATE_SCATTER)))
    return shop.prints(bites_s, rate) + rng.normal(0.0, TONE_SCATTER)


@dataclass(frozen=True, slots=True)
class Series:
    """Five plates after a strip: shares held and mean widths (CIE L*) of the band, by bath."""

    held_first: tuple[float, ...]
    held_after: tuple[float, ...]
    width_first: tuple[float, ...]
    width_after: tuple[float, ...]


@cache
def five_plates(*, seeds: int = 2, proofs: int = 5, plates: int = 40) -> Series:
    """In every studio a strip, then plates, each proofed and read before the next is planned."""
    rows = []
    for shop in all_shops():
        for seed in range(seeds):
            rng = np.random.default_rng([shop.seed, 900, seed])
            first, last = _first_and_last(shop, proofs, rng)
            row = []
            for found in (first, last):
                plan = plan_by_fit(found)
                low, high = band_at(found.curve, plan.bites_s)
                row += [
                    share_held(shop, found.curve, plan, plates, rng),
                    float(np.mean(high - low)),
                ]
            rows.append(row)
    held_first, width_first, held_after, width_after = zip(*rows, strict=True)
    return Series(held_first, held_after, width_first, width_after)


def _first_and_last(shop: Shop, proofs: int, rng: np.random.Generator) -> tuple[Fit, Fit]:
    bites = ladder_s(shop)
    sessions = [session(bites, read_strip(shop, bites, rng)[0])]
    first = found = fit(sessions, shop.studio.conditions)
    for _ in range(proofs):
        bitten = np.array([0.0, *plan_by_fit(found).bites_s])
        proof = _plate(shop, bitten, rng) + rng.normal(0.0, NOISE, len(bitten))
        sessions.append(session(bitten, np.clip(proof, 0.0, _WHITEST), proof=True))
        found = fit(sessions, shop.studio.conditions)
    return first, found
