"""Staircases of cells become lines that a hand can follow, each within its own gates."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from toneladder.borders.cracks import Chains, ComplexArray, IndexArray
from toneladder.optics import FloatArray

# A point is drawn towards those so many cracks before and behind it, again and again.
_STRIDES = (1, 2, 4)
_ROUND = 10  # strides round a closed line, at the least: small areas keep their size


def smoothed(found: Chains, room: FloatArray) -> ComplexArray:
    """The points of all chains, moved along their gates to where a smooth line passes them.

    Ends stay where they are. What smoothing took from the line is smoothed, too, and given back,
    so that bends are hardly cut.

    Parameters
    ----------
    found : Chains
        All borders, n points.
    room : (n,) array, cells
        How far a point may be moved.

    References
    ----------
    [Tukey1977] smoothing twice.
    """
    strides = [_beside(found, stride) for stride in _STRIDES]
    once = _drawn_smooth(found.points, strides)
    away = _drawn_smooth(found.points - once, strides) + once - found.points
    along = away.real * found.gates.real + away.imag * found.gates.imag
    return found.points + np.clip(along, -room, room) * found.gates


def _drawn_smooth(
    line: ComplexArray, strides: Sequence[tuple[IndexArray, IndexArray]]
) -> ComplexArray:
    for before, behind in strides:
        line = line / 2.0 + (line[before] + line[behind]) / 4.0
    return line


def _beside(found: Chains, stride: int) -> tuple[IndexArray, IndexArray]:
    """The points ``stride`` before and behind each, or both nearer where a chain ends."""
    size = found.ends - found.starts
    start, length = np.repeat(found.starts, size), np.repeat(size, size)
    closed = np.repeat(found.closed, size)
    place = np.arange(len(start)) - start
    to_end = np.minimum(place, length - 1 - place)
    reach = np.minimum(stride, np.where(closed, length // _ROUND, to_end))
    before, behind = place - reach, place + reach
    before += length * (before < 0)
    behind -= length * (behind >= length)
    return start + before, start + behind


def simplified(found: Chains, line: ComplexArray, room: FloatArray) -> NDArray[np.bool_]:
    """Which points of the smooth ``line`` suffice.

    The straight lines between them pass every gate closer than ``room`` (cells) to its middle.

    References
    ----------
    [DouglasPeucker1973] a line is divided where it is missed most, here by its gates.
    """
    kept = np.zeros(len(line), dtype=np.bool_)
    size = found.ends - found.starts
    kept[found.starts] = kept[found.ends - 1] = True
    # A line that returns to where it began is held open.
    for third in (1, 2):
        kept[found.starts + third * size // 3] = True
    if not len(line):
        return kept
    inner = np.flatnonzero(~kept)
    start, end = _neighbours(kept, inner)
    while len(inner):
        missed = _missed(found, line, room, inner, start, end)
        piece = np.flatnonzero(np.diff(start, prepend=-1))
        worst = np.maximum.reduceat(missed, piece)
        length = np.diff(piece, append=len(inner))
        bad = np.repeat(worst >= 0.0, length)
        split = inner[(missed == np.repeat(worst, length)) & bad]
        kept[split] = True
        inner = inner[bad]
        inner = inner[~kept[inner]]
        start, end = _neighbours(kept, inner)
    return kept


def _neighbours(kept: NDArray[np.bool_], inner: IndexArray) -> tuple[IndexArray, IndexArray]:
    """The kept points before and behind every inner one."""
    posts = np.flatnonzero(kept)
    behind = np.searchsorted(posts, inner)
    return posts[behind - 1], posts[behind]


def _missed(
    found: Chains,
    line: ComplexArray,
    room: FloatArray,
    inner: IndexArray,
    start: IndexArray,
    end: IndexArray,
) -> FloatArray:
    """By how much the line from ``start`` to ``end`` misses each inner gate; below 0, it passes.

    In cells times the length of the line.
    """
    chord = line[end] - line[start]
    to_gate = found.points[inner] - line[start]
    gate = found.gates[inner]
    apart = np.abs(chord.real * to_gate.imag - chord.imag * to_gate.real)
    across = np.abs(chord.real * gate.imag - chord.imag * gate.real)
    return apart - room[inner] * across
