"""From wanted tones to bites a hand can time, and to the tones those really print."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from toneladder.bite.curve import NINETY_PERCENT, band_at, bite_for, bite_range_for, lightness_at
from toneladder.bite.values import BiteCurve, Standing
from toneladder.order.rounding import hand_timed, shortest_bite
from toneladder.order.values import Tone
from toneladder.picture.values import PlateSize
from toneladder.quantities import write_bite, write_tone
from toneladder.tones.parting import TOLD_APART
from toneladder.wording import say, say_number

FIRST_ABOVE_PLATE_TONE = 5.0
TIMED_WITHIN_S = 2.5

_SAME_BITE_S = 1.0


@dataclass(frozen=True, slots=True)
class Wanted:
    """The tones a plate wants: L* of each, falling, its share of the plate, held total bites.

    ``held_s`` has a total bite in clock seconds for each tone that the etcher holds, else None.
    ``spreads`` has the standard deviation of the reading (L*) for each tone that is copied from
    a patch, else None: with the held bite it prints what that patch read, whatever the curve.
    """

    lightness: tuple[float, ...]
    shares: tuple[float, ...]
    held_s: tuple[float | None, ...]
    spreads: tuple[float | None, ...] = ()


@dataclass(frozen=True, slots=True)
class Ladder:
    """The tones with their total bites, the bites between them, and what must be said."""

    tones: tuple[Tone, ...]
    bites_s: tuple[float, ...]
    warnings: tuple[str, ...]


def make_ladder(wanted: Wanted, curve: BiteCurve, rate: float, size: PlateSize) -> Ladder:
    """Total bites for the wanted tones, rounded to what a hand can time.

    Parameters
    ----------
    wanted : Wanted
        Lightness, shares and held bites, white first.
    curve : BiteCurve
        Of the strip, or the starting point.
    rate : float, above 0
        Seconds on the curve per second on the clock in today's bath.
    size : PlateSize
        A tall plate cannot be bitten for a moment.
    """
    totals = _wanted_totals(wanted, curve, rate)
    shortest = shortest_bite(size)
    held = [total is not None for total in wanted.held_s[1:]]
    bites = hand_timed(totals, shortest, curve.longest_tested_s / rate, held)
    reached = (0.0, *np.cumsum(bites))
    tones = tuple(_tone(k, wanted, float(total), curve, rate) for k, total in enumerate(reached))
    said = _warnings(tones, totals, shortest, curve, rate)
    return Ladder(tones, tuple(float(b) for b in bites), tuple(said))


def alike(tones: Sequence[Tone], standing: Standing) -> tuple[int, ...]:
    """The lighter tone of each pair of neighbours that would print alike.

    No eye tells them apart, or, once a strip is read, the next plate may not.
    """
    return tuple(
        lighter.tone
        for lighter, darker in pairwise(tones)
        if lighter.lightness - darker.lightness < TOLD_APART
        or (standing is Standing.STRIP and darker.lightness_high > lighter.lightness)
    )


def _wanted_totals(wanted: Wanted, curve: BiteCurve, rate: float) -> list[float]:
    """Clock seconds of tones 1, 2, …; a held bite stays, the others never cross it."""
    free = [float(bite_for(curve, level)) / rate for level in wanted.lightness[1:]]
    totals = [f if h is None else h for f, h in zip(free, wanted.held_s[1:], strict=True)]
    return list(np.maximum.accumulate(totals))


def _tone(k: int, wanted: Wanted, total_s: float, curve: BiteCurve, rate: float) -> Tone:
    lightness, low, high = _printed(k, wanted, total_s, curve, rate)
    short, long = bite_range_for(curve, lightness) if k else (0.0, 0.0)
    return Tone(
        tone=k,
        target_lightness=wanted.lightness[k],
        lightness=lightness,
        lightness_low=low,
        lightness_high=high,
        total_bite_s=total_s,
        share=wanted.shares[k],
        shortest_s=min(short / rate, total_s),
        longest_s=max(long / rate, total_s),
    )


def _printed(
    k: int, wanted: Wanted, total_s: float, curve: BiteCurve, rate: float
) -> tuple[float, float, float]:
    """Lightness of tone ``k`` and its 90 % band: the curve's, or that of the patch it copies."""
    line = float(lightness_at(curve, total_s * rate))
    low, high = (float(edge) for edge in band_at(curve, total_s * rate))
    spread, held = (wanted.spreads[k], wanted.held_s[k]) if wanted.spreads else (None, None)
    if spread is None or held is None or abs(total_s - held) > _SAME_BITE_S:
        return line, low, high
    read, reading = wanted.lightness[k], NINETY_PERCENT * spread
    darker, lighter = (math.hypot(edge, reading) for edge in (line - low, high - line))
    return read, max(read - darker, 0.0), min(read + lighter, 100.0)


def _warnings(
    tones: Sequence[Tone], totals: Sequence[float], shortest: float, curve: BiteCurve, rate: float
) -> Iterator[str]:
    yield from _too_short(tones, totals, shortest)
    yield from _too_close(tones, curve.standing)
    first = tones[1]
    if tones[0].lightness - first.lightness < FIRST_ABOVE_PLATE_TONE:
        yield say(
            "Tone 1 prints {darkness}, hardly darker than wiped white: plate tone may drown it. "
            "Bite it longer, or plan fewer tones.",
            darkness=write_tone(first.lightness),
        )
    longest = curve.longest_tested_s / rate
    for tone in tones:
        if tone.total_bite_s > longest + 1.0:
            yield say(
                "Tone {tone} is bitten {total}: not tested beyond {longest}.",
                tone=tone.tone,
                total=write_bite(tone.total_bite_s),
                longest=write_bite(longest),
            )


def _too_short(tones: Sequence[Tone], totals: Sequence[float], shortest: float) -> Iterator[str]:
    """Bites the hand cannot time: they are made longer, and the tones darker, and it is said."""
    late = [
        tone
        for tone, before, wanted in zip(tones[1:], tones, totals, strict=False)
        if wanted - before.total_bite_s < shortest - TIMED_WITHIN_S
    ]
    if not late:
        return
    worst = max(late, key=lambda tone: tone.target_lightness - tone.lightness)
    yield say_number(
        "Step {steps} needs a shorter bite than a hand can time: it gets {shortest}, and tone "
        "{worst} prints {darkness} instead of {aimed}. A weaker or cooler bath, or fewer tones, "
        "leave more time.",
        "Steps {steps} need shorter bites than a hand can time: they get {shortest} each, and "
        "their tones print darker than planned, tone {worst} {darkness} instead of {aimed}. A "
        "weaker or cooler bath, or fewer tones, leave more time.",
        len(late),
        steps=", ".join(str(tone.tone) for tone in late),
        shortest=write_bite(shortest),
        worst=worst.tone,
        darkness=write_tone(worst.lightness),
        aimed=write_tone(worst.target_lightness),
    )


def _too_close(tones: Sequence[Tone], standing: Standing) -> Iterator[str]:
    if standing is Standing.UNTESTED:
        yield say("Neighbouring tones may come out alike until a strip is read.")
    for one in alike(tones, standing):
        yield say(
            "Tones {one} and {other} are too close to tell apart. Plan fewer tones, or make "
            "the two one; a weaker or cooler bath helps among the lights.",
            one=one,
            other=one + 1,
        )
