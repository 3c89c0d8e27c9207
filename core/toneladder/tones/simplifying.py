"""Closed outlines without the corners that nobody would miss, all outlines at once."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from toneladder.optics import FloatArray

_Index = NDArray[np.intp]

_FEWEST_CORNERS = 3


def simplified(rings: Sequence[FloatArray], tolerance: float) -> tuple[FloatArray, ...]:
    """``rings`` with as few corners as keep all others within ``tolerance`` of the outline.

    Parameters
    ----------
    rings : sequence of (n, 2) arrays
        Closed outlines; the last point is joined to the first.
    tolerance : float, >= 0
        In the unit of the points.

    Returns
    -------
    (n, 2) arrays, some of the points of each; outlines of which less than a triangle is left
    are left out.

    References
    ----------
    [DouglasPeucker1973] splitting at the furthest corner; here all stretches are split together.
    """
    rings = [ring for ring in rings if len(ring) >= _FEWEST_CORNERS]
    if not rings:
        return ()
    closed = [np.concatenate([ring, ring[:1]]) for ring in rings]
    ends = np.cumsum([len(ring) for ring in closed])
    points = np.concatenate(closed)
    kept = _kept(points, ends - [len(ring) for ring in closed], ends - 1, tolerance)
    parts = np.split(kept, ends[:-1])
    return tuple(
        ring[part[:-1]]
        for ring, part in zip(rings, parts, strict=True)
        if np.count_nonzero(part) >= _FEWEST_CORNERS
    )


def _kept(points: FloatArray, first: _Index, last: _Index, tolerance: float) -> NDArray[np.bool_]:
    """Which points stay, of stretches from ``first`` to ``last``; the last ones do not."""
    kept = np.zeros(len(points), dtype=np.bool_)
    kept[first] = True
    while True:
        long = last - first > 1
        first, last = first[long], last[long]
        if not first.size:
            return kept
        between, stretch = _between(first, last)
        away = _away(points[between], points[first[stretch]], points[last[stretch]])
        furthest = np.maximum.reduceat(away, np.searchsorted(stretch, np.arange(len(first))))
        split = furthest > tolerance
        at = (away == furthest[stretch]) & split[stretch]
        _, nearest = np.unique(stretch[at], return_index=True)
        corner = between[at][nearest]
        kept[corner] = True
        first, last = (
            np.concatenate([first[split], corner]),
            np.concatenate([corner, last[split]]),
        )


def _between(first: _Index, last: _Index) -> tuple[_Index, _Index]:
    """The points between the ends of every stretch, and which stretch each belongs to."""
    number = last - first - 1
    stretch = np.repeat(np.arange(len(first)), number)
    before = np.cumsum(number) - number
    return np.arange(len(stretch)) - before[stretch] + first[stretch] + 1, stretch


def _away(points: FloatArray, start: FloatArray, end: FloatArray) -> FloatArray:
    """Distance of every point from its straight stretch."""
    along, reach = end - start, points - start
    length = (along * along).sum(axis=1)
    share = (reach * along).sum(axis=1) / np.where(length > 0.0, length, 1.0)
    beside: FloatArray = reach - np.clip(share, 0.0, 1.0)[:, None] * along
    return np.hypot(beside[:, 0], beside[:, 1])
