"""The way between the picture and the plate that lies on it, there and back; and laying it anew."""

from dataclasses import dataclass, replace
from math import atan2, cos, degrees, radians, sin

import numpy as np
from numpy.typing import ArrayLike

from toneladder.optics import FloatArray
from toneladder.picture.values import Crop, Laying, PlateSize

Point = tuple[float, float]

_FEWEST_PX = 16.0
_ALMOST = 1e-6
_QUARTER_COS = (1.0, 0.0, -1.0, 0.0)


@dataclass(frozen=True, slots=True)
class Placing:
    """How the plate lies on one picture.

    ``picture`` is the picture's width and height in pixels, ``middle`` the pixel under the
    plate's middle, ``px_per_mm`` the pixels under a millimetre of the plate. The picture is
    turned by ``turn_deg`` (clockwise) about that point, then mirrored left to right if asked.
    """

    size: PlateSize
    picture: tuple[int, int]
    middle: Point
    px_per_mm: float
    turn_deg: float
    mirrored: bool

    def to_picture(self, plate_mm: ArrayLike) -> FloatArray:
        """Points of the plate as shares of the picture.

        Parameters
        ----------
        plate_mm : (n, 2) array, millimetres
            Across and down from the plate's top left corner as the print is seen.

        Returns
        -------
        (n, 2) array
            Shares of the picture's width and height; outside 0..1 beside it.
        """
        from_middle = np.asarray(plate_mm, dtype=np.float64) - self._middle_mm()
        return (from_middle @ self._matrix().T + self.middle) / self.picture

    def to_plate(self, shares: ArrayLike) -> FloatArray:
        """Shares of the picture as points of the plate, the inverse of :meth:`to_picture`."""
        from_middle = np.asarray(shares, dtype=np.float64) * self.picture - self.middle
        return from_middle @ self._matrix() / self.px_per_mm**2 + self._middle_mm()

    def box_px(self) -> Point:
        """Sides in pixels of the plate's outline before it is turned out of the upright."""
        width, height = self.size.width_mm * self.px_per_mm, self.size.height_mm * self.px_per_mm
        return (height, width) if quarters(self.turn_deg) % 2 else (width, height)

    def reach_px(self) -> Point:
        """Sides in pixels of the upright box round the turned outline."""
        sides = np.array([self.size.width_mm, self.size.height_mm]) @ np.abs(self._matrix().T)
        return float(sides[0]), float(sides[1])

    def _middle_mm(self) -> FloatArray:
        return np.array([self.size.width_mm, self.size.height_mm]) / 2.0

    def _matrix(self) -> FloatArray:
        """Pixels of the picture for a step of one millimetre across, and one down (columns)."""
        c, s = _cos_sin(self.turn_deg)
        across = -1.0 if self.mirrored else 1.0
        return self.px_per_mm * np.array([[across * c, s], [-across * s, c]])


def placing_of(laying: Laying, size: PlateSize, picture: tuple[int, int]) -> Placing:
    """Where the plate lies if ``laying`` lays it on a picture of so many pixels."""
    crop = laying.crop
    across, down = crop_sides(picture, laying)
    return Placing(
        size=size,
        picture=picture,
        middle=(
            (crop.x + crop.width / 2.0) * picture[0],
            (crop.y + crop.height / 2.0) * picture[1],
        ),
        px_per_mm=min(across / size.width_mm, down / size.height_mm),
        turn_deg=laying.turn_deg,
        mirrored=laying.mirrored,
    )


def laying_of(placing: Placing) -> Laying:
    """The laying that lays the plate so: its crop is the plate's outline, set upright."""
    (width, height), sides = placing.picture, placing.box_px()
    share = (min(1.0, sides[0] / width), min(1.0, sides[1] / height))
    x, y = (
        min(max(0.0, middle / length - part / 2.0), 1.0 - part)
        for middle, length, part in zip(placing.middle, placing.picture, share, strict=True)
    )
    return Laying(Crop(x, y, *share), placing.turn_deg, placing.mirrored)


def moved(
    laying: Laying, size: PlateSize, picture: tuple[int, int], dx_mm: float, dy_mm: float
) -> Laying:
    """The picture moved under the plate, to the right and down as the print is seen."""
    here = placing_of(laying, size, picture)
    x, y = here.to_picture([_middle_of(size, -dx_mm, -dy_mm)])[0] * picture
    return _kept(replace(here, middle=(float(x), float(y))))


def scaled(
    laying: Laying, size: PlateSize, picture: tuple[int, int], factor: float, about_mm: Point
) -> Laying:
    """The picture grown ``factor`` times under the plate; what is under ``about_mm`` stays."""
    here = placing_of(laying, size, picture)
    finest = min(here.px_per_mm, here.px_per_mm * _FEWEST_PX / max(here.box_px()))
    unit = max(here.px_per_mm / factor, finest)
    wanted = _possible(replace(here, px_per_mm=unit))
    pinned = here.to_picture([about_mm])[0]
    slipped = (pinned - wanted.to_picture([about_mm])[0]) * picture
    x, y = wanted.middle + slipped
    return _kept(replace(wanted, middle=(float(x), float(y))))


def turned(laying: Laying, size: PlateSize, picture: tuple[int, int], degrees: float) -> Laying:
    """The picture turned about the plate's middle, clockwise as the print is seen."""
    here = placing_of(laying, size, picture)
    turn = here.turn_deg + (-degrees if here.mirrored else degrees)
    return _kept(replace(here, turn_deg=180.0 - (180.0 - turn) % 360.0))


def straightened(
    laying: Laying, size: PlateSize, picture: tuple[int, int], p_mm: Point, q_mm: Point
) -> Laying:
    """The picture turned so that two points of the plate come to lie level, or upright.

    Whichever is nearer; at most an eighth of a turn. Points that are one leave it as it is.
    """
    slope = degrees(atan2(q_mm[1] - p_mm[1], q_mm[0] - p_mm[0]))
    return turned(laying, size, picture, 90.0 * round(slope / 90.0) - slope)


def whole(laying: Laying) -> Laying:
    """As much of the picture as the plate can take about its middle; the turn is kept.

    Of a turned picture corners of the plate may stay bare; what the plate's proportions cannot
    take lies beside it.
    """
    return replace(laying, crop=Crop())


def filled(laying: Laying, size: PlateSize, picture: tuple[int, int]) -> Laying:
    """The largest piece of the picture that reaches every corner, moved no further than it must."""
    here = placing_of(laying, size, picture)
    most = min(
        length / side
        for sides in (here.reach_px(), here.box_px())
        for length, side in zip(picture, sides, strict=True)
    )
    return _kept(replace(here, px_per_mm=here.px_per_mm * most))


def bare_corners(laying: Laying, size: PlateSize, picture: tuple[int, int]) -> int:
    """How many of the plate's corners have no picture under them."""
    shares = _corners(laying, size, picture)
    return int(np.count_nonzero(np.any((shares < -_ALMOST) | (shares > 1.0 + _ALMOST), axis=1)))


def share_taken(laying: Laying, size: PlateSize, picture: tuple[int, int]) -> float:
    """Share (0..1) of the picture's area that lies under the plate.

    The plate's outline is cut at each side of the picture in turn; the area of what is left is
    that of any polygon, by the sum of its crossed coordinates.
    """
    outline = list(_corners(laying, size, picture))
    for axis, side, inward in ((0, 0.0, 1.0), (0, 1.0, -1.0), (1, 0.0, 1.0), (1, 1.0, -1.0)):
        outline = _cut(outline, axis, side, inward)
    ends = [*outline[1:], *outline[:1]]
    twice = sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(outline, ends, strict=True))
    return min(abs(float(twice)) / 2.0, 1.0)


def quarters(turn_deg: float) -> int:
    """How many quarter turns are nearest to a turn."""
    return round(turn_deg / 90.0)


def crop_sides(picture: tuple[int, int], laying: Laying) -> Point:
    """Sides of the crop as it is seen after its quarter turns, in pixels."""
    across, down = picture[0] * laying.crop.width, picture[1] * laying.crop.height
    return (down, across) if quarters(laying.turn_deg) % 2 else (across, down)


def _corners(laying: Laying, size: PlateSize, picture: tuple[int, int]) -> FloatArray:
    """The plate's corners, going round, as shares (4, 2) of the picture's sides."""
    width, height = size.width_mm, size.height_mm
    corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
    return placing_of(laying, size, picture).to_picture(corners)


def _cut(outline: list[FloatArray], axis: int, side: float, inward: float) -> list[FloatArray]:
    """What of a convex outline lies on the inward half of one side."""
    kept = list[FloatArray]()
    for a, b in zip(outline, [*outline[1:], *outline[:1]], strict=True):
        here, there = inward * (a[axis] - side), inward * (b[axis] - side)
        if here >= 0.0:
            kept.append(a)
        if here * there < 0.0:
            kept.append(a + (b - a) * here / (here - there))
    return kept


def _kept(placing: Placing) -> Laying:
    """The nearest laying whose plate keeps on the picture, as far as it can."""
    here = _possible(placing)
    x, y = (
        _held(_held(middle, reach, length), box, length)
        for middle, reach, box, length in zip(
            here.middle, here.reach_px(), here.box_px(), here.picture, strict=True
        )
    )
    return laying_of(replace(here, middle=(x, y)))


def _possible(placing: Placing) -> Placing:
    """The nearest size at which the upright outline is inside the picture."""
    box, unit = placing.box_px(), placing.px_per_mm
    most = min(unit * length / side for length, side in zip(placing.picture, box, strict=True))
    return replace(placing, px_per_mm=min(unit, most))


def _held(middle: float, side: float, length: float) -> float:
    """``middle`` so that a piece of ``side`` stays inside ``length``, or that inside of it."""
    low, high = sorted((side / 2.0, length - side / 2.0))
    return min(max(middle, low), high)


def _middle_of(size: PlateSize, dx_mm: float, dy_mm: float) -> Point:
    return size.width_mm / 2.0 + dx_mm, size.height_mm / 2.0 + dy_mm


def _cos_sin(turn_deg: float) -> tuple[float, float]:
    """Cosine and sine, exact at quarter turns."""
    turns = quarters(turn_deg)
    rest = radians(turn_deg - 90.0 * turns)
    c, s = _QUARTER_COS[turns % 4], _QUARTER_COS[(turns - 1) % 4]
    return c * cos(rest) - s * sin(rest), s * cos(rest) + c * sin(rest)
