"""The tracing: borders and tone numbers at true size, to carry the picture to the plate."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial
from math import hypot

import numpy as np

from toneladder.borders.arcs import OUTSIDE, Arc
from toneladder.borders.numbers import Number, Numbered, needed_mm
from toneladder.borders.remedies import Passage
from toneladder.borders.stretches import soft_stretches
from toneladder.boxes import Box, Point
from toneladder.lettering import FIGURE_EM, Face
from toneladder.optics import FloatArray
from toneladder.plate.values import Plate
from toneladder.sheets.marks import A4, Anchor, Ink, Mark, Paper, Path, Sheet, Text, line
from toneladder.sheets.setting import HAIR_MM, SMALL_MM, Block, label
from toneladder.sheets.true_size import Drawing, true_size_sheets
from toneladder.sheets.true_size_frame import FIELD, Heading, sign
from toneladder.wording import say, say_number

FIGURE_MM = 2.4
"""Height of the tones' numbers."""

FLAP_MM = 12.0
"""Height of the hinge above the plate's head."""

_LEADER_MM = 0.15
_POINT_MM = 0.3
_SOFT_MM, _SOFT_DASH_MM = 0.45, (0.45, 0.9)
_FLAP_DASH_MM = (2.5, 1.5)


@dataclass(frozen=True, slots=True)
class _Traced:
    """All there is to draw, in millimetres of the drawing."""

    hard: tuple[FloatArray, ...]
    soft: tuple[FloatArray, ...]
    numbers: tuple[Number, ...]
    metal: Box


def tracing_sheets(
    plate: Plate,
    arcs: Sequence[Arc],
    numbered: Numbered,
    *,
    made_on: date,
    paper: Paper = A4,
    passages: Sequence[Passage] = (),
) -> tuple[Sheet, ...]:
    """The tracing in two kinds: mirrored to lie face up, and not mirrored to lie face down.

    Parameters
    ----------
    plate : Plate
        Title and size.
    arcs : sequence of Arc
        The borders to trace, as the print is seen; those along etched lines may be left out.
    numbered : Numbered
        Where the tones' numbers stand, in figures ``FIGURE_MM`` high, and how many places have
        none.
    made_on : date
        The day that the sheet carries.
    paper : Paper
        The office paper, upright.
    passages : sequence of Passage
        Found on the same arcs; their stretches are dotted.

    Returns
    -------
    tuple of Sheet
        First all pages of the one kind, then those of the other.
    """
    hard, soft = soft_stretches(arcs, passages)
    kinds = (
        (
            True,
            say("Tracing, face up"),
            say("Mirrored, lay face up over transfer paper; left here is left on the plate."),
        ),
        (
            False,
            say("Tracing, face down"),
            say("Not mirrored, lay face down; left here is right on the plate."),
        ),
    )
    drawings = []
    for mirrored, name, lies in kinds:
        traced = _traced(plate, hard, soft, numbered.numbers, mirrored=mirrored)
        drawings.append(
            Drawing(
                heading=Heading(name, lies, _key(numbered, dotted=bool(soft))),
                width_mm=plate.size.width_mm,
                height_mm=plate.size.height_mm + FLAP_MM,
                plate=traced.metal,
                marks=partial(_marks, traced),
            )
        )
    return true_size_sheets(drawings, title=plate.title, made_on=made_on, paper=paper)


def _traced(
    plate: Plate,
    hard: Iterable[Arc],
    soft: Iterable[Arc],
    numbers: Sequence[Number],
    *,
    mirrored: bool,
) -> _Traced:
    """Everything as it lies on the drawing, below the flap."""
    width = plate.size.width_mm
    flip, shift = ((-1.0, 1.0), (width, FLAP_MM)) if mirrored else ((1.0, 1.0), (0.0, FLAP_MM))

    def laid(arcs: Iterable[Arc]) -> tuple[FloatArray, ...]:
        return tuple(
            (np.vstack([arc.points, arc.points[:1]]) if arc.closed else arc.points) * flip + shift
            for arc in arcs
            if arc.left != OUTSIDE
        )

    def place(x: float, y: float) -> Point:
        return (x * flip[0] + shift[0], y + shift[1])

    figures = tuple(
        Number(
            number.tone,
            *place(number.x_mm, number.y_mm),
            number.radius_mm,
            tuple(place(*end) for end in number.leaders),
        )
        for number in numbers
    )
    metal = Box(0.0, FLAP_MM, width, plate.size.height_mm)
    return _Traced(laid(hard), laid(soft), figures, metal)


def _marks(traced: _Traced, shown: Box) -> list[Mark]:
    return [
        *_paths(traced.hard, shown, HAIR_MM, None),
        *_paths(traced.soft, shown, _SOFT_MM, _SOFT_DASH_MM),
        *(mark for number in traced.numbers for mark in _number(number, shown)),
        *_flap(traced.metal, shown),
    ]


def _paths(
    lines: Iterable[FloatArray], shown: Box, stroke_mm: float, dash: tuple[float, float] | None
) -> Iterator[Mark]:
    """The lines that come into the piece, as one mark."""
    low, high = np.array([shown.x, shown.y]), np.array([shown.right, shown.bottom])
    kept = tuple(
        tuple(map(tuple, points.tolist()))
        for points in lines
        if (points.max(axis=0) >= low).all() and (points.min(axis=0) <= high).all()
    )
    if kept:
        yield Path(kept, stroke_mm=stroke_mm, dash_mm=dash, within=shown)


def _number(number: Number, shown: Box) -> Iterator[Mark]:
    """A tone's number, if the piece holds all of it, and the leaders that come into the piece."""
    x, y = number.x_mm, number.y_mm
    for end in number.leaders:
        room = Box(min(x, end[0]), min(y, end[1]), abs(x - end[0]), abs(y - end[1]))
        if not shown.meets(room.inset(-_POINT_MM)):
            continue
        away = max(hypot(x - end[0], y - end[1]), 1e-9)
        share = min(number.radius_mm / away, 1.0)
        start = (x + (end[0] - x) * share, y + (end[1] - y) * share)
        yield Path(((start, end),), stroke_mm=_LEADER_MM, within=shown)
        dot = Box(*end, 0.0, 0.0).inset(-_POINT_MM / 2)
        yield Path((dot.corners,), closed=True, fill=Ink.BLACK, within=shown)
    if shown.covers(Box(x, y, 0.0, 0.0).inset(-needed_mm(number.tone, FIGURE_MM))):
        size = FIGURE_MM / FIGURE_EM
        baseline = y + FIGURE_MM / 2
        yield Text(x, baseline, str(number.tone), Face.SANS, size, Anchor.MIDDLE)


def _flap(metal: Box, shown: Box) -> Iterator[Mark]:
    """The hinge above the plate's head, as far as the piece shows it."""
    if shown.y >= FLAP_MM:
        return
    fold = ((metal.x, FLAP_MM - 1.5), (metal.right, FLAP_MM - 1.5))
    yield Path((fold,), stroke_mm=HAIR_MM, dash_mm=_FLAP_DASH_MM, within=shown)
    sides = ((metal.x, FLAP_MM), (metal.x, 0.0), (metal.right, 0.0), (metal.right, FLAP_MM))
    yield Path((sides,), stroke_mm=HAIR_MM, within=shown.inset(-HAIR_MM))
    words = label(say("hinge flap"), Face.SANS_BOLD)
    if words.width + 6.0 <= shown.width:
        yield Text(max(metal.x, shown.x) + 3.0, 6.4, say("hinge flap"), Face.SANS_BOLD, SMALL_MM)


def _key(numbered: Numbered, *, dotted: bool) -> tuple[Block, ...]:
    middle = FIELD.y + FIELD.height / 2
    ends = ((0.0, middle), (FIELD.width, middle))
    soft = Path((ends,), stroke_mm=_SOFT_MM, dash_mm=_SOFT_DASH_MM)
    fold = Path((ends,), stroke_mm=HAIR_MM, dash_mm=_FLAP_DASH_MM)
    bare = numbered.slivers + numbered.crowded_out
    without = say_number("{n} small place has no number", "{n} small places have no number", bare)
    return (
        sign((line(*ends, HAIR_MM),), say("border; the numbers are tones")),
        *([sign((soft,), say("soft border: see the map of its step"))] if dotted else []),
        sign((fold,), say("fold here, tape the flap down: it comes back to the same place")),
        *([label(without)] if bare else []),
    )
