"""Where the plate's outline stands in the view, and how the picture lies under it: geometry."""

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QTransform

from toneladder.picture.placing import Placing
from toneladder.picture.values import PlateSize

FILLS = 0.7
"""Share of the view that the outline takes, so that what is left out can be seen round it."""


@dataclass(frozen=True, slots=True)
class Outline:
    """The plate in a view: its rectangle in pixels, and pixels to a millimetre."""

    rect: QRectF
    px_per_mm: float

    def mm(self, at: QPointF) -> tuple[float, float]:
        """A place of the view in millimetres of the plate."""
        away = (at - self.rect.topLeft()) / self.px_per_mm
        return away.x(), away.y()

    def px(self, mm: tuple[float, float]) -> QPointF:
        """A place of the plate in pixels of the view."""
        return self.rect.topLeft() + QPointF(*mm) * self.px_per_mm


def outline_in(width: float, height: float, size: PlateSize) -> Outline:
    """The outline in the middle of a view, in the plate's real proportions."""
    scale = FILLS * min(width / size.width_mm, height / size.height_mm)
    across, down = size.width_mm * scale, size.height_mm * scale
    rect = QRectF(round((width - across) / 2.0), round((height - down) / 2.0), across, down)
    return Outline(rect, scale)


def under(outline: Outline, placing: Placing, copy: tuple[int, int]) -> QTransform:
    """From pixels of the picture's small copy, of that width and height, to pixels of the view."""
    corners = placing.to_plate([(0.0, 0.0), (1.0, 0.0), (0.0, 1.0)])
    origin, right, low = (outline.px((float(x), float(y))) for x, y in corners)
    across, down = (right - origin) / copy[0], (low - origin) / copy[1]
    return QTransform(across.x(), across.y(), down.x(), down.y(), origin.x(), origin.y())
