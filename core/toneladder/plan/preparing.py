"""The picture as a brush sees it: laid on the plate, squinted at, cleaned."""

from collections.abc import Hashable, Iterator
from dataclasses import dataclass, field, replace
from math import isqrt

import numpy as np
from numpy.typing import NDArray

from toneladder.lines.separating import LineLayer, separate
from toneladder.lines.values import Lines
from toneladder.optics import FloatArray
from toneladder.picture.averaging import at_pitch
from toneladder.picture.laying import grid_for, lay
from toneladder.picture.opening import Picture
from toneladder.picture.placing import Placing, placing_of
from toneladder.picture.squint import lightness16, squint, squint_keeping_edges
from toneladder.picture.values import Grid, Laying, PlateSize
from toneladder.plan.memory import Memory, Tell, quietly
from toneladder.plate.values import Plate
from toneladder.tones.brush import disc_cells, paintable
from toneladder.tones.lattice import Lattice, LatticeArray, lattice_of, on_lattice
from toneladder.tones.parting import CountArray, step_counts
from toneladder.tones.values import Brush
from toneladder.wording import say

Cells = NDArray[np.float32]

SCREEN_CELLS = 400_000
"""About as many as the paper has pixels on the screen."""


@dataclass(frozen=True, slots=True)
class Seen:
    """What of a plate decides how a brush sees its picture.

    ``lines`` says what a line is, and nothing of how long it is bitten.
    """

    size: PlateSize
    laying: Laying
    squint_mm: float
    brush: Brush
    keeps_edges: bool = False
    lines: Lines | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Prepared:
    """The plate's grid with everything that does not depend on the number of tones.

    ``asked`` and ``cleaned`` are the lattice steps of every cell before and after the brush,
    (height, width) of uint8, read-only; ``asked_counts`` and ``cleaned_counts`` how many cells
    stand on each of the 256 steps. ``lines`` are the pen lines, if they are bitten first: they
    were taken out before the squint. Cells that are ``coarser`` than the plate's, so many times
    as wide, are good for a glance and not for a plan.
    """

    seen: Seen
    grid: Grid
    lattice: Lattice
    asked: LatticeArray = field(repr=False)
    cleaned: LatticeArray = field(repr=False)
    asked_counts: CountArray = field(repr=False)
    cleaned_counts: CountArray = field(repr=False)
    notes: tuple[str, ...]
    lines: LineLayer | None = None
    coarser: int = 1

    @property
    def least_cells(self) -> int:
        """Cells of the smallest place a brush can paint."""
        disc = disc_cells(self.seen.brush.mark_mm * self.grid.px_per_mm)
        return max(disc, round(self.seen.brush.smallest_area_mm2 * self.grid.px_per_mm**2))


def seen_of(plate: Plate) -> Seen:
    """How ``plate`` sees its picture; the squint is half the smallest mark unless it is given."""
    squint_mm = plate.brush.mark_mm / 2.0 if plate.squint_mm is None else plate.squint_mm
    lines = plate.lines and replace(plate.lines, bites_s=(), stopped_out=False)
    return Seen(plate.size, plate.laying, squint_mm, plate.brush, plate.keeps_edges, lines)


def placing_on(plate: Plate) -> Placing:
    """How ``plate`` lies on its picture."""
    picture = (plate.picture.width, plate.picture.height)
    return placing_of(plate.laying, plate.size, picture)


def prepare(picture: Picture, seen: Seen, memory: Memory, tell: Tell = quietly) -> Prepared:
    """Lay, squint and clean; each stage is remembered until what it rests on changes.

    Raises
    ------
    PlanError
        If the brush is finer than the grid can hold.
    """
    return _brushed(seen, _laid(picture, seen, memory, tell), memory, tell)


def glance(picture: Picture, seen: Seen, memory: Memory, tell: Tell = quietly) -> Prepared | None:
    """About what :func:`prepare` will find, in cells as large as a screen's and much sooner.

    None where that is no gain: the plate is small, or was squinted at in the same way.
    Raises as :func:`prepare`.
    """
    laid = _laid(picture, seen, memory, tell)
    coarser = isqrt(laid.light.size // SCREEN_CELLS)
    if coarser < 2 or memory.knows("squinted", laid.squinted_on):
        return None
    return _brushed(seen, laid.in_cells(coarser), Memory(), tell)


@dataclass(frozen=True, slots=True, eq=False)
class _Laid:
    """The picture on the plate's grid, in linear light, without its pen lines.

    ``squinted_on`` is everything that its squint rests on.
    """

    grid: Grid
    light: Cells
    lines: LineLayer | None
    notes: tuple[str, ...]
    squinted_on: Hashable
    coarser: int = 1

    def in_cells(self, coarser: int) -> "_Laid":
        """The same in cells that are so many times as wide."""
        height, width = (-(-side // coarser) for side in self.light.shape)
        light = at_pitch(self.light, float(coarser), (height, width))
        grid = Grid(width, height, self.grid.px_per_mm / coarser)
        return replace(self, grid=grid, light=light, coarser=coarser)


def _laid(picture: Picture, seen: Seen, memory: Memory, tell: Tell) -> _Laid:
    grid, grid_notes = grid_for(seen.size, seen.brush.mark_mm, seen.brush.gap_mm)
    laid_on = (picture.ref.sha256, seen.size, seen.laying, grid)
    tell(say("Laying the plate on the picture …"))
    laid = memory.recall("laid", laid_on, lambda: lay(picture, seen.laying, seen.size, grid))
    light, lines = laid.light, None
    if (drawn := seen.lines) is not None:
        tell(say("Parting lines and washes …"))
        apart = memory.recall(
            "lines", (*laid_on, drawn), lambda: separate(laid.light, grid.px_per_mm, drawn)
        )
        light, lines = apart.washes, apart.lines
    squinted_on = (*laid_on, seen.lines, seen.squint_mm, seen.keeps_edges)
    notes = (*picture.notes, *grid_notes, *laid.notes)
    return _Laid(grid, light, lines, notes, squinted_on)


def _brushed(seen: Seen, laid: _Laid, memory: Memory, tell: Tell) -> Prepared:
    brush, px_per_mm = seen.brush, laid.grid.px_per_mm
    squinting = squint_keeping_edges if seen.keeps_edges else squint

    def looked_at() -> tuple[Lattice, LatticeArray]:
        lightness = lightness16(squinting(laid.light, seen.squint_mm * px_per_mm))
        lattice = lattice_of(lightness)
        return lattice, _frozen(on_lattice(lightness, lattice))

    tell(say("Squinting …"))
    lattice, asked = memory.recall("squinted", laid.squinted_on, looked_at)
    tell(say("Finding what the brush can paint …"))
    cleaned = memory.recall(
        "cleaned",
        (laid.squinted_on, brush.mark_mm, brush.gap_mm),
        lambda: _frozen(paintable(asked, brush.mark_mm * px_per_mm, brush.gap_mm * px_per_mm)),
    )
    return Prepared(
        seen=seen,
        grid=laid.grid,
        lattice=lattice,
        asked=asked,
        cleaned=cleaned,
        asked_counts=step_counts(asked),
        cleaned_counts=step_counts(cleaned),
        notes=(*laid.notes, *_notes(lattice, laid.lines)),
        lines=laid.lines,
        coarser=laid.coarser,
    )


def _notes(lattice: Lattice, lines: LineLayer | None) -> Iterator[str]:
    if lines is not None and not lines.mask.any():
        yield say("No lines were found that are as fine and as dark as lines are said to be.")
    if lattice.flat:
        yield say("The picture is nearly one single grey; its lightness was taken as it stands.")


def _frozen(cells: LatticeArray) -> LatticeArray:
    cells.flags.writeable = False
    return cells


def distance(prepared: Prepared, targets: FloatArray, printed: FloatArray) -> float:
    """Root mean square distance, L*, of the print from the picture as it was squinted at.

    Parameters
    ----------
    prepared : Prepared
        The plate's grid.
    targets : (256,) array, L*
        What each step of the lattice asks for.
    printed : (256,) array, L*
        What each step of the cleaned lattice prints.
    """
    import numpy as np

    pairs = prepared.asked.astype(np.uint16) << 8 | prepared.cleaned
    counts = np.bincount(pairs.ravel(), minlength=65536).reshape(256, 256)
    squared = (targets[:, None] - printed[None, :]) ** 2
    return float(np.sqrt((counts * squared).sum() / counts.sum()))
