"""The part of a plate's grid that is in view, one cell for each of the screen's pixels."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, QRect
from PySide6.QtGui import QImage

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Cells = NDArray[np.uint8]


@dataclass(frozen=True, slots=True, eq=False)
class Sample:
    """Cells as an indexed picture: ``seen`` is its place in the view, ``at`` that on the plate.

    Both are in the screen's pixels; ``at`` is measured from the plate's upper left corner.
    """

    seen: QRect
    at: QPoint
    image: QImage


class Sampling:
    """Takes samples, and keeps the last one as long as it holds."""

    def __init__(self) -> None:
        self._key: object = None
        self._kept: Sample | None = None

    def forget(self) -> None:
        """The grid, or the side it is seen from, is another."""
        self._kept = None

    def take(self, cells: "Cells", plate: QRect, view: QRect, *, mirrored: bool) -> Sample:
        """What of ``cells`` lies in ``view``, where they cover ``plate``."""
        seen = plate.intersected(view)
        key = (plate.getRect(), seen.getRect())
        if self._kept is None or key != self._key:
            at = seen.topLeft() - plate.topLeft()
            rows = _cells_under(at.y(), seen.height(), plate.height(), len(cells))
            columns = _cells_under(at.x(), seen.width(), plate.width(), cells.shape[1])
            if mirrored:
                columns = cells.shape[1] - 1 - columns
            taken = indexed(cells.take(rows, axis=0).take(columns, axis=1))
            self._key, self._kept = key, Sample(seen, at, taken)
        return self._kept


def indexed(values: "Cells") -> QImage:
    """Bytes as an indexed picture that owns them, still without colours."""
    import numpy as np

    height, width = values.shape
    data = np.ascontiguousarray(values).tobytes()
    return QImage(data, width, height, width, QImage.Format.Format_Indexed8).copy()


def values_of(image: QImage) -> "Cells":
    """The bytes of an indexed picture, (height, width), as a copy that outlives it."""
    import numpy as np

    height, width, stride = image.height(), image.width(), image.bytesPerLine()
    rows = np.frombuffer(image.constBits(), dtype=np.uint8).reshape(height, stride)
    return rows[:, :width].copy()


def _cells_under(start: int, count: int, pixels: int, cells: int) -> "NDArray[np.intp]":
    """The cell under the middle of each of ``count`` pixels, of ``pixels`` that cover them all."""
    import numpy as np

    at = (np.arange(start, start + count) + 0.5) * (cells / pixels)
    return np.clip(at.astype(np.intp), 0, cells - 1)
