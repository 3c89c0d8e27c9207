"""Where a few words stand beside a soft passage: in free room, along it, on either side."""

from collections.abc import Callable, Sequence

import numpy as np

from toneladder.borders.remedies import Passage
from toneladder.borders.room import Room
from toneladder.optics import FloatArray

Point = tuple[float, float]

_EVERY = 4  # points of a passage, two millimetres
_AIR_MM = 0.6
_DOT_MM = 0.2


def place_labels(
    passages: Sequence[Passage],
    room: Room,
    forms_mm: Callable[[Passage], Sequence[tuple[float, float]]],
) -> dict[int, tuple[int, Point]]:
    """A place for a label beside every passage that has room for one.

    Parameters
    ----------
    passages : sequence of Passage
        Found on the same plate.
    room : Room
        What the numbers left free; it is not changed.
    forms_mm : callable
        Width and height of each form that the label of a passage may have, the best first.

    Returns
    -------
    dict of int to (int, (float, float))
        By the number of the passage, which form fits, and its middle in mm as the print is
        seen: clear of numbers, leaders and other labels, and of borders where that can be had.
    """
    left = Room(room.per_mm, room.width_mm, room.taken.copy())
    for passage in passages:
        left.take(passage.points, _DOT_MM)
    places: dict[int, tuple[int, Point]] = {}
    for passage in passages:
        for form, size in enumerate(forms_mm(passage)):
            place = left.box_near(_beside(passage.points, size), size)
            if place is not None:
                places[passage.number] = (form, place)
                left.take_box(place, size)
                break
    return places


def _beside(points: FloatArray, size: tuple[float, float]) -> FloatArray:
    """Middles of labels that touch a passage from either side, those by its middle first."""
    way = np.gradient(points, axis=0)
    side = np.stack([-way[:, 1], way[:, 0]], 1) / np.maximum(np.hypot(*way.T), 1e-9)[:, None]
    away = np.abs(side) @ np.array(size) / 2.0 + _AIR_MM
    at = np.arange(len(points))[_EVERY // 2 :: _EVERY]
    at = at[np.argsort(np.abs(at - len(points) / 2.0), kind="stable")]
    offset = (side * away[:, None])[at]
    return np.stack([points[at] - offset, points[at] + offset], axis=1).reshape(-1, 2)
