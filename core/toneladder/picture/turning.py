"""The plate lies askew on the picture."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import ceil, cos, hypot, radians, sin

import numpy as np
from numpy.typing import NDArray

from toneladder.picture.averaging import Axis, Band, Raster, bands
from toneladder.picture.light import WHITE

_FINER = 2
_BAND_CELLS = 250_000


@dataclass(frozen=True, slots=True, eq=False)
class Askew:
    """A grid that stands upright while the raster is turned clockwise under it.

    ``middle`` is the point that both turn about, in pixels from the raster's top left; ``reach``
    is how far the grid's first corner lies left of it and above it, ``pitch`` the length of a
    cell, both in pixels.
    """

    raster: Raster
    middle: tuple[float, float]
    reach: tuple[float, float]
    pitch: float
    angle_deg: float

    def bands(self, columns: int, rows: int) -> Iterator[tuple[slice, Band, float]]:
        """The raster on the grid, a band of rows at a time.

        Every cell is the mean of four points; where the raster is finer than these, it is
        averaged to their distance first.

        Yields
        ------
        slice, (rows, columns) float32 array, float
            Which rows, their light (white beside the raster), and how many of their cells lie
            beside the raster.
        """
        from scipy.ndimage import affine_transform

        source = self._reduced()
        step = max(1, _BAND_CELLS // columns)
        for start in range(0, rows, step):
            band = slice(start, min(start + step, rows))
            shape = (_FINER * (band.stop - start), _FINER * columns)
            matrix, offset = source.places(start)
            fine = affine_transform(
                source.raster,
                matrix,
                offset - 0.5,
                shape,
                np.float32,
                order=1,
                mode="nearest",
            )
            beside = self._beside(start, shape)
            fine[beside] = WHITE
            cells = fine.reshape(-1, _FINER, columns, _FINER).mean(axis=(1, 3))
            yield band, cells, np.count_nonzero(beside) / _FINER**2

    def places(self, first_row: int) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Where the fine points from ``first_row`` on lie, as (down, across) on the raster.

        Returns
        -------
        (2, 2) array, (2,) array
            ``matrix @ (row, column) + offset`` is the place of a fine point.
        """
        angle, fine = radians(self.angle_deg), self.pitch / _FINER
        turn = np.array([[cos(angle), -sin(angle)], [sin(angle), cos(angle)]])
        first = np.array([(_FINER * first_row + 0.5) * fine, 0.5 * fine])
        return turn * fine, turn @ (first - self.reach[::-1]) + self.middle[::-1]

    def _beside(self, first_row: int, shape: tuple[int, int]) -> NDArray[np.bool_]:
        matrix, offset = self.places(first_row)
        rows, columns = np.arange(shape[0])[:, None], np.arange(shape[1])[None, :]
        beside = np.zeros(shape, np.bool_)
        for (by_row, by_column), start, length in zip(
            matrix, offset, self.raster.shape, strict=True
        ):
            at = by_row * rows + (by_column * columns + start)
            beside |= (at < 0.0) | (at > length)
        return beside

    def _reduced(self) -> "Askew":
        """The same over a raster that is not finer than the points."""
        fine = self.pitch / _FINER
        if fine <= 1.0:
            return self
        radius = hypot(*self.reach) + self.pitch
        across, down = (
            self._part(middle, radius, length, fine)
            for middle, length in zip(self.middle, self.raster.shape[::-1], strict=True)
        )
        small = np.empty((down.cells, across.cells), np.float32)
        for rows, band in bands(self.raster, down, across):
            small[rows] = band
        x, y = self.middle
        return replace(
            self,
            raster=small,
            middle=((x - across.start) / fine, (y - down.start) / fine),
            reach=(self.reach[0] / fine, self.reach[1] / fine),
            pitch=float(_FINER),
        )

    @staticmethod
    def _part(middle: float, radius: float, length: int, pitch: float) -> Axis:
        first = min(max(0.0, middle - radius), length - 1.0)
        last = min(float(length), middle + radius)
        return Axis(first, pitch, max(1, ceil((last - first) / pitch)), length)
