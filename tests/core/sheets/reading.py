"""How a person reads a sheet at true size: where the plate lies, what its dots are."""

import numpy as np
from numpy.typing import NDArray

from toneladder.sheets.marks import Path, Picture, Sheet
from toneladder.sheets.setting import HAIR_MM

Bools = NDArray[np.bool_]


def dots(picture: Picture) -> Bools:
    packed = np.frombuffer(picture.packed, dtype=np.uint8).reshape(picture.rows, -1)
    return np.unpackbits(packed, axis=1)[:, : picture.columns].astype(bool)


def drawn(sheet: Sheet) -> Picture:
    """The plate, the largest picture of a page; the others are its key."""
    pictures = [mark for mark in sheet.marks if isinstance(mark, Picture)]
    return max(pictures, key=lambda picture: picture.box.width)


def edges(sheet: Sheet) -> tuple[list[float], list[float]]:
    """Where the page is cut or the plate ends: x of all upright ticks, y of all level ones."""
    ticks = [
        (start, end)
        for mark in sheet.marks
        if isinstance(mark, Path) and mark.stroke_mm == HAIR_MM and mark.fill is None
        for line in mark.lines
        if len(line) == 2
        for start, end in [line]
        if abs(start[0] - end[0]) + abs(start[1] - end[1]) < 4.0
    ]
    upright = {round(start[0], 6) for start, end in ticks if start[0] == end[0]}
    level = {round(start[1], 6) for start, end in ticks if start[1] == end[1]}
    return sorted(upright), sorted(level)
