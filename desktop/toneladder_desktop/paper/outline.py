"""The ring round one tone on the paper: white outside, black inside, seen on every grey."""

import numpy as np
from numpy.typing import NDArray
from PySide6.QtGui import QImage

from toneladder_desktop.paper.sampling import values_of

_WHITE, _BLACK = 0xFFFFFFFF, 0xFF000000


def ring(indexed: QImage, mask: NDArray[np.uint8], width_px: int) -> QImage:
    """Rings round the pixels of an indexed picture whose value is in the (256,) mask.

    Each of the two lines is ``width_px`` pixels wide, at least 1.
    """
    inside = mask.astype(np.bool_)[values_of(indexed)]
    height, width = inside.shape
    drawn = np.zeros((height, width), dtype=np.uint32)
    drawn[_grown(inside, width_px) & ~inside] = _WHITE
    drawn[_grown(~inside, width_px) & inside] = _BLACK
    return QImage(drawn.tobytes(), width, height, 4 * width, QImage.Format.Format_ARGB32).copy()


def _grown(area: NDArray[np.bool_], times: int) -> NDArray[np.bool_]:
    """The area with its neighbours above, below, left and right, so many times."""
    for _ in range(times):
        wider = area.copy()
        wider[1:] |= area[:-1]
        wider[:-1] |= area[1:]
        wider[:, 1:] |= area[:, :-1]
        wider[:, :-1] |= area[:, 1:]
        area = wider
    return area
