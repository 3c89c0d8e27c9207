"""A drawing parted into its pen lines and its washes."""

from dataclasses import dataclass, field

import numpy as np

from toneladder.lines.finding import GreyArray, find_lines, surroundings
from toneladder.lines.lifting import FloatGrid, without_lines
from toneladder.lines.near import BoolArray, most_about
from toneladder.lines.values import Lines
from toneladder.lines.weighing import DepthArray, depths_of, length_cells
from toneladder.picture.squint import lightness16

_EDGE_REACH = 2
_AS_BLACK_AS_INK = 5.0  # per cent of the cells of all lines are under nothing but ink
_LEAST_CONTRAST = 0.005


@dataclass(frozen=True, slots=True, eq=False)
class LineLayer:
    """The pen lines of a plate.

    ``depth`` is 0 where there is no line and else the line's depth, 1 the finest; ``ink`` is how
    much of each cell its ink covers, 255 for all of it, also along a line's edges. Both are
    (h, w) of uint8, read-only. ``lengths_cm`` is the length of all lines of each depth, finest
    first.
    """

    depth: DepthArray = field(repr=False)
    ink: GreyArray = field(repr=False)
    lengths_cm: tuple[float, ...]

    @property
    def mask(self) -> BoolArray:
        """Cells of lines."""
        return self.depth > 0


@dataclass(frozen=True, slots=True, eq=False)
class Separated:
    """Lines, and the light of what is left when they are taken out."""

    lines: LineLayer
    washes: FloatGrid = field(repr=False)


def separate(light: FloatGrid, px_per_mm: float, lines: Lines) -> Separated:
    """Part a drawing into pen lines and washes.

    Parameters
    ----------
    light : (h, w) array of float32, 0..1
        Linear luminance on the plate's grid, before any squint.
    px_per_mm : float, above 0
        Cells to the millimetre.
    lines : Lines
        What is a line, and how many depths there are.
    """
    greys = (lightness16(light) >> 8).astype(np.uint8)
    around = surroundings(greys, px_per_mm, lines)
    found = find_lines(greys, around, px_per_mm, lines)
    washes = without_lines(light, greys, around, found)
    cover = _cover(light, washes, found)
    depth = depths_of(cover, _inked(cover, found), px_per_mm, lines.depths)
    ink = np.where(found, np.rint(255.0 * cover), 0.0).astype(np.uint8)
    depth.flags.writeable = ink.flags.writeable = False
    lengths = (length_cells(depth == k) for k in range(1, lines.depths + 1))
    layer = LineLayer(depth, ink, tuple(cells / px_per_mm / 10.0 for cells in lengths))
    return Separated(layer, washes)


def _cover(light: FloatGrid, washes: FloatGrid, found: BoolArray) -> FloatGrid:
    """How much of each cell is under ink, 0..1: from the wash to the drawing's own ink."""
    if not found.any():
        return np.zeros_like(light)
    ink = np.float32(np.percentile(light[found], _AS_BLACK_AS_INK))
    cover: FloatGrid = (washes - light) / np.maximum(washes - ink, np.float32(_LEAST_CONTRAST))
    return np.clip(cover, np.float32(0.0), np.float32(1.0))


def _inked(cover: FloatGrid, found: BoolArray) -> BoolArray:
    """What of the found cells is ink: at least half as covered as the darkest beside them."""
    inked: BoolArray = found & (cover >= 0.5 * most_about(cover, _EDGE_REACH))
    return inked
