"""Plate sizes in common use: round numbers of millimetres, and of inches."""

from dataclasses import dataclass
from math import log

from toneladder.picture.values import PlateSize

_MM_PER_INCH = 25.4


@dataclass(frozen=True, slots=True)
class CommonSize:
    """A common plate, its longer side across; ``in_inches`` if it is sold by the inch."""

    size: PlateSize
    in_inches: bool


# common practice, no source
_MILLIMETRES = ((100, 100), (150, 100), (150, 150), (200, 150), (200, 200), (250, 200), (300, 200))
_MILLIMETRES_LARGE = ((300, 250), (300, 300), (400, 300), (500, 400), (600, 400), (600, 500))
_INCHES = ((4, 4), (5, 4), (6, 4), (6, 6), (7, 5), (8, 6), (8, 8), (9, 6), (10, 8), (12, 9))
_INCHES_LARGE = ((12, 12), (14, 11), (16, 12), (18, 12), (18, 14), (20, 16), (24, 18))


def common_sizes() -> tuple[CommonSize, ...]:
    """Plates in common use: those in millimetres, then those in inches, small ones first."""
    metric = [
        CommonSize(PlateSize(float(across), float(down)), in_inches=False)
        for across, down in _MILLIMETRES + _MILLIMETRES_LARGE
    ]
    inches = [
        CommonSize(PlateSize(_inches(across), _inches(down)), in_inches=True)
        for across, down in _INCHES + _INCHES_LARGE
    ]
    return (*metric, *inches)


def nearest_common(
    width: float, height: float, *, in_inches: bool = False, about_cm2: float = 400.0
) -> PlateSize:
    """The common plate nearest to a picture's shape, turned to stand or lie as the picture does.

    Parameters
    ----------
    width, height : float, above 0
        Of the picture, in any unit.
    in_inches : bool
        Look among the plates sold by the inch.
    about_cm2 : float, cm², above 0
        Among plates of the same shape the one nearest to this area is taken.
    """
    shape = abs(log(width / height))

    def apart(size: PlateSize) -> tuple[float, float]:
        off = abs(log(size.width_mm / size.height_mm) - shape)
        return round(off, 9), abs(log(size.area_cm2 / about_cm2))

    sizes = [common.size for common in common_sizes() if common.in_inches == in_inches]
    near = min(sizes, key=apart)
    return near if width >= height else PlateSize(near.height_mm, near.width_mm)


def _inches(count: int) -> float:
    return round(count * _MM_PER_INCH, 1)
