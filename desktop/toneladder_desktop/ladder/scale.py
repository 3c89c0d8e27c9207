"""The ladder's two rails as scales: printed darkness on the left, total bite on the right."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from toneladder.quantities import tone_mark, write_bite
from toneladder.wording import say

STRETCH_S = 15.0
"""Bites much shorter than this lie evenly on the rail, longer ones by their ratios."""

TICK_GAP = 15.0
"""Pixels between two marks of a scale, so that their figures stand clear of each other."""

_MARKED_S = (0.0, 30.0, 60.0, 120.0, 240.0, 480.0, 900.0, 1800.0, 3600.0, 7200.0, 14400.0)


@dataclass(frozen=True, slots=True)
class Mark:
    """A mark of a scale: its height in pixels and what stands beside it."""

    y: float
    text: str


@dataclass(frozen=True, slots=True)
class DarknessScale:
    """The left rail: darkness 0 (white) at ``top``, 10 (black) at ``bottom``, pixels."""

    top: float
    bottom: float

    def y(self, lightness: float) -> float:
        """Height of a printed lightness, CIE L* 0..100."""
        return self.top + (self.bottom - self.top) * (100.0 - lightness) / 100.0

    def lightness(self, y: float) -> float:
        """Printed lightness L* at a height; not limited to the rail."""
        return 100.0 - 100.0 * (y - self.top) / (self.bottom - self.top)

    def marks(self, busy: Sequence[float] = ()) -> tuple[Mark, ...]:
        """Every second whole darkness, in the chosen scale, clear of the heights ``busy``."""
        return tuple(
            mark
            for mark in (Mark(self.y(tone), tone_mark(tone)) for tone in range(100, -1, -20))
            if all(abs(mark.y - y) >= TICK_GAP / 2.0 + 1.0 for y in busy)
        )


@dataclass(frozen=True, slots=True)
class BiteScale:
    """The right rail: no bite at ``top``, ``end_s`` (seconds) at ``bottom``, stretched above."""

    top: float
    bottom: float
    end_s: float

    def y(self, total_s: float) -> float:
        """Height of a total bite, which may be infinite: the end of the rail."""
        share = math.log1p(min(total_s, self.end_s) / STRETCH_S) / math.log1p(
            self.end_s / STRETCH_S
        )
        return self.top + (self.bottom - self.top) * share

    def total_s(self, y: float) -> float:
        """Total bite at a height, 0..``end_s``."""
        share = min(max((y - self.top) / (self.bottom - self.top), 0.0), 1.0)
        return STRETCH_S * math.expm1(share * math.log1p(self.end_s / STRETCH_S))

    def marks(self, tested_s: float) -> tuple[Mark, ...]:
        """Marks that stand clear of one another; the longest tested bite always has its own."""
        kept = [(tested_s, self.y(tested_s))] if tested_s <= self.end_s else []
        for total in _MARKED_S:
            y = self.y(total)
            if total <= self.end_s and all(abs(y - other) >= TICK_GAP for _, other in kept):
                kept.append((total, y))
        first = min((total for total, _ in kept if 60.0 <= total < 3600.0), default=0.0)
        return tuple(
            Mark(y, write_bite(total) if total == first > 0.0 else _short(total))
            for total, y in sorted(kept)
        )


def _short(total_s: float) -> str:
    """A mark's figure: minutes alone above one minute, since the first of them says the unit."""
    minutes = total_s / 60.0
    if total_s == 0.0:
        return "0"
    if 1.0 < minutes < 60.0 and minutes.is_integer():
        return f"{minutes:.0f}"
    if minutes >= 60.0 and (minutes / 60.0).is_integer():
        return say("{n} h", n=round(minutes / 60.0))
    return write_bite(total_s)
