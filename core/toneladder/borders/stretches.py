"""Arcs parted where something runs along them: an etched line, a soft passage."""

from collections.abc import Callable, Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from toneladder.borders.arcs import OUTSIDE, Arc
from toneladder.borders.remedies import Passage
from toneladder.optics import FloatArray

BoolArray = NDArray[np.bool_]
IndexArray = NDArray[np.intp]

BESIDE_MM = 0.5
"""A border so near to an etched line needs no tracing: the line is seen through the grain."""

_PIECE_MM = 0.25
_SHORTEST_MM = 2.0  # what only crosses is not taken; what is shorter is not left
_SAME_MM = 0.35
_STRAIGHT = 1e-9


def without_lines(
    arcs: Sequence[Arc], along: BoolArray | None, px_per_mm: float
) -> tuple[Arc, ...]:
    """``arcs`` without the stretches of border that run along etched lines.

    Parameters
    ----------
    arcs : sequence of Arc
        Everything that was traced; the plate's edge stays.
    along : (height, width) array of bool, or None
        The cells of etched lines.
    px_per_mm : float
        Cells to the millimetre.

    Returns
    -------
    tuple of Arc
        A line that only crosses a border leaves it whole.
    """
    if along is None or not along.any():
        return tuple(arcs)
    height, width = along.shape
    reach = int(BESIDE_MM * px_per_mm) + 1
    across = np.arange(-reach, reach + 1)
    dx, dy = (side.ravel() for side in np.meshgrid(across, across))
    near = np.hypot(dx, dy) <= BESIDE_MM * px_per_mm

    def beside(middles: FloatArray, _: IndexArray) -> BoolArray:
        column, row = np.floor(middles * px_per_mm).astype(np.intp).T
        found = np.zeros(len(middles), dtype=np.bool_)
        for right, down in zip(dx[near].tolist(), dy[near].tolist(), strict=True):
            at = np.clip(row + down, 0, height - 1), np.clip(column + right, 0, width - 1)
            found |= along[at]
        return found

    return parted(arcs, beside)[0]


def soft_stretches(
    arcs: Sequence[Arc], passages: Sequence[Passage]
) -> tuple[tuple[Arc, ...], tuple[Arc, ...]]:
    """The arcs with a hard border, and those of soft passages, to be drawn dotted.

    Parameters
    ----------
    arcs : sequence of Arc
        Everything that was traced.
    passages : sequence of Passage
        Found on the same arcs.

    Returns
    -------
    (tuple of Arc, tuple of Arc)
        Together they are ``arcs``, cut where passages begin and end.
    """
    if not passages:
        return tuple(arcs), ()
    from scipy.spatial import cKDTree

    steps = np.repeat([p.step for p in passages], [len(p.points) for p in passages])
    points = np.concatenate([p.points for p in passages])
    sides = np.array([(arc.left, arc.right) for arc in arcs])

    def on_passage(middles: FloatArray, arc: IndexArray) -> BoolArray:
        found = np.zeros(len(middles), dtype=np.bool_)
        for step in np.unique(steps).tolist():
            of_step = np.flatnonzero((sides[arc, 0] < step) & (step <= sides[arc, 1]))
            apart, _ = cKDTree(points[steps == step]).query(
                middles[of_step], distance_upper_bound=_SAME_MM
            )
            found[of_step] |= apart <= _SAME_MM
        return found

    return parted(arcs, on_passage)


def parted(
    arcs: Sequence[Arc], chosen: Callable[[FloatArray, IndexArray], BoolArray]
) -> tuple[tuple[Arc, ...], tuple[Arc, ...]]:
    """The stretches of ``arcs`` that are not ``chosen``, and those that are.

    ``chosen`` is asked of the middles (n, 2), mm, of short pieces, and told the number of the
    arc each belongs to. The plate's edge is never chosen; stretches under 2 mm go with their
    neighbours.
    """
    inner = [arc for arc in arcs if arc.left != OUTSIDE]
    if not inner:
        return tuple(arcs), ()
    lines = [_walked(arc) for arc in inner]
    points, of_arc, ends = _in_pieces(lines)
    middles = (points[:-1] + points[1:])[of_arc[:-1] == of_arc[1:]] / 2.0
    belongs = of_arc[:-1][of_arc[:-1] == of_arc[1:]]
    taken = chosen(middles, belongs)
    pieces = np.bincount(belongs, minlength=len(inner))
    hits = np.bincount(belongs, weights=taken, minlength=len(inner))
    first = np.cumsum(pieces) - pieces
    left: list[Arc] = [arc for arc in arcs if arc.left == OUTSIDE]
    out: list[Arc] = []
    for number, arc in enumerate(inner):
        if hits[number] in {0, pieces[number]}:
            (out if hits[number] else left).append(arc)
            continue
        flags = taken[first[number] : first[number] + pieces[number]]
        line = points[ends[number] - pieces[number] - 1 : ends[number]]
        for stretch, is_taken in _stretches(line, flags, closed=arc.closed):
            piece = Arc(_corners(stretch), arc.left, arc.right, closed=False)
            piece = arc if len(stretch) == len(line) else piece
            (out if is_taken else left).append(piece)
    return tuple(left), tuple(out)


def _walked(arc: Arc) -> FloatArray:
    return np.vstack([arc.points, arc.points[:1]]) if arc.closed else arc.points


def _in_pieces(lines: Sequence[FloatArray]) -> tuple[FloatArray, IndexArray, IndexArray]:
    """All lines in short pieces: points, the line of each point, where each line ends."""
    size = np.array([len(line) for line in lines])
    corners = np.concatenate(lines)
    of_line = np.repeat(np.arange(len(lines)), size)
    way = np.diff(corners, axis=0, append=corners[-1:])
    way[np.cumsum(size) - 1] = 0.0
    count = np.maximum(np.ceil(np.hypot(way[:, 0], way[:, 1]) / _PIECE_MM), 1.0).astype(np.intp)
    at = np.repeat(np.arange(len(corners)), count)
    place = np.arange(len(at)) - np.repeat(np.cumsum(count) - count, count)
    points = corners[at] + way[at] * (place / count[at])[:, None]
    return points, of_line[at], np.cumsum(np.bincount(of_line[at], minlength=len(lines)))


def _stretches(
    line: FloatArray, taken: BoolArray, *, closed: bool
) -> Iterator[tuple[FloatArray, bool]]:
    """A line (n + 1 points) cut where ``taken`` (n pieces) changes for long enough."""
    if closed:
        turn = int(np.flatnonzero(taken[1:] != taken[:-1])[0]) + 1
        taken = np.roll(taken, -turn)
        line = np.vstack([np.roll(line[:-1], -turn, axis=0), line[turn : turn + 1]])
    way = np.diff(line, axis=0)
    gone = np.concatenate([[0.0], np.cumsum(np.hypot(way[:, 0], way[:, 1]))])
    for kind in (True, False):
        starts, ends = _runs(taken == kind)
        for start, end in zip(starts.tolist(), ends.tolist(), strict=True):
            inside = start > 0 and end < len(taken)
            if gone[end] - gone[start] < _SHORTEST_MM and (inside or kind):
                taken = taken.copy()
                taken[start:end] = not kind
    for kind in (True, False):
        starts, ends = _runs(taken == kind)
        for start, end in zip(starts.tolist(), ends.tolist(), strict=True):
            yield line[start : end + 1], kind


def _corners(line: FloatArray) -> FloatArray:
    """A line without the points that lie straight between their neighbours."""
    way = np.diff(line, axis=0)
    bend = np.abs(way[:-1, 0] * way[1:, 1] - way[:-1, 1] * way[1:, 0])
    kept: FloatArray = line[np.concatenate([[True], bend > _STRAIGHT, [True]])]
    return kept


def _runs(chosen: BoolArray) -> tuple[IndexArray, IndexArray]:
    """Where runs of true begin, and where they have ended."""
    edges = np.flatnonzero(np.diff(chosen.astype(np.int8), prepend=0, append=0))
    return edges[::2], edges[1::2]
