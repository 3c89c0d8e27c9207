"""The piece of the picture that all columns of the test strip show."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_TRIED = 9
_GREYS = 32
_LOOKED_AT = 160


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of the plate, in shares (0..1) of its width and height, from its top left."""

    x: float
    y: float
    width: float
    height: float

    @classmethod
    def about(cls, x: float, y: float, width: float, height: float) -> "Piece":
        """The piece of that size whose middle is as near to (x, y) as the plate allows."""
        left = min(max(x - width / 2.0, 0.0), 1.0 - width)
        top = min(max(y - height / 2.0, 0.0), 1.0 - height)
        return cls(left, top, width, height)

    @property
    def middle(self) -> tuple[float, float]:
        """The place in its middle."""
        return self.x + self.width / 2.0, self.y + self.height / 2.0


EVERYTHING = Piece(0.0, 0.0, 1.0, 1.0)
"""The whole plate."""


def richest(cells: "NDArray[np.uint8]", width: float, height: float) -> Piece:
    """The piece of that size in which the picture has most greys, evenly mixed.

    Parameters
    ----------
    cells : (h, w) array of uint8
        Steps of lightness.
    width, height : float
        Shares of the plate.
    """
    import numpy as np

    rows = max(cells.shape[0] // _LOOKED_AT, 1)
    columns = max(cells.shape[1] // _LOOKED_AT, 1)
    few = cells[rows // 2 :: rows, columns // 2 :: columns] // (256 // _GREYS)
    tried = np.linspace(0.0, 1.0, _TRIED)
    pieces = [Piece.about(x, y, width, height) for y in tried for x in tried]

    def mixed(piece: Piece) -> float:
        top, left = round(piece.y * few.shape[0]), round(piece.x * few.shape[1])
        bottom = max(round((piece.y + height) * few.shape[0]), top + 1)
        right = max(round((piece.x + width) * few.shape[1]), left + 1)
        share = np.bincount(few[top:bottom, left:right].ravel(), minlength=_GREYS)
        share = share[share > 0] / share.sum()
        return -float((share * np.log(share)).sum())

    return max(pieces, key=mixed)
