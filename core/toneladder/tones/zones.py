"""Separate areas of one tone each, and which of them meet."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from toneladder.tones.parting import ToneArray

Numbers = NDArray[np.intp]


@dataclass(frozen=True, slots=True, eq=False)
class Zones:
    """Separate areas of one tone each, joined also at corners, and which of them meet.

    ``tone`` and ``cells`` of each zone, and whether it is ``outer``, at the plate's edge; pairs
    (2, n) of zones that are ``beside`` each other along cells' sides, and of all that are
    ``near``, those that only touch at a corner with them.
    """

    tone: NDArray[np.uint8]
    cells: Numbers
    outer: NDArray[np.bool_]
    beside: Numbers
    near: Numbers


def zones(tones: ToneArray) -> Zones:
    """All areas of (height, width) cells that are of one tone and hang together.

    What is looked at is not cells but runs of cells in a row, which are far fewer.
    """
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    width = tones.shape[1]
    starts = _starts(tones)
    tone = tones.ravel()[starts]
    beside, corners = _touching(starts, width, tones.size)
    near = np.concatenate([beside, corners], axis=1)
    links = near[:, tone[near[0]] == tone[near[1]]]
    shape = (len(starts), len(starts))
    graph = coo_array((np.ones(links.shape[1], np.int8), tuple(links)), shape=shape)
    number, zone = connected_components(graph, directed=False)
    ends = np.append(starts[1:], tones.size)
    at_edge = (starts < width) | (ends > tones.size - width)
    at_edge |= (starts % width == 0) | (ends % width == 0)
    tone_of, outer = np.zeros(number, np.uint8), np.zeros(number, np.bool_)
    tone_of[zone], outer[zone[at_edge]] = tone, True
    cells = np.bincount(zone, ends - starts, number).astype(np.intp)
    beside, near = (_meeting(zone[pairs], number) for pairs in (beside, near))
    return Zones(tone_of, cells, outer, beside, near)


def _starts(tones: ToneArray) -> Numbers:
    """Flat numbers of the cells with which a run of one tone begins."""
    begins = np.ones(tones.shape, dtype=np.bool_)
    np.not_equal(tones[:, 1:], tones[:, :-1], out=begins[:, 1:])
    return np.flatnonzero(begins)


def _touching(starts: Numbers, width: int, size: int) -> tuple[Numbers, Numbers]:
    """Pairs (2, n) of runs that touch along sides of cells, and of those only at a corner."""
    at_left = starts % width == 0
    after = np.flatnonzero(~at_left)
    below, above = starts[starts >= width], starts[starts < size - width] + width
    at = _each_once(np.concatenate([above, below]))
    lower = np.searchsorted(starts, at, side="right") - 1
    upper = np.searchsorted(starts, at - width, side="right") - 1
    beside = np.stack([np.append(after - 1, upper), np.append(after, lower)])
    crossed = (starts[lower] == at) & (starts[upper] == at - width) & ~at_left[lower]
    upper, lower = upper[crossed], lower[crossed]
    corners = np.stack([np.append(upper - 1, upper), np.append(lower, lower - 1)])
    return beside, corners


def _meeting(pairs: Numbers, number: int) -> Numbers:
    """Pairs (2, n) of different zones, of so many, each once."""
    one, other = pairs[:, pairs[0] != pairs[1]]
    return np.stack(np.divmod(_each_once(one * number + other), number))


def _each_once(numbers: Numbers) -> Numbers:
    """Numbers in order; what is partly in order already is sorted soonest."""
    ordered = np.sort(numbers, kind="stable")
    return ordered[np.diff(ordered, prepend=-1) > 0]
