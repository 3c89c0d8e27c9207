"""Which bites to give a test strip, and how long that takes."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from toneladder.bite.curve import bite_for, deepest_at_start, starting_curve
from toneladder.bite.fitting.beforehand import covariance_beforehand
from toneladder.bite.fitting.values import USUAL_SPREAD, IntArray
from toneladder.bite.fitting.weighing import BAD_SHARE
from toneladder.bite.starting_points import require_safe_pair
from toneladder.bite.values import Conditions
from toneladder.errors import RefusedPairError, StripError
from toneladder.optics import FloatArray
from toneladder.wording import say

FEWEST_PATCHES, MOST_PATCHES = 3, 16
USUAL_PATCHES = 8
SHORTEST_S = 5.0

LIFT_MIN = 3.0
"""Minutes to lift, rinse, blot and move the tape, once a patch: an assumption."""

_LADDER_S = 15.0
_REACH = 64.0  # from the shortest patch to the longest
_WIDEST_RATIO = 4.0
_UNKNOWN_LONGEST_S = 960.0
_EVEN_TONES = 6
_BATHS = ((-0.8, 0.25), (0.0, 0.5), (0.8, 0.25))
"""Slow, usual and fast baths, logarithms of their rates, and how likely each is."""

_KNOWN_RATE = 0.4  # in each of them, give or take
_TO_SPARE = 6  # the fewest patches among which a bad one shows: an assumption
_WORTH = 0.999  # an exchange that takes off less is none


@dataclass(frozen=True, slots=True)
class StripPlan:
    """A strip to bite: total bites (seconds) of its patches, rising from 0.

    The whole strip goes into the bath. After each of ``stays_s`` it is lifted and rinsed as a
    plate would be, and the tape is drawn over the next patch; the first patch is covered
    before. ``bath_s`` is the time in the bath, ``work_min`` with all lifts.
    """

    bites_s: tuple[float, ...]
    remarks: tuple[str, ...] = ()

    @property
    def stays_s(self) -> tuple[float, ...]:
        """Length of each stay in the bath, seconds."""
        return tuple(longer - shorter for shorter, longer in pairwise(self.bites_s))

    @property
    def bath_s(self) -> float:
        """Time in the bath, seconds: that of the longest patch."""
        return self.bites_s[-1]

    @property
    def work_min(self) -> float:
        """Minutes from the first dip to the last lift, rinses and tape included."""
        return self.bath_s / 60.0 + LIFT_MIN * len(self.stays_s)


def doubling_strip(conditions: Conditions, patches: int = USUAL_PATCHES) -> StripPlan:
    """The plain ladder: nothing, then bites that double, the last past the expected deepest.

    Eight patches double; fewer lie farther apart, more lie closer.

    Parameters
    ----------
    conditions : Conditions
        Metal, bath and ground.
    patches : int, 3..16
        The unbitten one included.

    Raises
    ------
    StripError
        Too few or too many patches.
    RefusedPairError
        If metal and mordant must not meet.
    """
    _require_possible(conditions, patches)
    longest, remarks = _longest(conditions)
    ratio = min(_REACH ** (1.0 / (patches - 2)), _WIDEST_RATIO)
    bites = [0.0, longest]
    offered = _easy_bites(longest)
    for k in range(1, patches - 1):
        bites.append(_nearest(longest / ratio**k, [o for o in offered if o not in bites]))
    return StripPlan(tuple(sorted(bites)), remarks)


def telling_strip(
    conditions: Conditions,
    patches: int = USUAL_PATCHES,
    *,
    wanted_s: Sequence[float] = (),
    already_s: Sequence[float] = (),
) -> StripPlan:
    """The patches that leave least doubt about the bites of a plan.

    One patch stays unbitten and one lies past the expected deepest. The others start as the
    plain ladder and are exchanged one by one, as long as that takes doubt off the plan's tones,
    whether the bath turns out slow, usual or fast.

    Parameters
    ----------
    conditions : Conditions
        Metal, bath and ground.
    patches : int, 3..16
        The unbitten one included.
    wanted_s : sequence of float, seconds
        Total bites of the plan at hand; without any, those of six even tones.
    already_s : sequence of float, seconds
        Bites of this bath that have been read before.

    Raises
    ------
    StripError, RefusedPairError
        As for :func:`doubling_strip`.
    """
    ladder = doubling_strip(conditions, patches)
    longest = ladder.bites_s[-1]
    offered = _easy_bites(longest)
    wanted = [bite for bite in wanted_s if bite > 0.0] or _even_bites(conditions, longest)
    worlds = [_world(conditions, offered, already_s, wanted, faster) for faster, _ in _BATHS]
    end = 1 + len(offered)
    known = [0, end - 1, *range(end, end + len(already_s))]

    def doubt(taken: list[int]) -> float:
        read = [*known, *taken]
        pairs = zip(_BATHS, worlds, strict=True)
        return sum(share * _doubt_left(*world, read) for (_, share), world in pairs)

    taken = _exchanged([1 + offered.index(bite) for bite in ladder.bites_s[1:-1]], end - 1, doubt)
    bites = (0.0, *(offered[k - 1] for k in sorted(taken)), longest)
    return StripPlan(bites, ladder.remarks)


def _world(
    conditions: Conditions,
    offered: Sequence[float],
    already_s: Sequence[float],
    wanted_s: Sequence[float],
    faster: float,
) -> tuple[FloatArray, IntArray]:
    """What bites tell about each other in a bath so much faster, and which are the plan's there.

    The plan wants tones, so a faster bath has shorter bites for them.
    """
    longest = offered[-1]
    wanted = [min(bite * math.exp(-faster), longest) for bite in wanted_s]
    every = np.array([0.0, *offered, *already_s, *wanted])
    joint = covariance_beforehand(conditions, every, faster=faster, known=_KNOWN_RATE)
    return joint, np.arange(len(every) - len(wanted), len(every))


def _exchanged(taken: list[int], end: int, doubt: Callable[[list[int]], float]) -> list[int]:
    """``taken`` after every exchange, for one of 1 to ``end`` - 1, that takes doubt off."""
    least = doubt(taken)
    settled = 0
    while settled < len(taken):
        others = taken[1:]
        left = [k for k in range(1, end) if k not in taken]
        best = min(left, key=lambda k: doubt([*others, k]), default=taken[0])
        better = doubt([*others, best])
        if better < least * _WORTH:
            taken, least, settled = [*others, best], better, 0
        else:
            taken, settled = [*others, taken[0]], settled + 1
    return taken


def _doubt_left(joint: FloatArray, tones: IntArray, taken: list[int]) -> float:
    """Variance left at ``tones``, summed, after the patches ``taken``, any of which may be bad.

    A bad one is as good as none: leaving it out gives back the square of its pull on the tones.
    Few patches cannot contradict a bad one, so that none is kept to spare among them.
    """
    read = np.array(taken)
    noisy = joint[np.ix_(read, read)] + USUAL_SPREAD**2 * np.eye(len(read))
    precision = np.linalg.inv(noisy)
    across = joint[np.ix_(read, tones)]
    pull = precision @ across
    bad = BAD_SHARE if len(read) >= _TO_SPARE else 0.0
    given_back = bad * np.sum(pull**2 / np.diag(precision)[:, None])
    return float(np.trace(joint[np.ix_(tones, tones)]) - np.sum(across * pull) + given_back)


def _require_possible(conditions: Conditions, patches: int) -> None:
    require_safe_pair(conditions.metal, conditions.mordant)
    if not FEWEST_PATCHES <= patches <= MOST_PATCHES:
        raise StripError(
            say(
                "A strip of {n} patches cannot be planned; {fewest} to {most} can."
                " Nothing was changed. Choose a number in between.",
                n=patches,
                fewest=FEWEST_PATCHES,
                most=MOST_PATCHES,
            )
        )


def _longest(conditions: Conditions) -> tuple[float, tuple[str, ...]]:
    """First doubling of 15 s past the expected deepest bite."""
    try:
        deepest = deepest_at_start(conditions)
    except RefusedPairError:
        return _UNKNOWN_LONGEST_S, (
            say(
                "No times of this metal in this bath have been published: the ladder is wide."
                " Look at the strip at every lift, and stop when it is black."
            ),
        )
    longest = _LADDER_S
    while longest <= deepest:
        longest *= 2.0
    return longest, ()


def _even_bites(conditions: Conditions, longest_s: float) -> list[float]:
    """Bites of even tones on the starting curve, or doublings where there is none."""
    try:
        curve = starting_curve(conditions)
    except RefusedPairError:
        return [longest_s / 2.0**k for k in range(1, _EVEN_TONES)]
    tones = np.linspace(curve.lightness[0], curve.lightness[-1], _EVEN_TONES)[1:]
    return [bite_for(curve, float(tone)) for tone in tones]


def _easy_bites(longest_s: float) -> list[float]:
    """Bites that are easy to time, closer than doublings, up to ``longest_s``."""
    doubled = [_LADDER_S * 2.0**k for k in range(12)]
    between = [share * bite for bite in doubled[2:] for share in (1.25, 1.5)]
    every = sorted([SHORTEST_S, 10.0, 20.0, 25.0, 45.0, *doubled, *between])
    return [bite for bite in every if bite < longest_s] + [longest_s]


def _nearest(bite_s: float, offered: list[float]) -> float:
    """The offered bite nearest to ``bite_s``, as ratios go."""
    return min(offered, key=lambda offer: abs(math.log(offer / bite_s)))
