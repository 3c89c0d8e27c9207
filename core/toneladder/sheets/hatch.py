"""Tones and areas in black alone: lines, crossed lines and white dots instead of greys."""

from math import ceil, cos, floor, pi, sin, sqrt

from toneladder.boxes import Box, Point
from toneladder.sheets.marks import Ink, Path, filled

LINE_MM = 0.28
"""Width of the lines that stand for a tone."""

DOT_MM = 0.42
"""Diameter of the white dots in a dark tone: the least that a copier keeps open."""

LINES_TO = 0.38
CROSSED_TO = 0.78
"""Coverage up to which single lines, then crossed lines, are used; white dots in black above."""

_DOT_CORNERS = 12


def tone_hatch(box: Box, tone: int, count: int) -> tuple[Path, ...]:
    """The tone's black in ``box``: its share of ink is ``tone / (count - 1)``.

    Parameters
    ----------
    box : Box
        The field to fill, millimetres.
    tone : int, 0..count - 1
        The tone; 0 leaves the paper bare, the last is solid.
    count : int, >= 2
        Number of tones on the plate, white included.

    Returns
    -------
    tuple of Path
        Filled areas that end exactly at the edge of the field.
    """
    return coverage_hatch(box, tone / (count - 1))


def coverage_hatch(box: Box, coverage: float) -> tuple[Path, ...]:
    """Black that covers a share ``coverage`` (0..1) of ``box``."""
    if coverage <= 0.0:
        return ()
    if coverage >= 1.0:
        return (filled([box.corners]),)
    if coverage <= LINES_TO:
        return (stripes(box, LINE_MM, LINE_MM / coverage, rising=True),)
    if coverage <= CROSSED_TO:
        pitch = LINE_MM / (1.0 - sqrt(1.0 - coverage))
        return tuple(stripes(box, LINE_MM, pitch, rising=rising) for rising in (True, False))
    return (filled([box.corners]), _dots(box, 1.0 - coverage))


def stripes(box: Box, width_mm: float, pitch_mm: float, *, rising: bool) -> Path:
    r"""Lines at 45 degrees across ``box``, cut off at its edge.

    Parameters
    ----------
    box : Box
        The field, millimetres.
    width_mm, pitch_mm : float
        Width of a line, and distance from one line to the next, measured across them.
    rising : bool
        True for lines that rise to the right, /; False for lines that fall, \.
    """
    step, half = pitch_mm * sqrt(2.0), width_mm * sqrt(2.0) / 2.0
    width, height = box.width, box.height
    strips: list[list[Point]] = []
    for index in range(floor(-half / step), ceil((width + height + half) / step) + 1):
        at = (index + 0.5) * step
        strips.append([(at - half - height, height), (at + half - height, height)])
        strips[-1] += [(at + half, 0.0), (at - half, 0.0)]
    if not rising:
        strips = [[(width - x, y) for x, y in strip] for strip in strips]
    return _within(box, strips, Ink.BLACK)


def _dots(box: Box, share: float) -> Path:
    """White dots on a lattice turned by 45 degrees that open a ``share`` of ``box``."""
    pitch = DOT_MM * sqrt(pi / 4.0 / share)
    across = pitch / sqrt(2.0)
    # a circle's area, kept by the polygon that stands for it
    corners = _DOT_CORNERS
    radius = DOT_MM / 2.0 * sqrt(2.0 * pi / (corners * sin(2.0 * pi / corners)))
    turn = [2.0 * pi * corner / corners for corner in range(corners)]
    round_dot = [(radius * cos(angle), radius * sin(angle)) for angle in turn]
    dots = [
        [((column + 0.5) * across + x, (row + 0.5) * across + y) for x, y in round_dot]
        for row in range(-1, ceil(box.height / across) + 1)
        for column in range(-1, ceil(box.width / across) + 1)
        if (row + column) % 2 == 0
    ]
    return _within(box, dots, Ink.WHITE)


def _within(box: Box, areas: list[list[Point]], ink: Ink) -> Path:
    """What of the convex ``areas``, measured from the corner of ``box``, lies within it."""
    kept = []
    for area in areas:
        inside = area
        for axis, limit, sign in (
            (0, 0.0, 1),
            (0, box.width, -1),
            (1, 0.0, 1),
            (1, box.height, -1),
        ):
            inside = _cut(inside, axis, limit, sign)
        if len(inside) > 2:
            kept.append([(box.x + x, box.y + y) for x, y in inside])
    return filled(kept, ink)


def _cut(area: list[Point], axis: int, limit: float, sign: int) -> list[Point]:
    """The part of a convex area on one side of an upright or level line."""
    kept: list[Point] = []
    for before, after in zip(area[-1:] + area[:-1], area, strict=True):
        was, is_now = sign * (before[axis] - limit), sign * (after[axis] - limit)
        if (was < 0.0) != (is_now < 0.0):
            share = was / (was - is_now)
            crossing_x = before[0] + share * (after[0] - before[0])
            crossing_y = before[1] + share * (after[1] - before[1])
            kept.append((crossing_x, crossing_y))
        if is_now >= 0.0:
            kept.append(after)
    return kept
