"""What stands out from the paper as a long straight band: a strip perhaps, or a grey scale."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from toneladder.scans.page import BoolArray, FloatArray, Raster

_DROPS = (5.0, 12.0, 26.0)  # L* below the paper
_BRIDGED = (1, 5)  # pixels of paper between two patches that still belong together
_FINE_ENOUGH = 700
_LEAST_SIDE = 8.0
_LEAST_SHARE = 0.002
_MOST_SHARE = 0.75
_FILLED = 0.72
_ASPECT = 0.55
_SLANT = 0.35


@dataclass(frozen=True, slots=True, eq=False)
class Band:
    """A four-sided piece of the page, and the straight view of it.

    ``matrix`` (3, 3) takes (along, across, 1), both 0 to 1 inside the band, to pixels of the
    page, in perspective; beyond the ends it goes on along the same two lines.
    """

    matrix: FloatArray
    corners: FloatArray
    drop: float
    touches_rim: bool

    def to_page(self, along: FloatArray, across: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Pixels (x, y) of points of the band."""
        ones = np.ones(np.broadcast_shapes(along.shape, across.shape))
        x, y, w = np.tensordot(
            self.matrix, np.stack([along * ones, across * ones, ones]), axes=(1, 0)
        )
        return x / w, y / w


def bands_on(tone: Raster, paper: Raster) -> Iterator[Band]:
    """Every band that stands out from the paper, in both its directions, surest first.

    Parameters
    ----------
    tone, paper : (height, width) array
        CIE L* of the page and of the bare paper under it.
    """
    from scipy import ndimage

    step = max(1, round(max(tone.shape) / _FINE_ENOUGH))
    soft = ndimage.gaussian_filter(tone, 0.6 + 0.6 * step)[::step, ::step]
    bare = paper[::step, ::step]
    known: list[FloatArray] = []
    for drop in _DROPS:
        for bridged in _BRIDGED:
            dark = soft < bare - drop
            whole = _bridged(dark, bridged)
            names, _ = ndimage.label(whole)
            for number, box in enumerate(ndimage.find_objects(names), start=1):
                for small in _shapes(names[box] == number, box, soft.shape):
                    corners = (small - 0.5) * step + 0.5
                    if not any(np.abs(corners - old).max() < 2.0 * step for old in known):
                        known.append(corners)
                        yield from _both_ways(corners, drop, tone.shape)


def _bridged(dark: BoolArray, pixels: int) -> BoolArray:
    from scipy import ndimage

    rounded = ndimage.generate_binary_structure(2, 1)
    around = np.pad(dark, pixels)
    closed = ndimage.binary_closing(around, rounded, iterations=pixels)
    opened = ndimage.binary_opening(closed, rounded, iterations=2)
    return np.asarray(opened[pixels:-pixels, pixels:-pixels])


def _shapes(
    inside: BoolArray, box: tuple[slice, slice], shape: tuple[int, ...]
) -> Iterator[FloatArray]:
    """Corners (4, 2) of a piece that is four-sided and long enough, in pixels of the page."""
    from scipy import ndimage
    from scipy.spatial import ConvexHull, QhullError

    area = int(inside.sum())
    whole = shape[0] * shape[1]
    if not _LEAST_SHARE * whole < area < _MOST_SHARE * whole:
        return
    filled = ndimage.binary_fill_holes(inside)
    rim = filled & ~ndimage.binary_erosion(filled)
    rows, columns = np.nonzero(rim)
    points = np.stack([columns + box[1].start + 0.5, rows + box[0].start + 0.5], axis=1)
    try:
        hull = points[ConvexHull(points).vertices]
    except QhullError:
        return
    turn, size = _least_box(hull)
    if size.min() < _LEAST_SIDE or area < _FILLED * size.prod():
        return
    corners = _four_sides(points, turn)
    if corners is not None:
        yield corners


def _least_box(hull: FloatArray) -> tuple[FloatArray, FloatArray]:
    """The turn (2, 2) that lays a convex shape into the smallest box, and that box's sides."""
    sides = np.roll(hull, -1, axis=0) - hull
    best: tuple[FloatArray, FloatArray] | None = None
    for angle in np.unique(np.round(np.arctan2(sides[:, 1], sides[:, 0]) % (np.pi / 2), 4)):
        c, s = np.cos(angle), np.sin(angle)
        turn = np.array([[c, s], [-s, c]])
        laid = hull @ turn.T
        size = laid.max(axis=0) - laid.min(axis=0)
        if best is None or size.prod() < best[1].prod():
            best = turn, size
    turn, size = best if best is not None else (np.eye(2), np.zeros(2))
    if size[1] > size[0]:
        turn, size = np.array([turn[1], -turn[0]]), size[::-1]
    return turn, size


def _four_sides(points: FloatArray, turn: FloatArray) -> FloatArray | None:
    """Corners where the four straight sides of a rim meet; the longer two sides come first."""
    u, v = (points @ turn.T).T
    length, height = np.ptp(u), np.ptp(v)
    middle_u, middle_v = (u.max() + u.min()) / 2, (v.max() + v.min()) / 2
    inner_u = np.abs(u - middle_u) < 0.42 * length
    inner_v = np.abs(v - middle_v) < 0.36 * height
    long_sides = [
        _line(u[inner_u & half], v[inner_u & half]) for half in (v < middle_v, v >= middle_v)
    ]
    short_sides = [
        _line(v[inner_v & half], u[inner_v & half])
        for half in (u < middle_u - 0.3 * length, u > middle_u + 0.3 * length)
    ]
    if any(line is None or abs(line[1]) > _SLANT for line in (*long_sides, *short_sides)):
        return None
    top, bottom = (line for line in long_sides if line is not None)
    left, right = (line for line in short_sides if line is not None)
    ends = [_meet(top, left), _meet(top, right), _meet(bottom, right), _meet(bottom, left)]
    return np.asarray(np.array(ends) @ turn)


def _line(x: FloatArray, y: FloatArray) -> tuple[float, float] | None:
    """Offset and slope of y over x through most of the points."""
    if x.size < 6:
        return None
    keep = np.ones(x.shape, dtype=bool)
    offset = slope = 0.0
    for _ in range(6):
        slope, offset = np.polyfit(x[keep], y[keep], 1)
        off = np.abs(y - offset - slope * x)
        keep = off <= max(1.0, 2.0 * float(np.median(off)))
        if keep.sum() < 4:
            return None
    return float(offset), float(slope)


def _meet(along: tuple[float, float], across: tuple[float, float]) -> tuple[float, float]:
    """Where v = a + b u meets u = c + d v."""
    (a, b), (c, d) = along, across
    u = (c + d * a) / (1.0 - b * d)
    return u, a + b * u


def _both_ways(corners: FloatArray, drop: float, shape: tuple[int, ...]) -> Iterator[Band]:
    far = np.array([shape[1], shape[0]]) - 4.0
    touches = bool((corners < 4.0).any() or (corners > far).any())
    sides = np.linalg.norm(np.roll(corners, -1, axis=0) - corners, axis=1)
    yield Band(_matrix(corners), corners, drop, touches)
    if sides[[1, 3]].mean() > _ASPECT * sides[[0, 2]].mean():
        turned = np.roll(corners, -1, axis=0)
        yield Band(_matrix(turned), turned, drop, touches)


def _matrix(corners: FloatArray) -> FloatArray:
    """From the unit square to four corners, in perspective; the ends keep one direction."""
    top_left, top_right, bottom_right, bottom_left = corners
    # ends that are all but parallel are made parallel: so far apart, noise would bend the view
    tops, feet = top_right - top_left, bottom_right - bottom_left
    heights = np.linalg.norm([bottom_left - top_left, bottom_right - top_right], axis=1)
    end = (bottom_left - top_left) / heights[0] + (bottom_right - top_right) / heights[1]
    end /= np.linalg.norm(end)
    mid_left, mid_right = (top_left + bottom_left) / 2, (top_right + bottom_right) / 2
    corner = [
        _through(mid_left, end, top_left, tops),
        _through(mid_right, end, top_left, tops),
        _through(mid_right, end, bottom_left, feet),
        _through(mid_left, end, bottom_left, feet),
    ]
    rows, known = [], []
    for (s, t), (x, y) in zip(((0, 0), (1, 0), (1, 1), (0, 1)), corner, strict=True):
        rows += [[s, t, 1, 0, 0, 0, -s * x, -t * x], [0, 0, 0, s, t, 1, -s * y, -t * y]]
        known += [x, y]
    found = np.linalg.solve(np.array(rows, dtype=np.float64), np.array(known))
    return np.append(found, 1.0).reshape(3, 3)


def _through(
    start: FloatArray, way: FloatArray, other: FloatArray, other_way: FloatArray
) -> FloatArray:
    steps = np.linalg.solve(np.stack([way, -other_way], axis=1), other - start)
    return np.asarray(start + steps[0] * way)
