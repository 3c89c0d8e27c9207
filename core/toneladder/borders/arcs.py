"""Every border of a plate as one planar graph of lines, drawn from once and for all.

A border first runs between cells. Every stretch of it between two cells has a *gate*: the
straight piece from the middle of one cell to the middle of the other. A line that passes
through all its gates in order leaves every cell on its own side, and two lines cannot meet
but where borders do, since no two of them share a gate. So the line is free to be smooth
within its gates, and simple, and nothing is lost.
"""

import itertools
from collections.abc import Container, Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from toneladder.borders.cracks import Chains, chains
from toneladder.borders.joining import joined
from toneladder.borders.smoothing import simplified, smoothed
from toneladder.optics import FloatArray
from toneladder.tones.parting import ToneArray

OUTSIDE = -1
"""What lies beyond the plate's edge, in place of a tone."""

_ROOM = 0.49  # cells; half a cell, less what writing a line to a thousandth of a millimetre takes


@dataclass(frozen=True, slots=True, eq=False)
class Arc:
    """A piece of border between two tones, from one meeting of borders to the next.

    ``points`` are (n, 2): x and y in mm on the plate as the print is seen, from its top left.
    ``left`` and ``right`` are the tones on either hand of somebody who walks along them, the
    lighter on the left; along the plate's edge ``left`` is ``OUTSIDE``. The last point of a
    ``closed`` arc is joined to its first, which is not repeated.
    """

    points: FloatArray
    left: int
    right: int
    closed: bool


def trace(tones: ToneArray, px_per_mm: float, *, tolerance_mm: float = 0.1) -> tuple[Arc, ...]:
    """All borders between tones, and the plate's edge.

    Parameters
    ----------
    tones : (height, width) array of uint8
        Tone number of every cell.
    px_per_mm : float
        Cells to the millimetre.
    tolerance_mm : float
        How far a line may leave the middle of its border; never more than half a cell, so
        that every cell's middle stays on its own side.

    Returns
    -------
    tuple of Arc
        Neighbours share their border as one arc; arcs meet at their ends alone.
    """
    found = chains(tones)
    room = np.full(len(found.points), min(tolerance_mm * px_per_mm, _ROOM))
    line = smoothed(found, room)
    kept = simplified(found, line, room)
    return (*_arcs(found, line[kept], kept, px_per_mm), *_edge(tones, px_per_mm))


def border_arcs(arcs: Iterable[Arc], step: int) -> tuple[Arc, ...]:
    """The border of step ``step``: what parts the tones below it from the others.

    The plate's edge is no part of it.
    """
    return tuple(arc for arc in arcs if OUTSIDE < arc.left < step <= arc.right)


def rings(arcs: Iterable[Arc], wanted: Container[int]) -> tuple[FloatArray, ...]:
    """The outlines of all areas of the tones ``wanted``, as one.

    Parameters
    ----------
    arcs : iterable of Arc
        Everything that was traced, the plate's edge with it.
    wanted : container of int
        Tone numbers, such as ``range(step)`` for all that is covered in a step.

    Returns
    -------
    tuple of (n, 2) arrays, millimetres
        Closed rings, the first point not repeated, to be filled by the even-odd rule; the
        areas of tones that are apart neither overlap nor leave a gap.
    """
    outline = [
        (arc.points[::-1] if arc.left in wanted else arc.points, arc.closed)
        for arc in arcs
        if (arc.left in wanted) != (arc.right in wanted)
    ]
    alone = (points for points, closed in outline if closed)
    meeting = joined([points for points, closed in outline if not closed])
    return (*alone, *(line.points for line in meeting))


def _arcs(
    found: Chains, line: NDArray[np.complex128], kept: NDArray[np.bool_], px_per_mm: float
) -> list[Arc]:
    points = np.column_stack([line.real, line.imag]) / px_per_mm
    before = np.concatenate([[0], np.cumsum(kept)])
    starts, ends = before[found.starts].tolist(), before[found.ends].tolist()
    sides = zip(found.left.tolist(), found.right.tolist(), found.closed.tolist(), strict=True)
    return [
        Arc(points[start:end], *side) for start, end, side in zip(starts, ends, sides, strict=True)
    ]


def _edge(tones: ToneArray, px_per_mm: float) -> list[Arc]:
    """The plate's edge, clockwise from its top left, in pieces of one tone."""
    height, width = tones.shape
    return [
        arc
        for cells, corner, along in (
            (tones[0], 0, 1),
            (tones[:, -1], width, 1j),
            (tones[-1, ::-1], width + 1j * height, -1),
            (tones[::-1, 0], 1j * height, -1j),
        )
        for arc in _side(cells, corner, along, px_per_mm)
    ]


def _side(cells: ToneArray, corner: complex, along: complex, px_per_mm: float) -> Iterable[Arc]:
    """One side of the plate: from ``corner`` on, one ``along`` to the cell."""
    breaks = [0, *(np.flatnonzero(cells[1:] != cells[:-1]) + 1).tolist(), len(cells)]
    for start, end in itertools.pairwise(breaks):
        ends = (corner + start * along, corner + end * along)
        points = np.array([(end.real, end.imag) for end in ends]) / px_per_mm
        yield Arc(points, OUTSIDE, int(cells[start]), closed=False)
