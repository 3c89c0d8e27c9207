"""How long borders are."""

from collections.abc import Iterable

import numpy as np

from toneladder.borders.arcs import OUTSIDE, Arc


def length_mm(arc: Arc) -> float:
    """Length of one arc, millimetres."""
    steps = np.diff(arc.points, axis=0, append=arc.points[:1] if arc.closed else arc.points[-1:])
    return float(np.hypot(steps[:, 0], steps[:, 1]).sum())


def border_lengths_mm(arcs: Iterable[Arc], count: int) -> tuple[float, ...]:
    """Length of the border of every step from 1 to ``count`` - 1, millimetres.

    The border of a step parts all that is covered by then from what stays open; the plate's
    edge counts nowhere.
    """
    added = np.zeros(count + 1)
    for arc in arcs:
        if arc.left != OUTSIDE:
            length = length_mm(arc)
            added[arc.left + 1] += length
            added[arc.right + 1] -= length
    return tuple(np.cumsum(added)[1:count].tolist())
