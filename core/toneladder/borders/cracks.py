"""Where two cells of different tones meet: every such crack, put in order along its border."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from toneladder.tones.parting import ToneArray

ComplexArray = NDArray[np.complex128]
IndexArray = NDArray[np.intp]


@dataclass(frozen=True, slots=True, eq=False)
class Chains:
    """Borders as chains of cracks, all in one long row of points.

    Points are x + iy in cells from the top left: the middle of every crack, and in front of and
    behind every chain that is not closed the corner of cells where it ends. ``gates`` tells in
    which direction the two cells of a crack lie, 1 or 1j, and is 0 at ends. Chain n has the
    points ``starts[n]`` to ``ends[n]`` and the tone ``left[n]``, the lighter, on the left.
    """

    points: ComplexArray
    gates: ComplexArray
    starts: IndexArray
    ends: IndexArray
    left: IndexArray
    right: IndexArray
    closed: NDArray[np.bool_]


@dataclass(frozen=True, slots=True, eq=False)
class _Cracks:
    """Cracks without order, walked with the lighter tone on the left.

    ``tail`` and ``head`` are the corners of cells where a crack begins and ends, counted row by
    row over (height + 1, width + 1) corners.
    """

    tail: IndexArray
    head: IndexArray
    upright: NDArray[np.bool_]
    left: IndexArray
    right: IndexArray


def chains(tones: ToneArray) -> Chains:
    """All borders between the tones of (height, width) cells; the plate's edge is none.

    A chain runs from one corner of cells where more than two cracks meet, or from the plate's
    edge, to the next such corner; or it is closed and meets no other.
    """
    upright = tones[:, 1:] != tones[:, :-1]
    level = tones[1:] != tones[:-1]
    cracks = _cracks(tones, upright, level)
    after = _after(cracks, upright, level)
    chain, rank, closed = _order(after)
    return _laid_out(cracks, chain, rank, closed, tones.shape[1] + 1)


def _cracks(tones: ToneArray, upright: NDArray[np.bool_], level: NDArray[np.bool_]) -> _Cracks:
    """Uprights run down the left side of a cell, levels along its top, unless turned round."""
    width = tones.shape[1]
    flat = tones.ravel()
    row, column = np.divmod(np.flatnonzero(upright), width - 1 or 1)
    cell = row * width + column + 1
    corner = row * (width + 1) + column + 1
    beside = np.flatnonzero(level) + width
    above = beside + beside // width
    first = np.concatenate([corner + width + 1, above])
    last = np.concatenate([corner, above + 1])
    left = flat[np.concatenate([cell - 1, beside - width])].astype(np.intp)
    right = flat[np.concatenate([cell, beside])].astype(np.intp)
    turned = left > right
    return _Cracks(
        np.where(turned, last, first),
        np.where(turned, first, last),
        np.arange(len(first)) < len(cell),
        np.minimum(left, right),
        np.maximum(left, right),
    )


def _after(cracks: _Cracks, upright: NDArray[np.bool_], level: NDArray[np.bool_]) -> IndexArray:
    """The crack that follows each; itself, where its chain ends."""
    height, width = upright.shape[0], level.shape[1]
    meeting = np.zeros((height + 1, width + 1), dtype=np.uint8)
    inner = meeting[1:-1, 1:-1]
    for there in (upright[1:], upright[:-1], level[:, 1:], level[:, :-1]):
        inner += there
    runs_on = meeting.ravel()[cracks.head] == 2
    own = np.arange(len(cracks.head))
    begun = np.empty(meeting.size, dtype=np.intp)
    begun[cracks.tail] = own
    after = own.copy()
    after[runs_on] = begun[cracks.head[runs_on]]
    return after


def _order(after: IndexArray) -> tuple[IndexArray, IndexArray, NDArray[np.bool_]]:
    """The chain of every crack, its distance from the chain's end, and which chains are closed.

    Distances are found by steps of one, two, four … cracks at once.
    """
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    own = np.arange(len(after))
    links = coo_array((np.ones(len(after), dtype=np.int8), (own, after)), shape=(own.size,) * 2)
    number, chain = connected_components(links, directed=False)
    closed = np.ones(number, dtype=np.bool_)
    closed[chain[after == own]] = False
    somewhere = np.empty(number, dtype=np.intp)
    somewhere[chain] = own
    cut = somewhere[closed]
    after = after.copy()
    after[cut] = cut
    rank = (after != own).astype(np.intp)
    while np.any(ahead := rank[after]):
        rank += ahead
        after = after[after]
    return chain.astype(np.intp), rank, closed


def _laid_out(
    cracks: _Cracks,
    chain: IndexArray,
    rank: IndexArray,
    closed: NDArray[np.bool_],
    corners: int,
) -> Chains:
    """The points of all chains, one behind the other; ``corners`` to a row of corners."""
    count = np.bincount(chain, minlength=len(closed))
    ends = np.cumsum(count + 2 * ~closed)
    starts = ends - count - 2 * ~closed
    at = (ends - 1 - ~closed)[chain] - rank
    tail, head = _corner(cracks.tail, corners), _corner(cracks.head, corners)
    points = np.zeros(int(ends[-1]) if len(ends) else 0, dtype=np.complex128)
    gates = np.zeros_like(points)
    points[at] = (tail + head) / 2.0
    gates[at] = np.where(cracks.upright, 1.0, 1.0j)
    left, right = np.empty_like(count), np.empty_like(count)
    left[chain], right[chain] = cracks.left, cracks.right
    last = (rank == 0) & ~closed[chain]
    points[at[last] + 1] = head[last]
    first = (rank == count[chain] - 1) & ~closed[chain]
    points[at[first] - 1] = tail[first]
    return Chains(points, gates, starts, ends, left, right, closed)


def _corner(number: IndexArray, corners: int) -> ComplexArray:
    row, column = np.divmod(number, corners)
    return column + 1j * row
