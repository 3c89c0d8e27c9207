"""Staircases of cells become lines that a hand can follow, each within its own gates."""

import numpy as np
from numpy.typing import NDArray

from toneladder.borders.cracks import Chains, ComplexArray, IndexArray
from toneladder.optics import FloatArray

# Shrinking and swelling by turns smooths without drawing small areas together.
_PASSES = (0.5, -0.53) * 6
_SHORTEST = 12  # cracks round a closed line that bears smoothing


def smoothed(found: Chains, room: FloatArray) -> ComplexArray:
    """The points of all chains, moved along their gates to where a smooth line passes them.

    Parameters
    ----------
    found : Chains
        All borders, n points.
    room : (n,) array, cells
        How far a point may be moved.

    References
    ----------
    [Taubin1995] smoothing of curves and surfaces without shrinkage.
    """
    line = found.points.copy()
    if not len(line):
        return line
    first, last = found.starts, found.ends - 1
    closed = found.closed
    for strength in _PASSES:
        before, after = np.roll(line, 1), np.roll(line, -1)
        before[first[closed]] = line[last[closed]]
        after[last[closed]] = line[first[closed]]
        moved = line + strength * ((before + after) / 2.0 - line)
        for ends in (first[~closed], last[~closed]):
            moved[ends] = line[ends]
        line = moved
    away = line - found.points
    along = np.clip(away.real * found.gates.real + away.imag * found.gates.imag, -room, room)
    small = closed & (found.ends - found.starts < _SHORTEST)
    along[np.repeat(small, found.ends - found.starts)] = 0.0
    return found.points + along * found.gates


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
