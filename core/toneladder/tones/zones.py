"""Separate areas of one tone each, and which of them meet."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from toneladder.tones.parting import ToneArray

Cell = TypeVar("Cell", bound=np.generic)


@dataclass(frozen=True, slots=True, eq=False)
class Zones:
    """Separate areas of one tone each, joined also at corners, and which of them meet.

    ``tone`` and ``cells`` of each zone, and whether it is ``outer``, at the plate's edge; pairs
    (2, n) of zones that are ``beside`` each other along cells' sides, and of all that are
    ``near``, those that only touch at a corner with them.
    """

    tone: NDArray[np.uint8]
    cells: NDArray[np.intp]
    outer: NDArray[np.bool_]
    beside: NDArray[np.intp]
    near: NDArray[np.intp]


def zones(tones: ToneArray) -> Zones:
    """All areas of (height, width) cells that are of one tone and hang together."""
    from skimage.measure import label

    zone, number = label(tones, background=-1, connectivity=2, return_num=True)
    zone = zone.astype(np.int32, copy=False)
    zone -= 1
    tone = np.zeros(number, dtype=np.uint8)
    tone[zone.ravel()] = tones.ravel()
    outer = np.zeros(number, dtype=np.bool_)
    for edge in (zone[0], zone[-1], zone[:, 0], zone[:, -1]):
        outer[edge] = True
    beside = _meeting(tones, zone, number, ((0, 1), (1, 0)))
    corners = _meeting(tones, zone, number, ((1, 1), (1, -1)))
    near = np.concatenate([beside, corners], axis=1)
    return Zones(tone, np.bincount(zone.ravel(), minlength=number), outer, beside, near)


def _meeting(
    tones: ToneArray, zone: NDArray[np.int32], number: int, ways: Sequence[tuple[int, int]]
) -> NDArray[np.intp]:
    """Pairs (2, n) of zones of different tones, a step in one of ``ways`` apart, each once."""
    found = []
    for dy, dx in ways:
        here, there = shifted(tones, dy, dx)
        differ = here != there
        one, other = (side[differ].astype(np.intp) for side in shifted(zone, dy, dx))
        found.append(np.unique(one * number + other))
    return np.stack(np.divmod(np.unique(np.concatenate(found)), number))


def shifted(cells: NDArray[Cell], dy: int, dx: int) -> tuple[NDArray[Cell], NDArray[Cell]]:
    """Every cell beside the one ``dy`` rows down and ``dx`` columns on."""
    height, width = cells.shape
    rows = max(height - dy, 0)
    left, right = max(-dx, 0), max(width - max(dx, 0), 0)
    return cells[:rows, left:right], cells[dy : dy + rows, left + dx : right + dx]
