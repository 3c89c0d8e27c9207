"""The marks that make a sheet: paths, texts and pictures, in millimetres from its top left.

Whoever draws them needs no other knowledge of the sheet. There is black ink and bare paper and
nothing between: a photocopy loses nothing.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from toneladder.boxes import Box, Point
from toneladder.lettering import Face, text_width
from toneladder.sheets.tiling import Tile

BoolArray = NDArray[np.bool_]


class Ink(StrEnum):
    """Black ink, or white: the paper left bare over black."""

    BLACK = "black"
    WHITE = "white"


class Anchor(StrEnum):
    """Which end of a text stands at its place."""

    LEFT = "left"
    MIDDLE = "middle"
    RIGHT = "right"


@dataclass(frozen=True, slots=True)
class Paper:
    """A size of office paper, and how it lies: upright unless it was turned."""

    name: str
    width_mm: float
    height_mm: float

    @property
    def turned(self) -> "Paper":
        """The same paper turned by a quarter."""
        return Paper(self.name, self.height_mm, self.width_mm)

    @property
    def upright(self) -> bool:
        """Whether it is at least as high as wide."""
        return self.height_mm >= self.width_mm


A4 = Paper("A4", 210.0, 297.0)
A3 = Paper("A3", 297.0, 420.0)
LETTER = Paper("US Letter", 215.9, 279.4)


@dataclass(frozen=True, slots=True)
class Path:
    """Lines of black or white, or areas filled with it.

    ``lines`` are polylines, drawn with square-cut ends if ``stroke_mm`` is above 0 and closed
    if ``closed``; ``fill`` fills the union of all of them. ``dash_mm`` is the length of a dash
    and of the gap after it. Nothing is drawn outside ``within``, if there is one.
    """

    lines: tuple[tuple[Point, ...], ...]
    closed: bool = False
    stroke_mm: float = 0.0
    ink: Ink = Ink.BLACK
    fill: Ink | None = None
    dash_mm: tuple[float, float] | None = None
    within: Box | None = None


@dataclass(frozen=True, slots=True)
class Text:
    """One line of letters; ``y`` is its baseline, ``size_mm`` the letters' em."""

    x: float
    y: float
    text: str
    face: Face
    size_mm: float
    anchor: Anchor = Anchor.LEFT
    ink: Ink = Ink.BLACK

    @property
    def width(self) -> float:
        """How wide the line runs."""
        return text_width(self.text, self.face, self.size_mm)


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture in black dots on bare paper, laid into ``box``.

    ``packed`` holds ``rows`` rows of ``columns`` dots, eight to the byte, the leftmost in the
    highest bit and 1 for black; every row begins a new byte.
    """

    box: Box
    columns: int
    rows: int
    packed: bytes


Mark = Path | Text | Picture


@dataclass(frozen=True, slots=True)
class Sheet:
    """One page: its marks in the order in which they cover each other.

    ``tile`` is the piece of a drawing at true size that it shows, if it shows one.
    """

    paper: Paper
    marks: tuple[Mark, ...]
    title: str
    page: int
    pages: int
    tile: Tile | None = None


def line(start: Point, end: Point, stroke_mm: float) -> Path:
    """One straight black line."""
    return Path(((start, end),), stroke_mm=stroke_mm)


def frame(box: Box, stroke_mm: float, fill: Ink | None = None) -> Path:
    """The outline of ``box``, its stroke centred on the edge, over a filled ground if asked."""
    return Path((box.corners,), closed=True, stroke_mm=stroke_mm, fill=fill)


def filled(areas: Sequence[Sequence[Point]], ink: Ink = Ink.BLACK) -> Path:
    """Areas of plain ink without an outline."""
    return Path(tuple(tuple(area) for area in areas), closed=True, fill=ink)


def picture(box: Box, black: BoolArray) -> Picture:
    """The dots of ``black``, an array (rows, columns), as a picture in ``box``."""
    rows, columns = black.shape
    return Picture(box, columns, rows, np.packbits(black, axis=1).tobytes())
