"""Tones in black alone on the screen: lines, crossed lines, white dots, as on the sheets."""

from collections.abc import Callable
from dataclasses import dataclass
from math import sqrt

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray
from PySide6.QtCore import QPoint
from PySide6.QtGui import QImage

from toneladder.sheets.hatch import CROSSED_TO, LINES_TO
from toneladder_desktop.paper.sampling import indexed, values_of

WHITE, BLACK = 0, 1
"""Values of a hatched picture."""

Rule = Callable[[int, int, int], tuple[int, int]]
Masks = NDArray[np.uint16]


@dataclass(frozen=True, slots=True)
class Hatch:
    """Which of ``count`` tones each value of the grid is: one number for each value."""

    numbers: tuple[int, ...]
    count: int


def hatched(values: QImage, at: QPoint, hatch: Hatch, line_px: int) -> QImage:
    """An indexed picture of tones as one of ``WHITE`` and ``BLACK``.

    Parameters
    ----------
    values : QImage
        Indexed: what ``hatch`` knows the tones of.
    at : QPoint
        Of its upper left pixel on the plate: the hatch lies still on the plate.
    hatch : Hatch
    line_px : int, >= 1
        How much of a row of pixels a line covers.
    """
    bits = np.zeros(256, dtype=np.uint16)
    bits[: len(hatch.numbers)] = [1 << tone for tone in hatch.numbers]
    tone = bits[values_of(values)]
    height, width = tone.shape
    # rising and falling lines begin on pixels of different parity, so that they do not shun or
    # seek each other
    start = at.x() + at.y(), at.y() - at.x() - width + 2
    rising, falling = (
        sliding_window_view(_lines(rule, hatch.count, line_px, first, width + height - 1), width)
        for rule, first in zip(_RULES, start, strict=True)
    )
    black = (rising | falling[:, ::-1]) & tone
    return indexed(np.where(black, np.uint8(BLACK), np.uint8(WHITE)))


def _single(tone: int, count: int, line_px: int) -> tuple[int, int]:
    """Black pixels of a row, and in how many: of the lines that every tone but white has."""
    share = tone / (count - 1)
    if share <= 0.0:
        return 0, 1
    if share <= LINES_TO:
        return line_px, round(line_px / share)
    return _crossing(tone, count, line_px)


def _crossing(tone: int, count: int, line_px: int) -> tuple[int, int]:
    """The same of the lines that cross them; dark tones have openings of one size instead."""
    share = tone / (count - 1)
    if share <= LINES_TO:
        return 0, 1
    if share >= 1.0:
        return 1, 1
    if share <= CROSSED_TO:
        return line_px, round(line_px / (1.0 - sqrt(1.0 - share)))
    step = round(line_px / sqrt(1.0 - share))
    return step - line_px, step


_RULES: tuple[Rule, Rule] = _single, _crossing


def _lines(rule: Rule, count: int, line_px: int, first: int, length: int) -> Masks:
    """Along a row of so many pixels from ``first`` on: a bit for each tone that is black there."""
    along = np.arange(first, first + length)
    masks = np.zeros(length, dtype=np.uint16)
    for tone in range(count):
        black, step = rule(tone, count, line_px)
        masks |= (along % step < black).astype(np.uint16) << np.uint16(tone)
    return masks
