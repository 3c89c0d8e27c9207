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
from toneladder.picture.placing import crop_sides, placing_of, quarters
from toneladder.picture.turning import Askew
from toneladder.picture.values import MARK_CELLS, MOST_CELLS, PX_PER_MM, Grid, Laying, PlateSize
from toneladder.quantities import write_length, write_number, write_percent, written
from toneladder.wording import say

_SHORTEST_MM = 5.0
_WORTH_SAYING = 0.01
_STEP_PX_PER_MM = 0.01
_ALIKE = 0.003


@dataclass(frozen=True, slots=True, eq=False)
class Laid:
    """The picture on the plate's grid, as the print is seen.

    ``light`` is linear luminance, 0 to 1, (grid.height, grid.width).
    """

    light: NDArray[np.float32]
    notes: tuple[str, ...]


def plate_size_for(width: int, height: int, laying: Laying, longest_mm: float = 200.0) -> PlateSize:
    """A plate in the proportions of the picture as it is laid, to a tenth of a millimetre.

    No side is shorter than 5 mm, however long and thin the picture.
    """
    across, down = crop_sides((width, height), laying)
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
        The brush is finer than three cells of the raster.
    """
    most = sqrt(MOST_CELLS / (size.width_mm * size.height_mm))
    px_per_mm = min(PX_PER_MM, floor(most / _STEP_PX_PER_MM) * _STEP_PX_PER_MM)
    finest = min(brush_mark_mm, brush_gap_mm)
    if finest * px_per_mm < MARK_CELLS:
        raise PlanError(
            say(
                "A brush of {brush} is too fine for a plate of this size; the finest is "
                "{least}. No plan was made. Choose a wider brush.",
                brush=write_length(finest),
                least=write_length(MARK_CELLS / px_per_mm),
            )
        )
    width, height = (max(1, round(side * px_per_mm)) for side in (size.width_mm, size.height_mm))
    return Grid(width, height, px_per_mm), _coarser(px_per_mm)


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

    Returns
    -------
    Laid
        With notes on what the plate's proportions leave out, and on corners that reach over
        the picture, which are paper white.
    """
    frame = _framed(picture.light, laying, size, grid)
    light = np.empty((grid.height, grid.width), np.float32)
    beside = frame.into(light) / light.size
    light *= np.float32(1.0 / WHITE)
    return Laid(light, _left_out(_sides(picture.light), laying, size) + _corners(beside))


@dataclass(frozen=True, slots=True, eq=False)
class _Frame:
    """The plate's outline over the picture, which quarter turns and mirroring are done on.

    ``middle`` and ``reach`` (half of the plate's sides) are pixels of ``light``, ``pitch`` is the
    pixels along one cell; the picture is still to be turned by ``angle_deg`` (-45 to 45).
    """

    light: Light
    middle: tuple[float, float]
    reach: tuple[float, float]
    pitch: float
    angle_deg: float

    def into(self, cells: NDArray[np.float32]) -> float:
        """Fill the plate's cells with light (0..65535); how many of them have no picture."""
        if self.angle_deg == 0.0:
            self._into_upright(cells)
            return 0.0
        askew = Askew(self.light, self.middle, self.reach, self.pitch, self.angle_deg)
        nothing = 0.0
        for rows, band, beside in askew.bands(cells.shape[1], cells.shape[0]):
            cells[rows] = band
            nothing += beside
        return nothing

    def _into_upright(self, cells: NDArray[np.float32]) -> None:
        across, down = (
            Axis(middle - reach, self.pitch, number, length)
            for middle, reach, number, length in zip(
                self.middle, self.reach, cells.shape[::-1], self.light.shape[::-1], strict=True
            )
        )
        light = self.light
        if abs(light.strides[0]) < abs(light.strides[1]):  # rows lie far apart in memory
            light, cells, across, down = light.T, cells.T, down, across
        for rows, band in bands(light, down, across):
            cells[rows] = band


def _framed(light: Light, laying: Laying, size: PlateSize, grid: Grid) -> _Frame:
    placing = placing_of(laying, size, _sides(light))
    turns = quarters(laying.turn_deg)
    x, y = placing.middle[0] / light.shape[1], placing.middle[1] / light.shape[0]
    for _ in range(turns % 4):
        x, y = 1.0 - y, x
    seen, angle = np.rot90(light, -turns), laying.turn_deg - 90.0 * turns
    if laying.mirrored:
        seen, x, angle = seen[:, ::-1], 1.0 - x, -angle
    px_of_mm = placing.px_per_mm
    return _Frame(
        light=seen,
        middle=(x * seen.shape[1], y * seen.shape[0]),
        reach=(size.width_mm * px_of_mm / 2.0, size.height_mm * px_of_mm / 2.0),
        pitch=px_of_mm / grid.px_per_mm,
        angle_deg=angle,
    )


def _sides(light: Light) -> tuple[int, int]:
    return light.shape[1], light.shape[0]


def _coarser(px_per_mm: float) -> tuple[str, ...]:
    if px_per_mm == PX_PER_MM:
        return ()
    return (
        say(
            "The plate is large: it is worked out at {px} cells to the millimetre "
            "instead of {usual}.",
            px=write_number(px_per_mm),
            usual=write_number(PX_PER_MM),
        ),
    )


def _left_out(sides: tuple[int, int], laying: Laying, size: PlateSize) -> tuple[str, ...]:
    """What the plate's proportions leave out of the picture, if it is worth saying."""
    across, down = crop_sides(sides, laying)
    picture, plate = across / down, size.width_mm / size.height_mm
    lost = 1.0 - min(picture / plate, plate / picture)
    if lost < _WORTH_SAYING:
        return ()
    width = "The picture is {picture} and the plate {plate}: {share} of its width is left out."
    height = "The picture is {picture} and the plate {plate}: {share} of its height is left out."
    return (
        say(
            width if picture > plate else height,
            picture=_proportion(picture),
            plate=_proportion(plate),
            share=_percent(lost),
        ),
    )


def _corners(beside: float) -> tuple[str, ...]:
    if beside < _WORTH_SAYING / 100:
        return ()
    return (
        say(
            "Turned, the picture does not reach all corners: {share} of the plate is left paper "
            "white.",
            share=_percent(beside),
        ),
    )


def _percent(share: float) -> str:
    if share < 0.01:
        return say("less than {share}", share=write_percent(0.01))
    return write_percent(min(share, 0.99))


def _proportion(ratio: float) -> str:
    """Two small numbers that stand to each other as a width to a height, or nearly."""
    if ratio < 1.0:
        return ":".join(reversed(_proportion(1.0 / ratio).split(":")))
    near = Fraction(ratio).limit_denominator(9)
    if abs(ratio / float(near) - 1.0) < _ALIKE:
        return f"{near.numerator}:{near.denominator}"
    return f"{written().rounded(ratio, 2)}:1"
