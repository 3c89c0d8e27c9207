"""Pieces of line laid end to end."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from toneladder.optics import FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class Line:
    """A line through ``points`` (n, 2), mm; a ``closed`` one does not repeat its first point."""

    points: FloatArray
    closed: bool


def joined(ways: Sequence[FloatArray]) -> tuple[Line, ...]:
    """Ways that end where another begins, as few long lines.

    Parameters
    ----------
    ways : sequence of (n, 2) arrays
        Every way is walked from its first point to its last; none is walked twice.

    Returns
    -------
    tuple of Line
        Closed lines where ways lead back to their beginning.
    """
    leaving: dict[tuple[float, float], list[int]] = defaultdict(list)
    arriving: dict[tuple[float, float], int] = defaultdict(int)
    ends = [(tuple(way[0].tolist()), tuple(way[-1].tolist())) for way in ways]
    for number, (start, end) in enumerate(ends):
        leaving[start].append(number)
        arriving[end] += 1
    lines = []
    # Lines that are not closed are walked first, so that each of them starts at its end.
    loose = [start for start, out in leaving.items() for _ in range(len(out) - arriving[start])]
    for start in (*loose, *(start for start, _ in ends)):
        walked = []
        here = start
        while leaving[here]:
            number = leaving[here].pop()
            walked.append(number)
            here = ends[number][1]
            if here == start:
                break
        if walked:
            closed = here == start
            pieces = [ways[number][:-1] for number in walked]
            if not closed:
                pieces.append(ways[walked[-1]][-1:])
            lines.append(Line(np.concatenate(pieces), closed))
    return tuple(lines)
