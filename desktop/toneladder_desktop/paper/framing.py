"""Where the plate lies in the view: scale, place, and the way from pixels to millimetres."""

from dataclasses import dataclass, replace
from math import floor

from toneladder.picture.values import PlateSize

SURROUND_PX = 12.0
TRIMMED_PX = 34.0
FOOT_PX = 50.0
SMALLEST, LARGEST = 0.2, 40.0
"""Least and greatest scale, pixels to a millimetre."""


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle in pixels."""

    left: float
    top: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Framing:
    """How the plate is looked at.

    ``px_per_mm`` is the scale in the window's pixels; ``x_mm``, ``y_mm`` the place of the plate
    (from its top left corner, as it is seen) in the middle of the view; ``margin_mm`` how much
    paper shows round it.
    """

    px_per_mm: float
    x_mm: float
    y_mm: float
    margin_mm: float

    def plate(self, view: tuple[float, float], size: PlateSize) -> Box:
        """The plate's place in a view of that width and height."""
        return Box(
            view[0] / 2.0 - self.x_mm * self.px_per_mm,
            view[1] / 2.0 - self.y_mm * self.px_per_mm,
            size.width_mm * self.px_per_mm,
            size.height_mm * self.px_per_mm,
        )

    def place(self, view: tuple[float, float], x: float, y: float) -> tuple[float, float]:
        """What lies under a pixel of the view, millimetres from the plate's top left corner."""
        return (
            self.x_mm + (x - view[0] / 2.0) / self.px_per_mm,
            self.y_mm + (y - view[1] / 2.0) / self.px_per_mm,
        )

    def zoomed(self, factor: float, view: tuple[float, float], x: float, y: float) -> "Framing":
        """Nearer or further, with what lies under the pixel (x, y) staying there."""
        scale = min(max(self.px_per_mm * factor, SMALLEST), LARGEST)
        at = self.place(view, x, y)
        return replace(
            self,
            px_per_mm=scale,
            x_mm=at[0] - (x - view[0] / 2.0) / scale,
            y_mm=at[1] - (y - view[1] / 2.0) / scale,
        )

    def moved(self, dx: float, dy: float, size: PlateSize) -> "Framing":
        """The paper pushed by so many pixels; the middle of the view stays on the plate."""
        x_mm = min(max(self.x_mm - dx / self.px_per_mm, 0.0), size.width_mm)
        y_mm = min(max(self.y_mm - dy / self.px_per_mm, 0.0), size.height_mm)
        return replace(self, x_mm=x_mm, y_mm=y_mm)


def fitted(view: tuple[float, float], size: PlateSize, margin_mm: float | None = None) -> Framing:
    """The whole print in the view.

    Parameters
    ----------
    view : (width, height) in pixels
    size : PlateSize
    margin_mm : float, optional
        Of the whole sheet; None trims the paper to what a caption needs.
    """
    across, down = max(view[0] - 2 * SURROUND_PX, 1.0), max(view[1] - 2 * SURROUND_PX, 1.0)
    if margin_mm is None:
        wide, high = across - 2 * TRIMMED_PX, down - TRIMMED_PX - FOOT_PX
        scale = _within(min(wide / size.width_mm, high / size.height_mm))
        lower, margin_mm = (FOOT_PX - TRIMMED_PX) / scale, TRIMMED_PX / scale
    else:
        whole = size.width_mm + 2 * margin_mm, size.height_mm + 2 * margin_mm
        scale, lower = _within(min(across / whole[0], down / whole[1])), 0.0
    return Framing(scale, size.width_mm / 2.0, (size.height_mm + lower) / 2.0, margin_mm)


def snapped(box: Box, ratio: float) -> tuple[int, int, int, int]:
    """The box on whole device pixels: left, top, width, height; ``ratio`` to a window's pixel."""
    left, top = floor(box.left * ratio + 0.5), floor(box.top * ratio + 0.5)
    return left, top, max(1, round(box.width * ratio)), max(1, round(box.height * ratio))


def _within(scale: float) -> float:
    return min(max(scale, SMALLEST), LARGEST)
