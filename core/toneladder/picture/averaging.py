"""A raster of light brought to another pitch: means when it shrinks, straight lines when it grows.

Everything happens in linear light, in bands of rows, so that memory stays small.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from toneladder.picture.light import Light

Band = NDArray[np.float32]
Raster = Light | Band

_BAND_PIXELS = 1_000_000


@dataclass(frozen=True, slots=True)
class Axis:
    """How cells lie along one side of a raster.

    The first of ``cells`` begins at ``start`` pixels, and each is ``pitch`` pixels long; the
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


def bands(raster: Raster, down: Axis, across: Axis) -> Iterator[tuple[slice, Band]]:
    """The raster on another grid, a band of the grid's rows at a time.

    Parameters
    ----------
    raster : (height, width) array
        Linear light.
    down, across : Axis
        The grid along the raster's height and width.

    Yields
    ------
    slice, (rows, across.cells) float32 array
        Which rows of the grid, and their light.
    """
    left = max(0, int(across.start) - 1)
    right = min(across.length, int(across.start + across.cells * across.pitch) + 2)
    window = raster[:, left:right]
    across = Axis(across.start - left, across.pitch, across.cells, right - left)
    step = max(1, _BAND_PIXELS // max(window.shape[1], across.cells))
    for start in range(0, down.cells, step):
        rows = slice(start, min(start + step, down.cells))
        yield rows, _columns(_rows(window, down, rows), across)


def _rows(raster: Raster, down: Axis, rows: slice) -> Band:
    if down.pitch <= 1.0:
        before, after, share = (part[rows] for part in down.neighbours())
        share = share[:, None]
        return raster[before] * (1 - share) + raster[after] * share
    edges = down.edges()[rows.start : rows.stop + 1]
    means = np.empty((len(edges) - 1, raster.shape[1]), np.float32)
    for mean, top, bottom in zip(means, edges[:-1], edges[1:], strict=True):
        _mean_of_rows(raster, float(top), float(bottom), mean)
    return means


def _mean_of_rows(raster: Raster, top: float, bottom: float, mean: Band) -> None:
    """The mean of the rows from ``top`` to ``bottom``, parts of a row counted as parts."""
    first, last = int(np.ceil(top)), int(bottom)
    exact = np.uint32 if raster.dtype == np.uint16 else np.float32
    mean[:] = np.add.reduce(raster[first:last], axis=0, dtype=exact)
    if first > top:
        mean += raster[first - 1] * np.float32(first - top)
    if bottom > last:
        mean += raster[last] * np.float32(bottom - last)
    mean /= np.float32(bottom - top)


def _columns(band: Band, across: Axis) -> Band:
    if across.pitch <= 1.0:
        before, after, share = across.neighbours()
        return band[:, before] * (1 - share) + band[:, after] * share
    edges = across.edges()
    whole = edges.astype(np.intp)
    part = edges - whole
    total = np.zeros((band.shape[0], band.shape[1] + 1))
    np.cumsum(band, axis=1, dtype=np.float64, out=total[:, 1:])
    inside = np.minimum(whole, band.shape[1] - 1)
    at_edges = total[:, whole] + band[:, inside] * part
    return (np.diff(at_edges, axis=1) / np.diff(edges)).astype(np.float32)
