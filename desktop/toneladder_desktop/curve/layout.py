"""Where everything of the curve's drawing lies: pure geometry, in pixels of the widget."""

import math
from dataclasses import dataclass
from itertools import pairwise

from toneladder.boxes import Box
from toneladder.quantities import tone_mark, write_bite
from toneladder.wording import say
from toneladder_desktop.curve.content import Content
from toneladder_desktop.drawing.pushing import pushed_apart

STRETCH_S = 15.0
"""Bites much shorter than this lie evenly on the scale, longer ones by their ratios."""

CHIP = 20.0
_LEFT, _RIGHT, _TOP, _BOTTOM = 44.0, 16.0, 48.0, 66.0
_MARK_GAP = 46.0
_MARKED_S = (0.0, 15.0, 30.0, 60.0, 120.0, 240.0, 480.0, 900.0, 1800.0, 3600.0, 7200.0, 14400.0)
_AIR = 6.0  # L* beyond what is drawn


@dataclass(frozen=True, slots=True)
class Scales:
    """Total bite from left to right, stretched where bites are short; darkness downwards."""

    field: Box
    end_s: float
    lightest: float
    darkest: float

    def x(self, bite_s: float) -> float:
        """Place of a total bite, seconds."""
        share = math.log1p(min(bite_s, self.end_s) / STRETCH_S) / math.log1p(self.end_s / STRETCH_S)
        return self.field.x + self.field.width * share

    def y(self, lightness: float) -> float:
        """Height of a printed lightness, CIE L*."""
        share = (self.lightest - lightness) / (self.lightest - self.darkest)
        return self.field.y + self.field.height * share

    def bite_s(self, x: float) -> float:
        """Total bite at a place, 0..``end_s``."""
        share = min(max((x - self.field.x) / self.field.width, 0.0), 1.0)
        return STRETCH_S * math.expm1(share * math.log1p(self.end_s / STRETCH_S))


@dataclass(frozen=True, slots=True)
class Chip:
    """A rung's chip under the scale of bites, and the true place its line leads to."""

    tone: int
    box: Box
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Layout:
    """The whole drawing, placed."""

    scales: Scales
    chips: tuple[Chip, ...]
    bite_marks: tuple[tuple[float, str], ...]
    darkness_marks: tuple[tuple[float, str], ...]

    def chip_at(self, x: float, y: float) -> int | None:
        """The tone whose chip, with a little around it, holds a point."""
        for chip in self.chips:
            if abs(chip.box.x + CHIP / 2.0 - x) <= CHIP * 0.65 and chip.box.y - 4 <= y:
                return chip.tone
        return None


def lay_out(content: Content, width: float, height: float) -> Layout:
    """Place the drawing in a widget of ``width`` by ``height`` pixels."""
    field = Box(_LEFT, _TOP, max(width - _LEFT - _RIGHT, 80.0), max(height - _TOP - _BOTTOM, 80.0))
    drawn = (*content.low, *content.high, *(one.lightness for one in content.readings))
    scales = Scales(
        field,
        content.end_s,
        min(100.0, max(drawn) + _AIR),
        max(0.0, min(drawn) - _AIR),
    )
    return Layout(scales, _chips(content, scales), _bite_marks(content, scales), _darkness(scales))


def _chips(content: Content, scales: Scales) -> tuple[Chip, ...]:
    true = [scales.x(rung.bite_s) for rung in content.rungs]
    field = scales.field
    half = CHIP / 2.0
    pushed = pushed_apart(true, [CHIP + 4.0] * (len(true) - 1), field.x + half, field.right)
    top = field.bottom + 38.0
    return tuple(
        Chip(rung.tone, Box(round(at - half), top, CHIP, CHIP), x, scales.y(rung.lightness))
        for rung, at, x in zip(content.rungs, pushed, true, strict=True)
    )


def _bite_marks(content: Content, scales: Scales) -> tuple[tuple[float, str], ...]:
    longest = content.longest_tested_s
    kept = [(scales.x(longest), write_bite(longest))]
    for bite in _MARKED_S:
        x = scales.x(bite)
        if bite <= content.end_s and all(abs(x - other) >= _MARK_GAP for other, _ in kept):
            kept.append((x, write_bite(bite) if bite else say("no bite")))
    return tuple(sorted(kept))


def _darkness(scales: Scales) -> tuple[tuple[float, str], ...]:
    marks = [
        (scales.y(100.0 - 10.0 * dark), tone_mark(100.0 - 10.0 * dark))
        for dark in range(11)
        if scales.darkest <= 100.0 - 10.0 * dark <= scales.lightest
    ]
    close = any(abs(a[0] - b[0]) < 16.0 for a, b in pairwise(marks))
    return tuple(marks[:: 2 if close else 1])
