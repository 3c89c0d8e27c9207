"""What lies under the loupe: which part of the plate, at which scale. Pure geometry."""

from dataclasses import dataclass
from math import ceil, floor


@dataclass(frozen=True, slots=True)
class Piece:
    """Some cells of the plate's grid: rows ``top`` to ``bottom``, columns ``left`` to ``right``."""

    left: int
    top: int
    right: int
    bottom: int


@dataclass(frozen=True, slots=True)
class Aim:
    """A square of the plate about a place, and how finely it is shown.

    ``x_mm``, ``y_mm`` is its middle as it prints, from the plate's upper left corner; ``pixels``
    of the screen show its ``width_mm``. Its pixels lie on one lattice that covers the whole
    plate, so that two squares of one width agree wherever they overlap.
    """

    x_mm: float
    y_mm: float
    width_mm: float
    pixels: int

    @property
    def um_per_px(self) -> float:
        """Micrometres to a pixel."""
        return self.width_mm * 1000.0 / self.pixels

    @property
    def left(self) -> int:
        """Its left edge, in pixels from the plate's."""
        return self.pixel(self.x_mm - self.width_mm / 2.0)

    @property
    def top(self) -> int:
        """Its upper edge, in pixels from the plate's."""
        return self.pixel(self.y_mm - self.width_mm / 2.0)

    def pixel(self, mm: float) -> int:
        """The pixel at so many millimetres from the plate's edge."""
        return floor(mm * 1000.0 / self.um_per_px + 0.5)

    def under(self, px_per_mm: float, shape: tuple[int, int]) -> Piece:
        """The cells under it; ``shape`` is the grid's (height, width)."""
        return self._piece(px_per_mm, shape, spare=0, block=1)

    def about(self, px_per_mm: float, shape: tuple[int, int]) -> Piece:
        """The cells under and about it: the same ones until it has moved by a quarter."""
        block = max(1, ceil(self.width_mm * px_per_mm / 4.0))
        return self._piece(px_per_mm, shape, spare=2, block=block)

    def _piece(self, px_per_mm: float, shape: tuple[int, int], *, spare: int, block: int) -> Piece:
        edges = []
        for middle_mm, cells in ((self.x_mm, shape[1]), (self.y_mm, shape[0])):
            half = self.width_mm / 2.0
            first = floor(((middle_mm - half) * px_per_mm - spare) / block) * block
            last = ceil(((middle_mm + half) * px_per_mm + spare) / block) * block
            edges.append((min(max(first, 0), cells), min(max(last, 0), cells)))
        (left, right), (top, bottom) = edges
        return Piece(left, top, right, bottom)
