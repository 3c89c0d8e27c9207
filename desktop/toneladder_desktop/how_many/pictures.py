"""The pictures of the test strip: sampled once, coloured for every number of tones.

Tone numbers are taken, never averaged: a cell for every sample. There are two samples to a
window's pixel, so that on a coarse screen the painter mixes colours along a border, and on a
fine one every sample is a pixel. Another number of tones is another colour table.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from PySide6.QtGui import QImage, QPainter

from toneladder_desktop.drawing.colour_table import of_steps, of_tones, packed
from toneladder_desktop.how_many.piece import EVERYTHING, Piece

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from toneladder.preview.values import InkAndPaper
    from toneladder_desktop.how_many.work import Offered

    Cells = NDArray[np.uint8]

SAMPLES = 2
"""Samples to a pixel of the window, across and down."""


@dataclass(frozen=True, slots=True)
class Seen:
    """How large a piece is seen, in pixels of the window, and the screen's pixels to one."""

    width: float
    height: float
    ratio: float


@dataclass(frozen=True, slots=True, eq=False)
class _Taken:
    """The samples of a piece of a grid, and what they were taken from."""

    cells: "Cells"
    piece: Piece
    seen: Seen
    image: QImage


class Pictures:
    """The grid of one plate in its colours; remembers what it drew last."""

    def __init__(self) -> None:
        self._taken: dict[tuple[bool, int], _Taken] = {}
        self._kept: dict[int, tuple[object, QImage]] = {}
        self._tables: dict[int, tuple[Offered, InkAndPaper, list[int]]] = {}

    def picture(
        self,
        offered: "Offered",
        printing: "InkAndPaper",
        cells: "Cells",
        piece: Piece,
        seen: Seen,
    ) -> QImage:
        """A piece in one number of tones as it prints, in the screen's own pixels.

        ``cells`` is the plate's grid as the brush sees it; a number of tones that has tones of
        its own is taken from those. The last piece of every number is kept, the whole is not.
        """
        asked, request = offered.offer.asked, (offered, printing, piece, seen)
        kept = self._kept.get(asked)
        if kept is not None and kept[0] == request:
            return kept[1]
        indexed = self._sampled(offered, cells, piece, seen)
        indexed.setColorTable(self._table(offered, printing))
        image = _mixed(indexed, seen)
        if piece != EVERYTHING:
            self._kept[asked] = request, image
        return image

    def _sampled(self, offered: "Offered", cells: "Cells", piece: Piece, seen: Seen) -> QImage:
        """The samples of a piece; one set serves all numbers without tones of their own."""
        own = offered.tones
        source = cells if own is None else own
        slot = (piece == EVERYTHING, 0 if own is None else offered.offer.asked)
        taken = self._taken.get(slot)
        if taken is None or taken.cells is not source or (taken.piece, taken.seen) != (piece, seen):
            taken = _Taken(source, piece, seen, sampled(source, piece, seen.width, seen.height))
            self._taken[slot] = taken
        return QImage(taken.image)

    def _table(self, offered: "Offered", printing: "InkAndPaper") -> list[int]:
        asked = offered.offer.asked
        known = self._tables.get(asked)
        if known is None or known[0] is not offered or known[1] != printing:
            colours = of_steps if offered.tones is None else of_tones
            table = packed(colours(offered.offer.chosen, printing, None))
            self._tables[asked] = known = (offered, printing, table)
        return known[2]


def sampled(cells: "Cells", piece: Piece, width_px: float, height_px: float) -> QImage:
    """A piece of a grid, one cell under the middle of each sample.

    Parameters
    ----------
    cells : (h, w) array of uint8
        Steps of lightness, or tone numbers.
    piece : Piece
    width_px, height_px : float, pixels of the window
        How large it will be seen.

    Returns
    -------
    QImage
        8-bit indexed, without a colour table yet.
    """
    rows = _under(piece.y, piece.height, height_px, cells.shape[0])
    columns = _under(piece.x, piece.width, width_px, cells.shape[1])
    taken = np.ascontiguousarray(cells.take(rows, axis=0).take(columns, axis=1))
    height, width = taken.shape
    return QImage(taken.tobytes(), width, height, width, QImage.Format.Format_Indexed8).copy()


def _mixed(indexed: QImage, seen: Seen) -> QImage:
    """The samples in the screen's own pixels, their colours mixed where several fall on one."""
    width, height = round(seen.width * seen.ratio), round(seen.height * seen.ratio)
    if (indexed.width(), indexed.height()) == (width, height):
        return indexed.convertToFormat(QImage.Format.Format_RGB32)
    image = QImage(max(width, 1), max(height, 1), QImage.Format.Format_RGB32)
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    painter.drawImage(image.rect(), indexed)
    painter.end()
    return image


def _under(start: float, share: float, pixels: float, cells: int) -> "NDArray[np.intp]":
    """The cell under the middle of every sample of a stretch of the plate."""
    count = max(round(SAMPLES * pixels), 1)
    at = (start + share * (np.arange(count) + 0.5) / count) * cells
    return np.clip(at.astype(np.intp), 0, cells - 1)
