"""Tones at a strip's own patches: bites copied from it, no curve in between."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

import numpy as np

from toneladder.bite.fitting.values import IntArray
from toneladder.bite.today import rate_today
from toneladder.bite.values import BiteCurve
from toneladder.optics import FloatArray
from toneladder.plan.standing import footing_of
from toneladder.plate.values import Plate
from toneladder.quantities import write_bite
from toneladder.strip.values import Patch, Strip
from toneladder.tones.choose import Levels, levels_at
from toneladder.tones.values import FEWEST_TONES, Choice, ToneChoice
from toneladder.wording import say

_SAME_BITE_S = 0.5


@dataclass(frozen=True, slots=True)
class Copied:
    """Tones copied from patches: ``patches`` has one for each level, white first.

    ``bites_s`` are their total bites on today's clock, ``said`` what must be said of them.
    """

    levels: Levels
    patches: tuple[Patch, ...]
    bites_s: tuple[float, ...]
    said: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Pointed:
    """The patches from which tones may be copied, white first, bites rising.

    ``warmer`` is how much faster the strip's bath was than the curve's, by temperature.
    """

    patches: tuple[Patch, ...]
    warmer: float

    @property
    def deepest(self) -> float:
        """Lightness (CIE L*) of the darkest patch."""
        return min(patch.lightness for patch in self.patches)


def pointed_at(plate: Plate, curve: BiteCurve) -> Pointed | None:
    """The patches of the plate's newest strip, if its tones come from the strip.

    Repeated bites are one patch, read more surely. A strip without an unbitten patch gets one
    at the curve's white. Patches that the etcher points at leave out the others.

    Returns
    -------
    Pointed or None
        None where tones come from elsewhere, or no strip has a patch that prints darker than
        its white.
    """
    strips = footing_of(plate).strips
    if plate.tones.choice is not Choice.STRIP or not strips:
        return None
    patches = _patches(strips[-1], curve)
    if named := plate.tones.patches_s:
        patches = (patches[0], *(one for one in patches[1:] if _named(one, named)))
    if min(patch.lightness for patch in patches) >= patches[0].lightness:
        return None
    strip_c = strips[-1].conditions.temperature_c
    return Pointed(patches, rate_today(strip_c, curve.temperature_c, q=plate.evidence.q))


def copied_tones(
    pointed: Pointed, tones: ToneChoice, targets: FloatArray, weights: FloatArray, rate: float
) -> Copied:
    """The patches that become tones: those pointed at, or the best of all, exact.

    Parameters
    ----------
    pointed : Pointed
        The patches at hand.
    tones : ToneChoice
        How many, which, and the least gap between them.
    targets, weights : (256,) arrays
        Target lightness L* of each step, and how many cells of the plate ask for it.
    rate : float, above 0
        Curve seconds that pass in one second of today's bath.

    Returns
    -------
    Copied
        Of the best, no fewer than two and as many as gap and patches leave room for.
    """
    patches, said = pointed.patches, list[str]()
    lightness = np.array([patch.lightness for patch in patches])
    if tones.patches_s:
        picked = list(_falling(lightness))
        said += _left_out(patches, picked, tones.patches_s)
    else:
        picked = _best(lightness, tones, targets, weights)
        if len(picked) < tones.count:
            said.append(
                say(
                    "{asked} tones were asked for; the strip's patches and the least gap between "
                    "tones leave room for {planned}.",
                    asked=tones.count,
                    planned=len(picked),
                )
            )
    if tones.held_bites:
        said.append(say("Bites that are held rest while tones are copied from the strip."))
    levels = levels_at(targets, weights, lightness[picked], tones.held_partings)
    chosen = tuple(patches[k] for k in picked)
    scale = pointed.warmer / rate
    bites = tuple(_on_the_clock(patch.total_bite_s, scale) for patch in chosen)
    return Copied(levels, chosen, bites, tuple(said))


def _patches(strip: Strip, curve: BiteCurve) -> tuple[Patch, ...]:
    rising = sorted(strip.patches, key=lambda patch: patch.total_bite_s)
    one_each = [_joined(list(same)) for _, same in groupby(rising, lambda one: one.total_bite_s)]
    if one_each[0].total_bite_s > 0.0:
        one_each.insert(0, Patch(0.0, curve.lightness[0]))
    return tuple(one_each)


def _joined(same: Sequence[Patch]) -> Patch:
    """Patches of one bite as one."""
    return Patch(
        same[0].total_bite_s,
        float(np.mean([patch.lightness for patch in same])),
        float(np.sqrt(np.sum([patch.spread**2 for patch in same]))) / len(same),
    )


def _named(patch: Patch, bites_s: Sequence[float]) -> bool:
    return any(abs(patch.total_bite_s - bite) <= _SAME_BITE_S for bite in bites_s)


def _on_the_clock(bite_s: float, scale: float) -> float:
    """A copied bite; in another bath than the strip's, to the second."""
    return bite_s if abs(scale - 1.0) < 1e-9 else float(round(bite_s * scale))


def _falling(lightness: FloatArray) -> Iterator[int]:
    """The patches that are darker than all that were bitten shorter."""
    darkest = np.inf
    for k, tone in enumerate(lightness):
        if tone < darkest:
            darkest = tone
            yield k


def _left_out(
    patches: Sequence[Patch], picked: Sequence[int], named: Sequence[float]
) -> Iterator[str]:
    for bite in named:
        if not any(_named(patch, [bite]) for patch in patches):
            yield say("The strip has no patch of {bite}.", bite=write_bite(bite))
    for k in sorted(set(range(len(patches))) - set(picked)):
        yield say(
            "The patch of {bite} prints no darker than a shorter one: it can be no tone.",
            bite=write_bite(patches[k].total_bite_s),
        )


def _best(
    lightness: FloatArray, tones: ToneChoice, targets: FloatArray, weights: FloatArray
) -> list[int]:
    """As many patches as are wanted and can be had, nearest to the picture of all choices.

    F[n][j] is the least error of what is lighter than patch ``j``, if that is the n-th tone.
    """
    gap = max(tones.gap_lightness, np.finfo(float).tiny)
    count = len(lightness)
    apart = lightness[:, None] - lightness[None, :]
    may_follow = np.triu(apart >= gap - 1e-9, 1) & (apart > 0.0)
    errors = np.where(may_follow, _errors_between(lightness, targets, weights), np.inf)
    tail = _errors_past(lightness, targets, weights)
    if tones.darkest_kept:
        tail[lightness > lightness.min()] = np.inf
    first = np.full(count, np.inf)
    first[0] = float(weights @ np.maximum(targets - lightness[0], 0.0) ** 2)
    table, back = [first], list[IntArray]()
    while len(table) < min(tones.count, count):
        through = table[-1][:, None] + errors
        back.append(through.argmin(axis=0))
        table.append(through.min(axis=0))
    for n in range(len(table), FEWEST_TONES - 1, -1):
        whole = table[n - 1] + tail
        if np.isfinite(whole.min()):
            return _traced(int(whole.argmin()), back[: n - 1])
    return [0, int(np.argmin(lightness))]


def _traced(last: int, back: Sequence[IntArray]) -> list[int]:
    picked = [last]
    for step in reversed(back):
        picked.append(int(step[picked[-1]]))
    return picked[::-1]


def _errors_between(lightness: FloatArray, targets: FloatArray, weights: FloatArray) -> FloatArray:
    """Error of what lies between patches i and j, each at the nearer of the two."""
    error = np.zeros((len(lightness), len(lightness)))
    for target, weight in zip(targets.tolist(), weights.tolist(), strict=True):
        away = (lightness - target) ** 2
        between = (lightness[:, None] >= target) & (target > lightness[None, :])
        error += weight * between * np.minimum(away[:, None], away[None, :])
    return error


def _errors_past(lightness: FloatArray, targets: FloatArray, weights: FloatArray) -> FloatArray:
    """Error of what is no lighter than each patch, if that is the last tone."""
    below = np.maximum(lightness[None, :] - targets[:, None], 0.0)
    return np.asarray(weights @ below**2)
