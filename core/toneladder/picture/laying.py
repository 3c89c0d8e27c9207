"""The plate is laid on the picture: which piece of it, how large, in how many cells."""

from dataclasses import dataclass
from fractions import Fraction
from math import floor, sqrt

import numpy as np
from numpy.typing import NDArray

from toneladder.errors import PlanError
from toneladder.picture.averaging import Axis, bands
from toneladder.picture.light import WHITE, Light
from toneladder.picture.opening import Picture
from toneladder.picture.values import MARK_CELLS, MOST_CELLS, PX_PER_MM, Grid, Laying, PlateSize
from toneladder.wording import say

_SHORTEST_MM = 5.0
_WORTH_SAYING = 0.005


@dataclass(frozen=True, slots=True, eq=False)
class Laid:
    """The picture on the plate's grid, as the print is seen.

    ``light`` is linear luminance, 0 to 1, (grid.height, grid.width).
    """

    light: NDArray[np.float32]
    notes: tuple[str, ...]


def plate_size_for(
    width: int, height: int, laying: Laying, longest_mm: float = 200.0
) -> PlateSize:
    """A plate in the proportions of the picture as laid, to a tenth of a millimetre."""
    across, down = _crop_sides(width, height, laying)
    scale = longest_mm / max(across, down)
    return PlateSize(
        max(_SHORTEST_MM, round(across * scale, 1)), max(_SHORTEST_MM, round(down * scale, 1))
    )


def grid_for(
    size: PlateSize, brush_mark_mm: float, brush_gap_mm: float
) -> tuple[Grid, tuple[str, ...]]:
    """The plate's working raster, and a warning where it is coarser than usual.

    Raises
    ------
    PlanError
        The brush is finer than the raster can hold.
    """
    px_per_mm, warnings = PX_PER_MM, ()
    most = sqrt(MOST_CELLS / (size.width_mm * size.height_mm))
    if px_per_mm > most:
        px_per_mm = floor(most * 100.0 - 0.5) / 100.0
        warnings = (
            say(
                "The plate is large: it is worked out at {px:.2g} cells to the millimetre "
                "instead of {usual:.0f}.",
                px=px_per_mm,
                usual=PX_PER_MM,
            ),
        )
    finest = min(brush_mark_mm, brush_gap_mm)
    if finest * px_per_mm < MARK_CELLS:
        raise PlanError(
            say(
                "A brush of {brush:.2g} mm is too fine for a plate of this size; "
                "the finest is {least:.2g} mm. No plan was made. Choose a wider brush.",
                brush=finest,
                least=MARK_CELLS / px_per_mm,
            )
        )
    grid = Grid(
        max(1, round(size.width_mm * px_per_mm)), max(1, round(size.height_mm * px_per_mm)), px_per_mm
    )
    return grid, warnings


def lay(picture: Picture, laying: Laying, size: PlateSize, grid: Grid) -> Laid:
    """Bring the picture to the plate's grid, in linear light.

    Cells are means over their area where the picture is finer than the grid; where it is
    coarser, light changes along straight lines between its pixels.

    Parameters
    ----------
    picture : Picture
        As opened.
    laying : Laying
        Crop, turn and mirror.
    size, grid : PlateSize, Grid
        The plate and its raster.
    """
    frame = _framed(picture.light, laying, size)
    light = np.empty((grid.height, grid.width), np.float32)
    if frame.angle_deg == 0.0:
        down = Axis(frame.top, frame.pitch(size, grid), grid.height, frame.light.shape[0])
        across = Axis(frame.left, frame.pitch(size, grid), grid.width, frame.light.shape[1])
        for rows, band in bands(frame.light, down, across):
            np.multiply(band, np.float32(1.0 / WHITE), out=light[rows])
    return Laid(light, _left_out(picture.light.shape, laying, size))


@dataclass(frozen=True, slots=True, eq=False)
class _Frame:
    """The plate's outline over the picture brought upright by quarter turns and mirrored.

    ``left``, ``top``, ``width`` and ``height`` are pixels of ``light``; the outline still has to
    be turned by ``angle_deg`` (-45..45) about its middle.
    """

    light: Light
    left: float
    top: float
    width: float
    height: float
    angle_deg: float

    def pitch(self, size: PlateSize, grid: Grid) -> float:
        """Pixels along one cell."""
        return self.width / (size.width_mm * grid.px_per_mm)


def _quarters(laying: Laying) -> int:
    return round(laying.turn_deg / 90.0)


def _crop_sides(width: float, height: float, laying: Laying) -> tuple[float, float]:
    """Sides of the crop as it is seen after its quarter turns, in pixels."""
    sides = width * laying.crop.width, height * laying.crop.height
    return sides[::-1] if _quarters(laying) % 2 else sides


def _framed(light: Light, laying: Laying, size: PlateSize) -> _Frame:
    crop = laying.crop
    middle = crop.x + crop.width / 2.0, crop.y + crop.height / 2.0
    for _ in range(_quarters(laying) % 4):
        middle = 1.0 - middle[1], middle[0]
    turned = np.rot90(light, -_quarters(laying))
    angle = laying.turn_deg - 90.0 * _quarters(laying)
    across, down = _crop_sides(light.shape[1], light.shape[0], laying)
    if laying.mirrored:
        turned, middle, angle = turned[:, ::-1], (1.0 - middle[0], middle[1]), -angle
    scale = min(across / size.width_mm, down / size.height_mm)
    width, height = size.width_mm * scale, size.height_mm * scale
    return _Frame(
        turned,
        middle[0] * turned.shape[1] - width / 2.0,
        middle[1] * turned.shape[0] - height / 2.0,
        width,
        height,
        angle,
    )


def _left_out(shape: tuple[int, ...], laying: Laying, size: PlateSize) -> tuple[str, ...]:
    """What the plate's proportions leave out of the picture, if it is worth saying."""
    across, down = _crop_sides(shape[1], shape[0], laying)
    kept = (across / down) / (size.width_mm / size.height_mm)
    lost = 1.0 - min(kept, 1.0 / kept)
    if lost < _WORTH_SAYING:
        return ()
    sentence = (
        "The picture is {picture} and the plate {plate}: {share:.0%} of its width is left out."
        if kept > 1.0
        else "The picture is {picture} and the plate {plate}: {share:.0%} of its height is left out."
    )
    return (
        say(
            sentence,
            picture=_proportion(across / down),
            plate=_proportion(size.width_mm / size.height_mm),
            share=lost,
        ),
    )


def _proportion(ratio: float) -> str:
    near = Fraction(ratio).limit_denominator(16) if ratio >= 1 else 1 / Fraction(1 / ratio).limit_denominator(16)
    return f"{near.numerator}:{near.denominator}"
