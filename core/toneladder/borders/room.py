"""Room on a tracing: how wide every place is, and what is still free to be written on."""

from dataclasses import dataclass
from functools import cache, lru_cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from toneladder.optics import FloatArray
from toneladder.tones.parting import ToneArray

Point = tuple[float, float]
_Squares = tuple[slice, slice]

_FINEST_PER_MM = 4.0
_SOME = 9  # one square of a circle in so many tells that most are not free
_RADII = 64
_ABOUT = np.array([(0, 0), (0, 1), (1, 0), (0, -1), (-1, 0)])


@dataclass(frozen=True, slots=True)
class Spot:
    """The middle of the widest circle inside one place, mm as the print is seen."""

    tone: int
    x_mm: float
    y_mm: float
    radius_mm: float


@dataclass(frozen=True, slots=True, eq=False)
class Room:
    """What is written where, in squares of ``1 / per_mm`` mm.

    ``width_mm`` holds how far the middle of every square is from a border; ``taken`` is filled
    while numbers and leaders find their places.
    """

    per_mm: float
    width_mm: FloatArray
    taken: NDArray[np.bool_]

    def take(self, middles: ArrayLike, radius_mm: float) -> None:
        """Nothing else may be written within circles round ``middles`` (n, 2)."""
        rows, columns = self._squares(np.asarray(middles)[:, None] + self._disc(radius_mm))
        self.taken[rows, columns] = True

    def take_line(self, spot: Spot, end: Point, end_radius_mm: float) -> None:
        """Nothing else may be written on a leader."""
        line = self._line(spot, np.array([end]), end_radius_mm)[0]
        rows, columns = self._squares(line[:, None] + _ABOUT / self.per_mm)
        self.taken[rows, columns] = True

    def is_open(self, spot: Spot, end: Point, end_radius_mm: float) -> bool:
        """Whether a leader from ``spot`` to the circle round ``end`` meets nothing written."""
        rows, columns = self._squares(self._line(spot, np.array([end]), end_radius_mm))
        return not self.taken[rows, columns].any()

    def near(self, spot: Spot, radius_mm: float, offsets: FloatArray) -> Point | None:
        """The first free circle round ``spot``, clear of borders if there is one."""
        ends = np.array([spot.x_mm, spot.y_mm]) + offsets
        height, width = (side / self.per_mm for side in self.taken.shape)
        ends = ends[
            np.all((ends >= radius_mm) & (ends <= np.array([width, height]) - radius_mm), axis=1)
        ]
        for some in (self._disc(radius_mm)[::_SOME], self._disc(radius_mm)):
            rows, columns = self._squares(ends[:, None] + some)
            ends = ends[~self.taken[rows, columns].any(axis=1)]
            if not len(ends):
                return None
        rows, columns = self._squares(self._line(spot, ends, radius_mm))
        ends = ends[~self.taken[rows, columns].any(axis=1)]
        if not len(ends):
            return None
        rows, columns = self._squares(ends)
        clear = self.width_mm[rows, columns] >= radius_mm
        x, y = ends[np.argmax(clear)].tolist()
        return x, y

    def box_near(self, middles: FloatArray, size_mm: tuple[float, float]) -> Point | None:
        """The first free box of ``size_mm`` with its middle among ``middles`` (n, 2).

        One that is clear of borders is preferred.
        """
        half = np.array(size_mm) / 2.0
        height, width = (side / self.per_mm for side in self.taken.shape)
        inside = (middles >= half) & (middles <= np.array([width, height]) - half)
        middles = middles[np.all(inside, axis=1)]
        best: Point | None = None
        for middle, box in zip(middles.tolist(), self._boxes(middles, size_mm), strict=True):
            if self.taken[box].any():
                continue
            if (self.width_mm[box] > 0.0).all():
                return middle[0], middle[1]
            best = best or (middle[0], middle[1])
        return best

    def take_box(self, middle: Point, size_mm: tuple[float, float]) -> None:
        """Nothing else may be written in a box."""
        (box,) = self._boxes(np.array([middle]), size_mm)
        self.taken[box] = True

    def _squares(self, points: FloatArray) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
        """Rows and columns of points (..., 2), those beside the plate at its edge."""
        squares = np.floor(points * self.per_mm).astype(np.intp)
        height, width = self.taken.shape
        np.maximum(squares, 0, out=squares)
        return np.minimum(squares[..., 1], height - 1), np.minimum(squares[..., 0], width - 1)

    def _disc(self, radius_mm: float) -> FloatArray:
        """Offsets that fill a circle, (n, 2), mm."""
        return _disc(radius_mm, self.per_mm)

    def _boxes(self, middles: FloatArray, size_mm: tuple[float, float]) -> list[_Squares]:
        """The squares that boxes about ``middles`` (n, 2) touch."""
        half = np.array(size_mm) / 2.0
        (top, foot), (left, right) = zip(
            self._squares(middles - half), self._squares(middles + half), strict=True
        )
        sides = (side.tolist() for side in (top, foot, left, right))
        return [(slice(a, b + 1), slice(c, d + 1)) for a, b, c, d in zip(*sides, strict=True)]

    def _line(self, spot: Spot, ends: FloatArray, end_radius_mm: float) -> FloatArray:
        """Points of leaders from the rim of ``spot`` to the rim of circles, (m, n, 2), mm."""
        start = np.array([spot.x_mm, spot.y_mm])
        way = ends - start
        length = np.hypot(way[:, 0], way[:, 1])
        rims = np.array([spot.radius_mm, -end_radius_mm]) + np.array([2.0, -2.0]) / self.per_mm
        first, last = rims[0] / length, 1.0 + rims[1] / length
        count = int(length.max(initial=0.0) * self.per_mm * 1.5) + 2
        share = first[:, None] + (last - first)[:, None] * _evenly(count)
        line: FloatArray = start + share[..., None] * way[:, None]
        return line


@cache
def _evenly(count: int) -> FloatArray:
    shares: FloatArray = np.linspace(0.0, 1.0, count)
    shares.flags.writeable = False
    return shares


@lru_cache(maxsize=_RADII)
def _disc(radius_mm: float, per_mm: float) -> FloatArray:
    reach = int(radius_mm * per_mm) + 1
    across = np.arange(-reach, reach + 1) / per_mm
    disc: FloatArray = np.stack(np.meshgrid(across, across), axis=-1).reshape(-1, 2)
    disc = disc[np.hypot(disc[:, 0], disc[:, 1]) <= radius_mm]
    disc.flags.writeable = False
    return disc


def spots(tones: ToneArray, px_per_mm: float) -> tuple[list[Spot], Room]:
    """The widest circle of every place, and the room there is.

    Parameters
    ----------
    tones : (height, width) array of uint8
        Tone number of every cell.
    px_per_mm : float
        Cells to the millimetre.

    Notes
    -----
    Widths are taken on squares of about a quarter of a millimetre; they are up to one square
    too small, never too large. A place nowhere as wide as a square is not found at all.
    """
    from scipy import ndimage
    from skimage.measure import label

    side = max(1, int(px_per_mm / _FINEST_PER_MM))
    per_mm = px_per_mm / side
    tone = _squares_of_one_tone(tones, side)
    inner = tone >= 0
    inner[:, :-1] &= tone[:, :-1] == tone[:, 1:]
    inner[:-1] &= tone[:-1] == tone[1:]
    within = ndimage.distance_transform_edt(np.pad(inner, 1))[1:-1, 1:-1]
    width_mm = np.maximum(within - 0.5, 0.0) / per_mm
    place = label(np.where(inner, tone, -1), background=-1, connectivity=2)
    crest = inner & (within >= ndimage.maximum_filter(within, 3))
    rows, columns = np.nonzero(crest)
    order = np.lexsort((-width_mm[rows, columns], place[rows, columns]))
    _, first = np.unique(place[rows, columns][order], return_index=True)
    rows, columns = rows[order][first], columns[order][first]
    found = [
        Spot(int(tone[y, x]), (x + 0.5) / per_mm, (y + 0.5) / per_mm, float(width_mm[y, x]))
        for y, x in zip(rows.tolist(), columns.tolist(), strict=True)
    ]
    return found, Room(per_mm, width_mm, np.zeros(tone.shape, dtype=np.bool_))


def _squares_of_one_tone(tones: ToneArray, side: int) -> NDArray[np.int16]:
    """The tone of every square of ``side`` cells; -1 where a border runs through it."""
    height, width = (length // side * side for length in tones.shape)
    cut = tones[: max(height, side), : max(width, side)]
    rows = range(side)
    lightest, darkest = cut[0::side, 0::side], cut[0::side, 0::side]
    for dy in rows:
        for dx in rows:
            piece = cut[dy::side, dx::side]
            lightest, darkest = np.minimum(lightest, piece), np.maximum(darkest, piece)
    return np.where(lightest == darkest, lightest.astype(np.int16), np.int16(-1))
