"""Even tones side by side in a profile: where they part, and how many there are."""

from dataclasses import dataclass, replace

import numpy as np

from toneladder.scans.page import FloatArray

MOST_STEPS = 24

STEP_COST = 6.0
"""What one more step has to explain at least."""

_NOISE = 1.2  # L* by which an even tone strays along a profile: an assumption
_TEXTURE = 0.4  # L* by which paper strays from paper beside it: an assumption
_UNEVEN = 0.08  # share by which the widths of patches stray: an assumption
_WIDTHS = (0.6, 1.45)
_WEIGHT = 100.0  # readings that a band is worth, since neighbouring points tell the same
_SOFT = 0.1  # share of a patch at each border where it may be blurred or lined
_EDGES = 0.04  # what those shares count for, so that a border lies in the middle of its blur
_CAP = 16.0
_LINE = 0.25  # of a patch; a plate's mark is narrower
_NO_PAGE = 60.0
_FINENESS = 0.045
_LONGEST = 1.9  # of what surely lies on the strip


@dataclass(frozen=True, slots=True, eq=False)
class Split:
    """A profile split into steps: ``borders`` (steps + 1) in points of the profile.

    ``cost`` falls with how likely the split is; only differences within a profile mean anything.
    """

    cost: float
    borders: tuple[int, ...]
    width: float


def splits(profile: FloatArray, paper: FloatArray, extent: int) -> dict[int, Split]:
    """The best split of a profile into each number of steps, bare paper before and behind.

    All patches of a strip are about as wide as each other; where two print alike that alone
    tells where they part. Dynamic programming finds the best borders for every width.

    Parameters
    ----------
    profile : (n,) array
        CIE L* along the strip; nan where the page ends.
    paper : (n,) array
        CIE L* of the bare paper beside it.
    extent : int
        Points that surely lie on the strip.
    """
    best: dict[int, Split] = {}
    known = np.flatnonzero(np.isfinite(profile))
    if known.size == 0:
        return best
    start, end = int(known[0]), int(known[-1]) + 1
    profile, paper = profile[start:end], paper[start:end]
    least, most = extent / 25.0, extent / 1.7
    for width in np.exp(np.arange(np.log(least), np.log(most), _FINENESS)):
        for count, found in _of_width(profile, paper, float(width), extent):
            split = replace(found, borders=tuple(start + border for border in found.borders))
            if count not in best or split.cost < best[count].cost:
                best[count] = split
    return best


def _of_width(
    profile: FloatArray, paper: FloatArray, width: float, extent: int
) -> list[tuple[int, Split]]:
    lengths = np.arange(max(3, round(_WIDTHS[0] * width)), round(_WIDTHS[1] * width) + 1)
    weight = _WEIGHT / extent
    bare = _bare_cost(profile, paper, width) * weight
    segment = _segment_costs(profile, lengths, width, weight)
    ends = np.arange(len(profile) + 1)
    starts = ends[None, :] - lengths[:, None]
    reached = bare
    choices = []
    found = []
    most = min(MOST_STEPS, int(_LONGEST * extent / width))
    for count in range(1, most + 1):
        total = np.where(starts >= 0, reached[np.maximum(starts, 0)], np.inf) + segment
        chosen = total.argmin(axis=0)
        choices.append(chosen)
        reached = total[chosen, ends]
        whole = reached + bare[-1] - bare
        last = int(whole.argmin())
        if count >= 2 and np.isfinite(whole[last]):
            borders = _traced(choices, lengths, last)
            found.append((count, Split(float(whole[last]), borders, width)))
    return found


def _traced(choices: list[np.ndarray], lengths: np.ndarray, last: int) -> tuple[int, ...]:
    borders = [last]
    for chosen in reversed(choices):
        borders.append(borders[-1] - int(lengths[chosen[borders[-1]]]))
    return tuple(reversed(borders))


def _bare_cost(profile: FloatArray, paper: FloatArray, width: float) -> FloatArray:
    """Cost (n + 1) of taking everything before a point for bare paper.

    Lines much narrower than a patch cost nothing: a plate leaves a mark in the paper.
    """
    from scipy import ndimage

    known = np.where(np.isfinite(profile), profile, paper)
    off = np.maximum(np.abs(known - paper) - _TEXTURE, 0.0)
    off = ndimage.grey_opening(off, max(3, round(_LINE * width)), mode="nearest")
    off = (ndimage.minimum_filter1d(off, 3, mode="nearest") / _NOISE) ** 2
    return np.concatenate([[0.0], np.cumsum(np.minimum(off, _CAP))])


def _segment_costs(
    profile: FloatArray, lengths: np.ndarray, width: float, weight: float
) -> FloatArray:
    """Cost (lengths, n + 1) of one even tone of a length that ends at a point."""
    known = np.isfinite(profile)
    value = np.where(known, profile, 0.0)
    sums, squares, unknown = (
        np.concatenate([[0.0], np.cumsum(part)]) for part in (value, value * value, ~known)
    )
    ends = np.arange(len(profile) + 1)

    def strays(trim: int) -> tuple[FloatArray, FloatArray]:
        first = np.clip(ends[None, :] - lengths[:, None] + trim, 0, len(profile))
        last = np.maximum(np.broadcast_to(np.maximum(ends - trim, 0), first.shape), first)
        total = sums[last] - sums[first]
        mean_square = total * total / np.maximum(last - first, 1)
        off = np.maximum(squares[last] - squares[first] - mean_square, 0.0)
        return off / _NOISE**2, (unknown[last] - unknown[first]) * _NO_PAGE

    trim = max(1, round(_SOFT * width))
    inner, missing = strays(trim)
    # what was trimmed is worth as much as what was not
    inner *= (lengths / np.maximum(lengths - 2 * trim, 1))[:, None]
    whole, _ = strays(0)
    uneven = ((lengths / width - 1.0) / _UNEVEN) ** 2 / 2.0
    return (inner + _EDGES * whole + missing) * weight + uneven[:, None] + STEP_COST
