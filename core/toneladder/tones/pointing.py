"""From a point, or a line drawn with the hand, to the place that a note speaks of."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike

from toneladder.errors import PlanError
from toneladder.optics import FloatArray
from toneladder.picture.placing import Placing, Point
from toneladder.tones.boxes import Box, around
from toneladder.tones.limits import MOST_POINTS
from toneladder.tones.outlines import outlines
from toneladder.tones.parting import ToneArray
from toneladder.tones.simplifying import simplified
from toneladder.wording import say

Rings = tuple[tuple[Point, ...], ...]

_TOLERANCE_CELLS = 0.4
_OVER_THE_EDGE = 2
_TOLERANCE_MM = 0.1
_DECIMALS = 6


def place_at(tones: ToneArray, point_mm: Point, placing: Placing, px_per_mm: float) -> Rings:
    """The outlines of the connected area of one tone under a point of the plate.

    Parameters
    ----------
    tones : (height, width) array of uint8
        Tone number of every cell.
    point_mm : across and down from the plate's top left, as the print is seen
    placing : Placing
        How the plate lies on its picture.
    px_per_mm : float
        Cells to the millimetre.

    Returns
    -------
    Closed outlines in shares of the whole picture, holes among them; a little over the plate's
    edge where the place reaches it. Brought back to the plate they hold the same cells, but for
    some at the border.

    Raises
    ------
    PlanError
        The point lies beside the plate.
    """
    from scipy import ndimage

    column, row = (int(np.floor(side * px_per_mm)) for side in point_mm)
    if not (0 <= row < tones.shape[0] and 0 <= column < tones.shape[1]):
        raise PlanError(say("There is no plate at this point. Nothing was changed."))
    pieces, _ = ndimage.label(tones == tones[row, column], structure=np.ones((3, 3)))
    piece = pieces == pieces[row, column]
    (box,) = around(piece, (slice(0, len(piece)), slice(0, piece.shape[1])))
    wider = np.pad(piece, _OVER_THE_EDGE, mode="edge")[_grown_by(box, 2 * _OVER_THE_EDGE)]
    found = outlines(wider, _TOLERANCE_CELLS, MOST_POINTS)
    corner = (box[1].start - _OVER_THE_EDGE, box[0].start - _OVER_THE_EDGE)
    return tuple(_shares((ring + corner) / px_per_mm, placing) for ring in found)


def ring_of(drawn_mm: Sequence[Point] | ArrayLike, placing: Placing) -> Rings:
    """The outline of a place drawn round on the plate, in shares of the whole picture.

    Parameters
    ----------
    drawn_mm : (n, 2) points, millimetres
        As the hand went; the last is joined to the first.
    placing : Placing
        How the plate lies on its picture.

    Raises
    ------
    PlanError
        The line goes round nothing.
    """
    drawn: FloatArray = np.asarray(drawn_mm, dtype=np.float64).reshape(-1, 2)
    tolerance, rings = _TOLERANCE_MM, simplified([drawn], _TOLERANCE_MM)
    while sum(map(len, rings)) > MOST_POINTS:
        tolerance *= 2.0
        rings = simplified([drawn], tolerance)
    if not rings:
        raise PlanError(
            say("The line goes round no place. No note was made; draw round the place.")
        )
    return tuple(_shares(ring, placing) for ring in rings)


def _grown_by(box: Box, cells: int) -> Box:
    return slice(box[0].start, box[0].stop + cells), slice(box[1].start, box[1].stop + cells)


def _shares(ring_mm: FloatArray, placing: Placing) -> tuple[Point, ...]:
    shares = placing.to_picture(ring_mm).round(_DECIMALS)
    return tuple((float(x), float(y)) for x, y in shares)
