"""A drawing of known lines and washes, separated, and held against what it was made of."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage
from skimage.morphology import skeletonize
from tests.core.lines.drawings import PX_PER_MM, Drawing, along, drawing, lightness

from toneladder.lines.separating import LineLayer, separate
from toneladder.lines.values import Lines

HARDER: Mapping[str, Mapping[str, Any]] = {
    "as it comes": {},
    "rough paper": {"noise": 2.0},
    "a soft scan": {"blur_cells": 0.9},
    "fine lines, 0.2 to 0.25 mm": {"widths_mm": (0.2, 0.25)},
    "wide lines, 0.8 to 1 mm": {"widths_mm": (0.8, 1.0), "size_mm": (60.0, 45.0)},
}
_BESIDE_MM = 1.0


@dataclass(frozen=True, slots=True)
class Outcome:
    """Shares of length found and of length that is none; how true the washes are beside lines.

    ``near`` is the share of the cells within a millimetre of a line whose local mean over 0.6 mm
    is within 1 L*, ``off`` their distance, root mean square; ``length`` what was measured of the
    lines' length, beside what was drawn.
    """

    found: float
    false: float
    near: float
    off: float
    length: float


def trial(seed: int, **changes: Any) -> Outcome:
    """Separate one drawing."""
    drawn = drawing(seed, **changes)
    done = separate(drawn.light, PX_PER_MM, Lines())
    hits = [on(stroke_cells, done.lines.mask) for stroke_cells in middles(drawn)]
    points = np.concatenate(hits)
    off = np.abs(_mean(done.washes) - _mean(drawn.washes))[beside(drawn)]
    return Outcome(
        found=float(points.mean()),
        false=false_share(done.lines, drawn),
        near=float((off < 1.0).mean()),
        off=float(np.sqrt((off**2).mean())),
        length=sum(done.lines.lengths_cm) / (0.005 * points.size),
    )


def middles(drawn: Drawing) -> list[NDArray[np.intp]]:
    """The cells under the middle of each stroke, (n, 2), every 0.05 mm, on the plate."""
    cells = [np.floor(along(stroke)[:, ::-1] * PX_PER_MM).astype(int) for stroke in drawn.strokes]
    return [at[((at >= 0) & (at < drawn.light.shape)).all(axis=1)] for at in cells]


def on(cells: NDArray[np.intp], mask: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Whether each of ``cells`` lies in ``mask`` or touches it."""
    near = ndimage.binary_dilation(mask, np.ones((3, 3)))
    touched: NDArray[np.bool_] = near[cells[:, 0], cells[:, 1]]
    return touched


def false_share(lines: LineLayer, drawn: Drawing) -> float:
    """The share of the found lines' length that lies on no ink."""
    middle = skeletonize(lines.mask)
    none = middle & (ndimage.maximum_filter(drawn.ink, 5) == 0.0)
    return float(none.sum() / max(middle.sum(), 1))


def beside(drawn: Drawing) -> NDArray[np.bool_]:
    """Cells near a line but not under it, away from splashes, which stay in the washes."""
    line = drawn.ink > 0.02
    near = ndimage.binary_dilation(line, iterations=round(_BESIDE_MM * PX_PER_MM))
    splashed = ndimage.maximum_filter(drawn.specks, 13) > 0.0
    cells: NDArray[np.bool_] = near & ~line & ~splashed
    return cells


def _mean(light: NDArray[np.float32]) -> NDArray[np.floating]:
    return lightness(ndimage.uniform_filter(light.astype(np.float64), 5))
