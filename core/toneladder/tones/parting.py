"""From cleaned lightness to tones: one look-up table, and what is too small to be a tone."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from toneladder.optics import FloatArray
from toneladder.tones.choose import Levels
from toneladder.tones.lattice import STEPS, LatticeArray

TOLD_APART = 2.3

ToneArray = NDArray[np.uint8]
CountArray = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Parted:
    """The tones that are left, and the table that paints them.

    ``levels`` are L*, falling; ``table`` gives the tone of each of the 256 steps of the lattice;
    ``cells`` counts each tone's cells on the plate; ``joined`` names the tones (numbered as
    asked for) that were joined to a neighbour, being too small to paint or too close to tell.
    """

    levels: tuple[float, ...]
    partings: tuple[float, ...]
    table: tuple[int, ...]
    cells: tuple[int, ...]
    joined: tuple[int, ...]

    def paint(self, cleaned: LatticeArray) -> ToneArray:
        """Tone number of every cell, (height, width) of uint8."""
        return np.take(np.array(self.table, dtype=np.uint8), cleaned)


def part(
    levels: Levels,
    targets: FloatArray,
    counts: CountArray,
    least_cells: int,
    *,
    wished: Sequence[tuple[float, int]] = (),
    ends: int = 2,
) -> Parted:
    """The tones of a plate, without those no brush could paint and no eye could tell apart.

    Parameters
    ----------
    levels : Levels
        As chosen.
    targets : (256,) array, L*
        Target lightness of each step of the lattice, never falling.
    counts : (256,) array
        Cells of the cleaned plate on each step.
    least_cells : int
        Cells of the smallest disc a brush can paint; a smaller tone is joined.
    wished : sequence of (printed lightness L*, cells)
        What notes on the print will add; a tone that they ask for is not too small.
    ends : int
        As many tones always stay: white and one more.
    """
    lightness, partings = list(levels.levels), list(levels.partings)
    names, joined = list(range(levels.count)), []
    while len(lightness) > ends:
        cells = _cells(partings, targets, counts)
        for level, more in wished:
            cells[np.searchsorted(-np.array(partings), -level, side="left")] += more
        weak = _weakest(lightness, cells, least_cells)
        if weak is None:
            break
        joined.append(names.pop(weak))
        lightness.pop(weak)
        _close(partings, lightness, weak)
    tone = _tone_of(partings, targets)
    cells = _cells(partings, targets, counts)
    return Parted(
        tuple(lightness),
        tuple(partings),
        tuple(int(t) for t in tone),
        tuple(int(n) for n in cells),
        tuple(sorted(joined)),
    )


def step_counts(cleaned: LatticeArray) -> CountArray:
    """How many cells stand on each of the 256 steps."""
    return np.bincount(cleaned.ravel(), minlength=STEPS)


def _tone_of(partings: list[float], targets: FloatArray) -> NDArray[np.intp]:
    return np.searchsorted(-np.array(partings), -targets, side="left")


def _cells(partings: list[float], targets: FloatArray, counts: CountArray) -> CountArray:
    tones = _tone_of(partings, targets)
    cells: CountArray = np.zeros(len(partings) + 1, dtype=np.int64)
    np.add.at(cells, tones, counts)
    return cells


def _weakest(lightness: list[float], cells: CountArray, least_cells: int) -> int | None:
    """The smallest tone that must go, white never; or one too close to its lighter neighbour."""
    small = [k for k in range(1, len(lightness)) if cells[k] < least_cells]
    if small:
        return min(small, key=lambda k: int(cells[k]))
    close = [k for k in range(1, len(lightness)) if lightness[k - 1] - lightness[k] < TOLD_APART]
    return min(close, key=lambda k: int(cells[k])) if close else None


def _close(partings: list[float], lightness: list[float], gone: int) -> None:
    """Give the steps of a tone that is gone to its neighbours, nearest first."""
    if gone == len(lightness):
        partings.pop()
        return
    partings[gone - 1 : gone + 1] = [(lightness[gone - 1] + lightness[gone]) / 2.0]
