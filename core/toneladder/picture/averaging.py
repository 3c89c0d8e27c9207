"""A raster of light brought to another grid: means where it shrinks, straight lines where it grows.

Everything happens in linear light, in bands of rows, so that memory stays small.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from toneladder.picture.light import WHITE, Light

Band = NDArray[np.float32]
Raster = Light | Band

_BAND_PIXELS = 1_000_000


@dataclass(frozen=True, slots=True)
class Axis:
    """How the cells of a grid lie along one side of a raster.

    The first of ``cells`` begins at ``start`` pixels, each is ``pitch`` pixels long, and the
    raster is ``length`` pixels long.
    """

    start: float
    pitch: float
    cells: int
    length: int

    def edges(self) -> NDArray[np.float64]:
        """Where cells begin and end (cells + 1), held inside the raster."""
        edges = self.start + np.arange(self.cells + 1) * self.pitch
        return np.clip(edges, 0.0, float(self.length))

    def neighbours(self) -> tuple[NDArray[np.intp], NDArray[np.intp], Band]:
        """For every cell's middle the pixels on both sides, and the share of the second."""
        middles = self.start + (np.arange(self.cells) + 0.5) * self.pitch - 0.5
        middles = np.clip(middles, 0.0, self.length - 1.0)
        before = middles.astype(np.intp)
        after = np.minimum(before + 1, self.length - 1)
        return before, after, (middles - before).astype(np.float32)

    def window(self) -> tuple[slice, "Axis"]:
        """The pixels that matter, and the same cells along them alone."""
        first = min(max(0, int(self.start) - 1), self.length - 1)
        last = min(self.length, int(self.start + self.cells * self.pitch) + 2)
        return slice(first, last), Axis(self.start - first, self.pitch, self.cells, last - first)


def bands(raster: Raster, down: Axis, across: Axis) -> Iterator[tuple[slice, Band]]:
    """The raster on another grid, a band of the grid's rows at a time.

    Parameters
    ----------
    raster : (height, width) array
        Linear light.
    down, across : Axis
        The grid along the raster's height and width. A cell that reaches over the raster's
        edge is as its part inside.

    Yields
    ------
    slice, (rows, across.cells) float32 array
        Which rows of the grid, and their light: means over the cells' areas along a side
        where they are longer than a pixel, otherwise between the pixels on both sides.
    """
    wanted, across = across.window()
    window = raster[:, wanted]
    step = max(1, _BAND_PIXELS // max(across.length, across.cells))
    for start in range(0, down.cells, step):
        rows = slice(start, min(start + step, down.cells))
        yield rows, _columns(_rows(window, down, rows), across)


def at_pitch(light: Band, pitch: float, shape: tuple[int, ...]) -> Band:
    """``light`` (h, w) in cells of another pitch, so many as ``shape`` (rows, columns) says."""
    if pitch == 1.0:
        return light
    down, across = (
        Axis(0.0, pitch, cells, length) for cells, length in zip(shape, light.shape, strict=True)
    )
    other = np.empty(shape, np.float32)
    for rows, band in bands(light, down, across):
        other[rows] = band
    return other


def _rows(raster: Raster, down: Axis, rows: slice) -> Band:
    if down.pitch <= 1.0:
        before, after, share = (part[rows] for part in down.neighbours())
        weight = share[:, None]
        return raster[before] * (1 - weight) + raster[after] * weight
    edges = down.edges()[rows.start : rows.stop + 1]
    means = np.empty((len(edges) - 1, raster.shape[1]), np.float32)
    for number, mean in enumerate(means):
        _mean_of_rows(raster, float(edges[number]), float(edges[number + 1]), mean)
    return means


def _mean_of_rows(raster: Raster, top: float, bottom: float, mean: Band) -> None:
    """The mean of the rows from ``top`` to ``bottom``, parts of a row counted as parts."""
    first, last = int(top), min(int(bottom), len(raster) - 1)
    exact = _exact(raster, last - first)
    mean[:] = np.add.reduce(raster[first:last], axis=0, dtype=exact)
    if top > first:
        mean -= raster[first] * np.float32(top - first)
    if bottom > last:
        mean += raster[last] * np.float32(bottom - last)
    mean /= np.float32(bottom - top)


def _exact(raster: Raster, rows: int) -> type[np.uint32 | np.uint64 | np.float32]:
    """A kind of number in which so many rows add up."""
    if raster.dtype != np.uint16:
        return np.float32
    return np.uint32 if rows < WHITE else np.uint64


def _columns(band: Band, across: Axis) -> Band:
    if across.pitch <= 1.0:
        before, after, share = across.neighbours()
        return band[:, before] * (1 - share) + band[:, after] * share
    edges = across.edges()
    whole = np.minimum(edges.astype(np.intp), across.length - 1)
    means = np.add.reduceat(band, whole, axis=1)[:, :-1]
    means[:, whole[1:] == whole[:-1]] = 0.0
    parts = band[:, whole] * (edges - whole).astype(np.float32)
    means += parts[:, 1:]
    means -= parts[:, :-1]
    means /= np.diff(edges).astype(np.float32)
    return means
