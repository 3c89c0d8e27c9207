"""The small picture of a step: the plate as it lies in the hand, and what to paint on it now."""

from math import sqrt

import numpy as np
from numpy.typing import NDArray

from toneladder.boxes import Box
from toneladder.sheets.hatch import stripes
from toneladder.sheets.marks import BoolArray, Ink, Mark, Picture, frame, picture

NOW_MM = (0.2, 0.5)
"""Width and pitch of the close lines, /, that say: paint this now."""

COVERED_MM = (0.14, 1.5)
"""Width and pitch of the wide lines, \\, that say: covered already."""

_PER_MM = 600 / 25.4
_EDGE_MM = 0.4
_NOW_EDGE_MM = 0.17
_COVERED_EDGE_MM = 0.09
_LEAST_SIDE_MM = 1.5  # a plate of extreme proportions still shows as a plate


def plate_in(room: Box, width_mm: float, height_mm: float) -> Box:
    """The largest box of the plate's proportions in ``room``, in its middle."""
    scale = min(room.width / width_mm, room.height / height_mm)
    width = min(max(width_mm * scale, _LEAST_SIDE_MM), room.width)
    height = min(max(height_mm * scale, _LEAST_SIDE_MM), room.height)
    return Box(
        room.x + (room.width - width) / 2, room.y + (room.height - height) / 2, width, height
    )


def step_picture(tones: NDArray[np.uint8], step: int, box: Box) -> tuple[Mark, ...]:
    """What step ``step`` stops out, mirrored left to right as on the plate.

    Parameters
    ----------
    tones : (h, w) array of uint8
        The tone of every cell, as the print is seen; 0 is white.
    step : int, >= 1
        Step n paints the cells of tone n - 1 over those of all lighter tones.
    box : Box
        Where the plate lies on the sheet, millimetres.

    Returns
    -------
    tuple of Mark
        A picture at 600 dots to the inch (close lines: paint now; wide lines the other way:
        covered already; bare paper: open, bites) and the plate's outline over it.
    """
    return (_hatched(tones, step, box), frame(box, _EDGE_MM))


def now_swatch(box: Box) -> tuple[Mark, ...]:
    """A field hatched as *paint now*, for a key."""
    return (stripes(box, *NOW_MM, rising=True), frame(box, _NOW_EDGE_MM))


def covered_swatch(box: Box) -> tuple[Mark, ...]:
    """A field hatched as *covered already*, for a key."""
    return (stripes(box, *COVERED_MM, rising=False), frame(box, _COVERED_EDGE_MM))


def open_swatch(box: Box) -> tuple[Mark, ...]:
    """A bare field: the metal lies open and bites."""
    return (frame(box, _COVERED_EDGE_MM, Ink.WHITE),)


def _hatched(tones: NDArray[np.uint8], step: int, box: Box) -> Picture:
    rows = max(round(box.height * _PER_MM), 1)
    columns = max(round(box.width * _PER_MM), 1)
    seen = tones[np.ix_(_nearest(tones.shape[0], rows), _nearest(tones.shape[1], columns)[::-1])]
    now, covered = seen == step - 1, seen < step
    black = now & (_pattern(rows, columns, NOW_MM, rising=True) | _rim(now, _NOW_EDGE_MM))
    black |= (
        covered
        & ~now
        & (_pattern(rows, columns, COVERED_MM, rising=False) | _rim(covered, _COVERED_EDGE_MM))
    )
    return picture(box, black)


def _nearest(cells: int, dots: int) -> NDArray[np.intp]:
    """The cell under the middle of each dot."""
    return ((np.arange(dots) + 0.5) * cells / dots).astype(np.intp)


def _pattern(rows: int, columns: int, lines: tuple[float, float], *, rising: bool) -> BoolArray:
    """Lines at 45 degrees: every row is the one before, moved by a dot."""
    width, pitch = (size * _PER_MM * sqrt(2.0) for size in lines)
    across = np.arange(rows + columns - 1) % pitch < width
    moved = np.lib.stride_tricks.sliding_window_view(across, columns)
    return moved if rising else moved[::-1]


def _rim(area: BoolArray, width_mm: float) -> BoolArray:
    """The inner edge of ``area``, without the edge of the plate."""
    inner = area
    for _ in range(max(round(width_mm * _PER_MM), 1)):
        around = np.pad(inner, 1, constant_values=True)
        inner = inner & around[:-2, 1:-1] & around[2:, 1:-1] & around[1:-1, :-2] & around[1:-1, 2:]
    return area & ~inner
