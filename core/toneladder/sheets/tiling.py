"""What is larger than a page falls into pieces that overlap, each named by row and column."""

from dataclasses import dataclass
from itertools import pairwise
from math import ceil

from toneladder.boxes import Box

OVERLAP_MM = 10.0
"""How much of a drawing two neighbouring pages both show."""


@dataclass(frozen=True, slots=True)
class Tile:
    """The piece of a drawing that one page shows.

    ``row`` and ``column`` count from 0, of ``rows`` and ``columns``. ``shown`` is the piece, in
    millimetres of the drawing, with what its neighbours show too; ``own`` ends in the middle of
    every overlap, so that the own pieces of all tiles are the drawing, each place once.
    """

    row: int
    column: int
    rows: int
    columns: int
    shown: Box
    own: Box

    @property
    def name(self) -> str:
        """Its row as a letter and its column as a number, such as B3."""
        return tile_name(self.row, self.column)

    @property
    def whole(self) -> bool:
        """Whether the page shows the whole drawing."""
        return self.rows == self.columns == 1


def tile_name(row: int, column: int) -> str:
    """The name of a tile, both counted from 0.

    >>> tile_name(1, 2)
    'B3'
    """
    return f"{chr(ord('A') + row)}{column + 1}"


def tiles(
    width_mm: float, height_mm: float, room: tuple[float, float], overlap_mm: float = OVERLAP_MM
) -> tuple[Tile, ...]:
    """The fewest pieces that cover a drawing, all equally large, row by row.

    Parameters
    ----------
    width_mm, height_mm : float, > 0
        The drawing's size. It is never turned.
    room : (width, height)
        What a page can show, millimetres; each wider than ``overlap_mm``.
    overlap_mm : float, >= 0
        What neighbours both show.

    Returns
    -------
    tuple of Tile
        One if the whole drawing fits.
    """
    across = _pieces(width_mm, room[0], overlap_mm)
    down = _pieces(height_mm, room[1], overlap_mm)
    return tuple(
        Tile(
            row,
            column,
            len(down),
            len(across),
            Box(left, top, right - left, foot - top),
            Box(own_left, own_top, own_right - own_left, own_foot - own_top),
        )
        for row, ((top, foot), (own_top, own_foot)) in enumerate(down)
        for column, ((left, right), (own_left, own_right)) in enumerate(across)
    )


_Span = tuple[float, float]


def _pieces(length: float, room: float, overlap: float) -> tuple[tuple[_Span, _Span], ...]:
    """Along one side: what each piece shows, and what of it is its own."""
    count = 1 if length <= room else ceil((length - overlap) / (room - overlap))
    stride = (length - overlap) / count
    starts = [piece * stride for piece in range(count)]
    ends = [*(start + overlap for start in starts[1:]), length]
    seams = [0.0, *(start + overlap / 2 for start in starts[1:]), length]
    return tuple(zip(zip(starts, ends, strict=True), pairwise(seams), strict=True))
