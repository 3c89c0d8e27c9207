"""Boxes of cells: slices of rows and of columns."""

from collections.abc import Iterator, Sequence

import numpy as np

from toneladder.tones.outlines import CellArray

Box = tuple[slice, slice]


def around(cells: CellArray, box: Box) -> Iterator[Box]:
    """The smallest box round ``cells`` of ``box``, if there are any."""
    rows, columns = (np.flatnonzero(cells.any(axis=axis)) for axis in (1, 0))
    if rows.size:
        yield (
            slice(box[0].start + int(rows[0]), box[0].start + int(rows[-1]) + 1),
            slice(box[1].start + int(columns[0]), box[1].start + int(columns[-1]) + 1),
        )


def apart_boxes(boxes: Sequence[Box], reach: int) -> list[Box]:
    """``boxes``, those made one that come nearer to each other than twice ``reach``."""
    apart: list[Box] = []
    for new in boxes:
        box = new
        while near := [other for other in apart if _meet(box, other, 2 * reach)]:
            apart = [other for other in apart if other not in near]
            box = _round([box, *near])
        apart.append(box)
    return apart


def _meet(one: Box, other: Box, reach: int) -> bool:
    return all(
        a.start - reach < b.stop and b.start - reach < a.stop
        for a, b in zip(one, other, strict=True)
    )


def _round(boxes: Sequence[Box]) -> Box:
    rows, columns = (
        slice(min(side.start for side in sides), max(side.stop for side in sides))
        for sides in zip(*boxes, strict=True)
    )
    return rows, columns


def grown(box: Box, margin: int, shape: tuple[int, ...]) -> Box:
    """``box`` with a margin on all sides, as far as the plate reaches."""
    rows, columns = (
        slice(max(side.start - margin, 0), min(side.stop + margin, whole))
        for side, whole in zip(box, shape, strict=True)
    )
    return rows, columns


def within(box: Box, outer: Box) -> Box:
    """``box`` as seen from the corner of ``outer``."""
    rows, columns = (
        slice(side.start - whole.start, side.stop - whole.start)
        for side, whole in zip(box, outer, strict=True)
    )
    return rows, columns


def inner_edges(box: Box, shape: tuple[int, ...]) -> Iterator[tuple[int | slice, int | slice]]:
    """The outermost rows and columns of a box, but for those at the plate's own edge."""
    everything = slice(None)
    if box[0].start > 0:
        yield 0, everything
    if box[0].stop < shape[0]:
        yield -1, everything
    if box[1].start > 0:
        yield everything, 0
    if box[1].stop < shape[1]:
        yield everything, -1
