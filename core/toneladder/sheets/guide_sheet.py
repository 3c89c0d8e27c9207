"""The value guide: the tones as they will print, at true size, to look at while painting.

A hatched map tells what to paint; it does not teach the eye. There is black ink alone, so the
greys are dots, coarse enough for a copier to keep.
"""

from collections.abc import Sequence
from datetime import date

import numpy as np
from numpy.typing import NDArray

from toneladder.boxes import Box
from toneladder.optics import FloatArray, luminance
from toneladder.order.values import Order
from toneladder.picture.values import Grid
from toneladder.plate.values import Plate
from toneladder.sheets.cell_dots import (
    SOLID,
    Layer,
    cells_box,
    dots_per_mm,
    dotted,
    field,
)
from toneladder.sheets.marks import A4, BoolArray, Paper, Sheet, frame
from toneladder.sheets.setting import Block
from toneladder.sheets.true_size import Drawing, true_size_sheets
from toneladder.sheets.true_size_frame import FIELD, Heading, sign
from toneladder.wording import say

SCREEN_MM = 0.6
"""Side of the square that holds two dots of the screen, one in its middle, one at its corners."""

TONER_LIGHTNESS = 15.0
"""Lightness, CIE L*, of a solid field from an office printer: an assumption."""

SCATTER = 2.0
"""How fully light is mixed in office paper, the n of Yule and Nielsen: an assumption."""


def guide_sheets(
    plate: Plate,
    order: Order,
    tones: NDArray[np.uint8],
    grid: Grid,
    *,
    made_on: date,
    paper: Paper = A4,
    lines: BoolArray | None = None,
) -> tuple[Sheet, ...]:
    """The tones in greys of black dots, true size, mirrored as on the plate.

    Parameters
    ----------
    plate, order : Plate, Order
        Title and size; the lightness that every tone prints.
    tones : (h, w) array of uint8
        The tone of every cell, as the print is seen.
    grid : Grid
        The cells on the plate.
    made_on : date
        The day that the sheet carries.
    paper : Paper
        The office paper, upright.
    lines : (h, w) array of bool, optional
        Cells of etched lines, as the print is seen; they are black.

    Returns
    -------
    tuple of Sheet
        One page if the plate fits; else pieces that overlap.
    """
    size = plate.size
    screens = _screens(order, grid)
    seen = tones[:, ::-1]
    layers = [Layer(seen == tone, screen) for tone, screen in enumerate(screens) if tone]
    if lines is not None:
        layers.append(Layer(lines[:, ::-1], SOLID))
    lying = cells_box(grid, size.width_mm)
    drawing = Drawing(
        heading=Heading(
            name=say("Value guide"),
            lies=say("Mirrored, as on the plate. To look at while you paint."),
            key=_key(screens, dots_per_mm(grid)),
        ),
        width_mm=size.width_mm,
        height_mm=size.height_mm,
        plate=Box(0.0, 0.0, size.width_mm, size.height_mm),
        marks=lambda shown: [dotted(layers, lying, shown, grid)],
    )
    return true_size_sheets([drawing], title=plate.title, made_on=made_on, paper=paper)


def coverages(lightness: Sequence[float]) -> FloatArray:
    """Share of black dots that stands for every tone; the bare paper stands for the first.

    Parameters
    ----------
    lightness : (n,) sequence, CIE L*
        What the tones print, the lightest first.

    Returns
    -------
    (n,) array, 0..1, solid where a tone is as dark as an office printer's black or darker.

    References
    ----------
    [YuleNielsen1951] the dot area of a reflectance, light being scattered in the paper.
    """
    light = luminance(lightness) ** (1.0 / SCATTER)
    black = luminance(TONER_LIGHTNESS) ** (1.0 / SCATTER)
    share: FloatArray = np.clip((light[0] - light) / max(float(light[0] - black), 1e-6), 0.0, 1.0)
    return share


def screen(coverage: float, period: int) -> BoolArray:
    """Dots on a lattice at 45 degrees that cover a share ``coverage`` of the paper.

    Parameters
    ----------
    coverage : float, 0..1
        To within half a dot of the period's square.
    period : int, >= 2, even
        Printed dots along the side of the square that repeats.
    """
    turn = 2.0 * np.pi * (np.arange(period) + 0.5) / period
    height = np.outer(np.cos(turn), np.cos(turn)).ravel()
    rank = np.empty(height.size, dtype=np.intp)
    rank[np.argsort(-height, kind="stable")] = np.arange(height.size)
    return np.asarray(rank.reshape(period, period) < round(coverage * height.size))


def _screens(order: Order, grid: Grid) -> list[BoolArray]:
    period = 2 * round(SCREEN_MM * dots_per_mm(grid) / 2)
    shares = coverages([tone.lightness for tone in order.tones])
    return [screen(float(share), period) for share in shares]


def _key(screens: Sequence[BoolArray], per_mm: float) -> tuple[Block, ...]:
    """Every tone as a field with its number."""
    return tuple(
        sign((field(FIELD, dots, per_mm), frame(FIELD, 0.13)), say("tone {tone}", tone=tone))
        for tone, dots in enumerate(screens)
    )
