"""Notes on the print: what the etcher wants in a place, over what the picture asks.

All notes are brought to the tones in their order; then what changed is cleaned for the brush,
each change in the box round it, so that nothing further away moves.
"""

from collections.abc import Sequence
from dataclasses import astuple, dataclass
from math import ceil, pi

import numpy as np

from toneladder.picture.placing import Placing
from toneladder.quantities import write_percent
from toneladder.tones.boxes import Box, apart_boxes, around, grown, inner_edges, within
from toneladder.tones.brush import closing, narrowest, opening, reconstructed, widest
from toneladder.tones.outlines import CellArray, inside
from toneladder.tones.parting import ToneArray
from toneladder.tones.values import Brush, Note, Wish
from toneladder.wording import say

PAINTABLE = 0.8
"""A note is painted if the brush keeps so much of it: an assumption."""


@dataclass(frozen=True, slots=True)
class Scene:
    """What notes need to know of the plate that they are brought to.

    ``partings`` are the printed lightness L* at which its tones part, falling: one less than
    there are tones.
    """

    placing: Placing
    px_per_mm: float
    partings: tuple[float, ...]
    brush: Brush


@dataclass(frozen=True, slots=True)
class NoteTold:
    """What became of a note, numbered from 1 as the list has it.

    ``asked_cells`` of the plate lie in its place and ``kept_share`` (0..1) of them print as the
    notes say after the brush; ``sentence`` is what must be said, or empty.
    """

    number: int
    asked_cells: int
    kept_share: float
    paintable: bool
    sentence: str


def apply_notes(
    tones: ToneArray, notes: Sequence[Note], scene: Scene
) -> tuple[ToneArray, tuple[NoteTold, ...]]:
    """The tones as the notes want them, as far as a brush can paint that.

    Parameters
    ----------
    tones : (height, width) array of uint8
        Tone number of every cell, as a brush can paint them.
    notes : sequence of Note
        In their order: a later one is brought to what the earlier ones left.
    scene : Scene
        The plate.

    Returns
    -------
    (height, width) array of uint8, tuple of NoteTold
        The same array where the notes change nothing.
    """
    if not notes:
        return tones, ()
    wanted, places = tones.copy(), [_place(note, tones.shape, scene) for note in notes]
    for note, (box, cells) in zip(notes, places, strict=True):
        wanted[box][cells] = _wish(note, wanted[box][cells], scene.partings)
    changed = [
        smallest
        for box, cells in places
        for smallest in around((wanted[box] != tones[box]) & cells, box)
    ]
    mark, gap = scene.brush.mark_mm * scene.px_per_mm, scene.brush.gap_mm * scene.px_per_mm
    painted = cleaned_within(wanted, changed, mark, gap) if changed else tones
    told = (
        _told(number, cells, wanted[box] == painted[box])
        for number, (box, cells) in enumerate(places, start=1)
    )
    return painted, tuple(told)


def wished_cells(
    notes: Sequence[Note], placing: Placing, px_per_mm: float
) -> tuple[tuple[float, int], ...]:
    """About how many cells notes ask to be printed at a lightness, L*, quickly.

    Only notes that ask for the deepest (here 0) or for a lightness count, if they touch the
    plate; ``placing`` and ``px_per_mm`` are as in :class:`Scene`.
    """
    return tuple(
        (
            0.0 if note.wish is Wish.DEEPEST else note.lightness,
            round(_area_mm2(note, placing) * px_per_mm**2),
        )
        for note in notes
        if note.rings and note.wish in {Wish.DEEPEST, Wish.LIGHTNESS}
    )


def cleaned_within(
    tones: ToneArray, boxes: Sequence[Box], mark_cells: float, gap_cells: float
) -> ToneArray:
    """``tones`` with only what a brush can paint, looked at only about ``boxes``.

    Parameters
    ----------
    tones : (height, width) array of uint8
        Paintable but for what lies in ``boxes``; a higher tone is bitten longer.
    boxes : sequence of (rows, columns) slices
    mark_cells, gap_cells : float, above 0
        As for :func:`toneladder.tones.brush.clean`, of which this is the part about the boxes.
        What reaches into a box's surroundings from outside is taken as painted.
    """
    reach = ceil(2.0 * mark_cells + gap_cells) + 1
    result = tones.copy()
    for box in apart_boxes(boxes, 2 * reach):
        near, seen = (grown(box, margin, tones.shape) for margin in (reach, 2 * reach))
        closed = closing(opening(255 - tones[seen], mark_cells), gap_cells)
        inner = within(near, seen)
        marker, mask = opening(closed, mark_cells)[inner], closed[inner]
        for edge in inner_edges(near, tones.shape):
            mask[edge] = np.minimum(mask[edge], 255 - tones[near][edge])
            marker[edge] = mask[edge]
        result[near] = 255 - reconstructed(marker, mask)
    return result


def _wish(note: Note, here: ToneArray, partings: Sequence[float]) -> ToneArray:
    """What a note wants where the tones are ``here``."""
    if note.wish is Wish.RUNGS:
        return np.clip(here.astype(np.int16) + note.rungs, 0, len(partings)).astype(np.uint8)
    tone = {Wish.PAPER: 0, Wish.DEEPEST: len(partings)}.get(note.wish)
    if tone is None:
        tone = int(np.searchsorted(-np.array(partings), -note.lightness, side="left"))
    return np.full_like(here, tone)


def _place(note: Note, shape: tuple[int, ...], scene: Scene) -> tuple[Box, CellArray]:
    """The part of the plate that a note speaks of: a box, and which of its cells."""
    rings = [scene.placing.to_plate(ring) * scene.px_per_mm for ring in note.rings]
    wider = note.wider_mm * scene.px_per_mm
    margin = ceil(abs(wider)) + 1
    corners = np.concatenate(rings) if rings else np.zeros((1, 2))
    low = np.maximum(np.floor(corners.min(axis=0)) - margin, -margin).astype(int)
    high = np.minimum(np.ceil(corners.max(axis=0)) + margin, np.add(shape[::-1], margin))
    width, height = np.maximum(high.astype(int) - low, 0)
    cells = _wider(inside([ring - low for ring in rings], (int(height), int(width))), wider)
    left, top = low
    box = (_part(top, height, shape[0]), _part(left, width, shape[1]))
    return box, cells[within(box, (slice(top, top + height), slice(left, left + width)))]


def _area_mm2(note: Note, placing: Placing) -> float:
    """Area of a note's place, as if none of it lay beside a plate that it touches.

    References
    ----------
    [Chiu2013] Steiner's formula for the part that is wider.
    """
    area, border, size = 0.0, 0.0, placing.size
    rings = [placing.to_plate(ring) for ring in note.rings]
    corners = np.concatenate(rings)
    if (corners.max(axis=0) < 0.0).any() or (corners.min(axis=0) > astuple(size)).any():
        return 0.0
    for ring in rings:
        x, y = ring.T
        to_x, to_y = np.roll(ring, -1, axis=0).T
        area += float((x * to_y - to_x * y).sum()) / 2.0
        border += float(np.hypot(to_x - x, to_y - y).sum())
    wider = abs(area) + border * note.wider_mm + pi * note.wider_mm**2
    return min(max(0.0, wider), size.area_cm2 * 100.0)


def _wider(cells: CellArray, by_cells: float) -> CellArray:
    if abs(by_cells) < 1.0 or not cells.size:
        return cells
    grown = (widest if by_cells > 0.0 else narrowest)(cells.view(np.uint8), 2.0 * abs(by_cells))
    return grown.view(np.bool_)


def _part(first: int, length: int, whole: int) -> slice:
    start, stop = (min(max(int(end), 0), whole) for end in (first, first + length))
    return slice(start, stop)


def _told(number: int, cells: CellArray, kept: CellArray) -> NoteTold:
    asked = int(np.count_nonzero(cells))
    if not asked:
        outside = say("Note {n} lies outside the plate. It is kept for another crop.", n=number)
        return NoteTold(number, 0, 1.0, paintable=True, sentence=outside)
    share = float(np.count_nonzero(kept & cells)) / asked
    paintable = share >= PAINTABLE
    return NoteTold(number, asked, share, paintable, "" if paintable else _refused(number, share))


def _refused(number: int, share: float) -> str:
    if share <= 0.0:
        return say(
            "Note {n} is finer than the brush and cannot be painted. It is kept; make it wider, "
            "or take a finer brush.",
            n=number,
        )
    return say(
        "Note {n} is finer than the brush in places: {lost} of it cannot be painted. It is "
        "kept; make it wider, or take a finer brush.",
        n=number,
        lost=write_percent(max(0.01, 1.0 - share)),
    )
