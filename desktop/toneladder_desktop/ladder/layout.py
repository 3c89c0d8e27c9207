"""Where everything on the ladder stands: pure geometry, in pixels of the widget.

Rungs stand evenly; only their ends go to the true places on the rails. Pegs stand in gutters,
pushed apart so that each can be hit, with an elbow to the true place.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import floor, isinf

from toneladder.boxes import Box
from toneladder_desktop.drawing.pushing import pushed_apart
from toneladder_desktop.ladder.content import Content, Peg, Remark, Side
from toneladder_desktop.ladder.scale import BiteScale, DarknessScale, Mark

HEAD, FOOT = 72.0, 90.0
"""Height of the words above and below the rails."""

PEG_WIDTH, PEG_HEIGHT = 18.0, 12.0
HIT_WIDTH, HIT_HEIGHT = 44.0, 26.0
LEAST_SWATCH, MOST_SWATCH = 24.0, 46.0
LEAST_ROW = 38.0
"""In rows lower than this the range of the bite moves to the read-out."""

WORDY_ROW = 52.0
"""In rows lower than this a pair that prints alike has only its sign; the foot has the words."""

_END = 9.0  # from the end of the strip to the end of the rails
_WIDTH = 312.0
_LANES = 2


@dataclass(frozen=True, slots=True)
class Columns:
    """Where the ladder's columns begin, from left to right; ``lanes`` are those of brackets."""

    peg_left: float
    rail_left: float
    histogram_end: float
    ticks: float
    fan: float
    strip: float
    text: float
    text_end: float
    lanes: tuple[float, ...]
    rail_right: float
    peg_right: float
    end: float


@dataclass(frozen=True, slots=True)
class Bracket:
    """The range a total bite may need; ``open_end`` if nobody knows how long."""

    x: float
    top: float
    bottom: float
    open_end: bool


@dataclass(frozen=True, slots=True)
class RungPlace:
    """Where one rung stands and what it joins.

    ``fan_top`` and ``fan_bottom`` are the ends of its interval on the left rail, ``printed_y``
    the darkness it prints there; ``bite_y`` and ``bracket`` are on the right rail, None for
    white.
    """

    row: Box
    swatch: Box
    fan_top: float
    fan_bottom: float
    printed_y: float
    displaced: bool
    bite_y: float | None
    bracket: Bracket | None


@dataclass(frozen=True, slots=True)
class PegPlace:
    """Where a peg stands, and the true height that its elbow leads to."""

    peg: Peg
    body: Box
    hit: Box
    true_y: float


@dataclass(frozen=True, slots=True)
class Sign:
    """The sign that tones ``lighter`` and the next print alike; ``wordy`` with its remedy.

    ``box`` is the room for it; words that need less of it leave the rest of it free.
    """

    lighter: int
    box: Box
    wordy: bool


@dataclass(frozen=True, slots=True)
class Layout:
    """The whole ladder, placed."""

    columns: Columns
    strip: Box
    darkness: DarknessScale
    bites: BiteScale
    rungs: tuple[RungPlace, ...]
    pegs: tuple[PegPlace, ...]
    signs: tuple[Sign, ...]
    darkness_marks: tuple[Mark, ...]
    bite_marks: tuple[Mark, ...]
    tested_y: float
    ranges_shown: bool
    foot: Box

    def place(self, peg: Peg) -> PegPlace:
        """Where ``peg`` stands.

        Raises
        ------
        KeyError
            The ladder has no such peg.
        """
        for place in self.pegs:
            if place.peg == peg:
                return place
        raise KeyError(peg)

    def peg_at(self, x: float, y: float) -> Peg | None:
        """The peg whose hit area holds a point."""
        return next((place.peg for place in self.pegs if place.hit.holds(x, y)), None)

    def found_at(self, x: float, y: float) -> Peg | int | None:
        """The peg at a point, or the tone in whose row it lies between the rails."""
        peg = self.peg_at(x, y)
        if peg is not None:
            return peg
        return next((k for k, place in enumerate(self.rungs) if place.row.holds(x, y)), None)


def lay_out(content: Content, width: float, height: float, end_s: float | None = None) -> Layout:
    """Place the ladder.

    Parameters
    ----------
    content : Content
        What it shows.
    width, height : float, pixels
        Of the widget; 312 by 500 and more.
    end_s : float, optional
        End of the right rail, to keep it still while a peg moves; else the content's own.
    """
    columns = _columns(width)
    strip = Box(columns.strip, HEAD, 64.0, max(height - HEAD - FOOT, 120.0))
    darkness = DarknessScale(strip.y + _END, strip.bottom - _END)
    bites = BiteScale(strip.y + _END, strip.bottom - _END, end_s or content.end_s)
    rungs = tuple(_rungs(content, columns, strip, darkness, bites))
    pegs = tuple(_pegs(content, columns, strip, darkness, bites))
    lines = [place.true_y for place in pegs if place.peg.side is Side.PARTING]
    return Layout(
        columns=columns,
        strip=strip,
        darkness=darkness,
        bites=bites,
        rungs=rungs,
        pegs=pegs,
        signs=tuple(_signs(content, columns, strip)),
        darkness_marks=darkness.marks(lines),
        bite_marks=bites.marks(content.tested_s),
        tested_y=bites.y(content.tested_s),
        ranges_shown=strip.height / content.count >= LEAST_ROW,
        foot=Box(0.0, strip.bottom + 8.0, width, max(height - strip.bottom - 8.0, 0.0)),
    )


def _columns(width: float) -> Columns:
    """A wider ladder gives its histogram a third of what is to spare, and its words the rest."""
    spare = max(width - _WIDTH, 0.0)
    third = spare // 3.0
    return Columns(
        peg_left=5.0,
        rail_left=32.0,
        histogram_end=62.0 + third,
        ticks=64.0 + third,
        fan=73.0 + third,
        strip=91.0 + third,
        text=159.0 + third,
        text_end=231.0 + spare,
        lanes=tuple(242.0 + spare + 4.0 * lane for lane in range(_LANES)),
        rail_right=251.0 + spare,
        peg_right=260.0 + spare,
        end=width - 2.0,
    )


def _rungs(
    content: Content, columns: Columns, strip: Box, darkness: DarknessScale, bites: BiteScale
) -> Iterator[RungPlace]:
    high = strip.height / content.count
    size = min(max(high - 9.0, LEAST_SWATCH), MOST_SWATCH)
    ends = [content.paper, *(p.lightness for p in content.partings), content.deepest]
    for k, rung in enumerate(content.rungs):
        row = Box(columns.fan, strip.y + k * high, columns.lanes[0] - columns.fan, high)
        tone = rung.tone
        yield RungPlace(
            row=row,
            swatch=Box(columns.strip + 6.0, row.middle - size / 2.0, strip.width - 12.0, size),
            fan_top=darkness.y(ends[k]),
            fan_bottom=darkness.y(ends[k + 1]),
            printed_y=darkness.y(tone.lightness),
            displaced=bool({Remark.LIGHTER, Remark.DARKER} & set(rung.remarks)),
            bite_y=bites.y(tone.total_bite_s) if k else None,
            bracket=Bracket(
                x=columns.lanes[k % _LANES],
                top=bites.y(tone.shortest_s),
                bottom=bites.y(tone.longest_s),
                open_end=isinf(tone.longest_s) or tone.longest_s > bites.end_s,
            )
            if k
            else None,
        )


def _pegs(
    content: Content, columns: Columns, strip: Box, darkness: DarknessScale, bites: BiteScale
) -> Iterator[PegPlace]:
    steps = range(1, content.count)
    for side in Side:
        scale = darkness.y if side is Side.PARTING else bites.y
        true = [scale(content.value(Peg(side, step))) for step in steps]
        gaps = [HIT_HEIGHT] * (len(true) - 1)
        half = HIT_HEIGHT / 2.0
        pushed = pushed_apart(true, gaps, strip.y + half, strip.bottom - half)
        stand = [floor(y + 0.5 + 1e-6) for y in pushed]
        left = columns.peg_left if side is Side.PARTING else columns.peg_right
        middle = left + PEG_WIDTH / 2.0
        hit_left = max(middle - HIT_WIDTH / 2.0, 0.0)
        tall = min(HIT_HEIGHT, strip.height / max(len(true), 1))
        for step, y, true_y in zip(steps, stand, true, strict=True):
            yield PegPlace(
                peg=Peg(side, step),
                body=Box(left, y - PEG_HEIGHT / 2.0, PEG_WIDTH, PEG_HEIGHT),
                hit=Box(hit_left, y - tall / 2.0, HIT_WIDTH, tall),
                true_y=true_y,
            )


def _signs(content: Content, columns: Columns, strip: Box) -> Iterator[Sign]:
    """A sign on the border between two rungs that print alike, with words where they have room."""
    high = strip.height / content.count
    for lighter in content.alike:
        border = strip.y + (lighter + 1) * high
        if high >= WORDY_ROW:
            left = columns.fan + 6.0
            box = Box(left, border - 10.0, columns.text_end - left, 20.0)
        else:
            box = Box(columns.fan, border - 8.0, 17.0, 16.0)
        yield Sign(lighter, box, wordy=high >= WORDY_ROW)
