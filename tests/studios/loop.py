"""Closing the loop: a plate from a strip of another day, its proof read, and the next plate.

The strip was bitten three degrees warmer or cooler, and the bath has since lost some of its
strength; how fast temperature really changes the rate the program does not know either.
"""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import cache

import numpy as np
from tests.core.proof.drawing import Look, blobs, draw
from tests.studios.shops import Shop, all_shops
from tests.studios.trial import NOISE, ladder_s, read_strip

from toneladder.bite.curve import bite_for
from toneladder.bite.fitting import Fit, Patch
from toneladder.bite.today import rate_today
from toneladder.optics import FloatArray
from toneladder.picture.opening import open_picture
from toneladder.proof.meaning import session_of_proof, with_proof
from toneladder.proof.reading import read_tones
from toneladder.proof.registering import register
from toneladder.proof.values import ToneReading
from toneladder.strip.curve import fit_strips
from toneladder.strip.values import Strip

STRIP_C = 20.0
APART_C = 3.0
WEAKER = 0.85
GAINED = (1.1, 2.0)
"""Rate gained over 10 °C, from the slowest published to the industrial rule of thumb."""

FIRST_TONES, NEXT_TONES = 6, (5, 8)
PX_PER_MM = 8.0
_WHITEST = 99.0

Reader = Callable[[FloatArray, FloatArray, np.random.Generator], tuple[ToneReading, ...]]
"""From wanted and printed lightness to what is read from the proof."""


@dataclass(slots=True)
class Loop:
    """Root mean square misses (CIE L*) of first plates, and of the plates after their proofs."""

    first: list[float] = field(default_factory=list)
    after: list[float] = field(default_factory=list)
    tones_after: list[float] = field(default_factory=list)


def reading_of(
    wanted: FloatArray, printed: FloatArray, chance: np.random.Generator
) -> tuple[ToneReading, ...]:
    """A proof read as well as a strip is."""
    read = np.clip(printed + chance.normal(0.0, NOISE, len(printed)), 0.0, _WHITEST)
    return tuple(
        ToneReading(tone, float(want), float(got), NOISE, 1000, float(got), float(got))
        for tone, (want, got) in enumerate(zip(wanted, read, strict=True))
    )


def read_from_a_scan(
    wanted: FloatArray, printed: FloatArray, chance: np.random.Generator
) -> tuple[ToneReading, ...]:
    """A proof scanned askew in uneven light, laid on its plan and read."""
    tones = blobs(len(wanted), int(chance.integers(1_000_000)))
    turn, scale, gradient = chance.uniform([-4.0, 0.9, 0.0], [4.0, 1.1, 0.15])
    look = Look(dpi=150.0, turn=turn, scale=scale, gradient=gradient, margin=15.0)
    scan = draw(tones, printed, PX_PER_MM, look, int(chance.integers(1_000_000)))
    light = open_picture(scan.data, name="proof").light
    laid = register(light, tones, PX_PER_MM, dpi=look.dpi)
    return read_tones(light, laid, tones, PX_PER_MM, wanted.tolist(), paper=look.paper).tones


@cache
def closed(*, seeds: int = 4, read: Reader = reading_of, shops: int = 14) -> Loop:
    """The first studios, each with strips and proofs of some seeds."""
    loop = Loop()
    for shop in all_shops()[:shops]:
        for seed in range(seeds):
            chance = np.random.default_rng([shop.seed, 4100, seed])
            _close(shop, chance, read, loop)
    return loop


def _close(shop: Shop, chance: np.random.Generator, read: Reader, loop: Loop) -> None:
    bites = ladder_s(shop)
    lightness, _ = read_strip(shop, bites, chance)
    patches = tuple(
        Patch(float(bite), float(tone), NOISE) for bite, tone in zip(bites, lightness, strict=True)
    )
    conditions = replace(shop.studio.conditions, temperature_c=STRIP_C)
    strip = Strip(conditions, patches)
    bath_c = STRIP_C + float(chance.choice([-APART_C, APART_C]))
    rate = WEAKER * float(chance.uniform(*GAINED)) ** ((bath_c - STRIP_C) / 10.0)

    wanted, given = plan_for(fit_strips([strip]), bath_c, FIRST_TONES)
    printed = shop.prints(given, rate)
    loop.first.append(_rms(printed[1:] - wanted[1:]))

    tones = read(wanted, printed, chance)
    proof = session_of_proof(tones, given.tolist(), temperature_c=bath_c, name="first plate")
    found = fit_strips([with_proof(strip, proof)])
    for count in NEXT_TONES:
        wanted, given = plan_for(found, bath_c, count)
        off = shop.prints(given, rate)[1:] - wanted[1:]
        loop.after.append(_rms(off))
        loop.tones_after += np.abs(off).tolist()


def plan_for(found: Fit, bath_c: float, count: int) -> tuple[FloatArray, FloatArray]:
    """Even tones, white included, and their total bites in clock seconds of the bath."""
    curve = found.curve
    deepest = float(np.interp(curve.deepest_useful_s, curve.bites_s, curve.lightness))
    wanted = np.linspace(curve.lightness[0], deepest, count)
    bites = np.array([0.0, *(bite_for(curve, float(tone)) for tone in wanted[1:])])
    return wanted, bites / rate_today(bath_c, curve.temperature_c)


def _rms(off: FloatArray) -> float:
    return float(np.sqrt(np.mean(off**2)))
