"""Reads the tones of a proof: how dark each printed, and how surely."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from toneladder.optics import lightness
from toneladder.picture.light import Light
from toneladder.proof.laying import LaidProof, lay_proof
from toneladder.proof.notes import notes_on
from toneladder.proof.places import difference_map, differing_places
from toneladder.proof.values import (
    BoolArray,
    FloatArray,
    IndexArray,
    ProofReading,
    Raster,
    Registration,
    ToneArray,
    ToneReading,
)
from toneladder.scans.page import BARE_PAPER
from toneladder.scans.reading import SCAN_SPREAD
from toneladder.wording import say

MOST_ERODED_MM = 1.0
FEWEST_CELLS = 50
_GRAIN_MM = 0.5  # light is averaged over so much, so that grain is seen as its tone
_NARROW_MM = 0.3
_NARROW_SPREAD = 1.0
_UNPAPERED_SPREAD = 1.5
_BLOCK_MM = 6.0
_MANY_BLOCKS = 12
_LOOKED_MM, _SOFT_PX = 0.5, 3.0  # in from a border, where a scan no longer mixes two tones


def read_tones(
    light: Light,
    registration: Registration,
    tones: ToneArray,
    px_per_mm: float,
    planned: Sequence[float],
    *,
    paper: float = BARE_PAPER,
) -> ProofReading:
    """How dark every tone of a plate printed.

    The inner part of each tone is read: a millimetre in from its borders, or as far in as
    leaves 50 cells.

    Parameters
    ----------
    light : (height, width) array
        Linear luminance of the scan, 0 to 65535.
    registration : Registration
        How the print lies on the scan.
    tones : (rows, columns) array
        Tone of every cell of the plate's grid.
    px_per_mm : float
        Of that grid.
    planned : sequence of float
        CIE L* that each tone was to print.
    paper : float
        CIE L* of the bare paper.
    """
    laid = lay_proof(light, registration, tones.shape, px_per_mm, paper)
    looked_mm = max(_LOOKED_MM, _SOFT_PX / registration.px_per_mm)
    inner = _inner_parts(tones, laid.seen, len(planned), px_per_mm, looked_mm)
    soft = _soft_lightness(laid, tones, inner, px_per_mm)
    read = [_reading(part, laid, soft, planned[part.tone], px_per_mm) for part in inner]
    printed = {reading.tone: reading.printed_lightness for reading in read}
    unread = [tone for tone in range(len(planned)) if tone not in printed]
    return ProofReading(
        registration=registration,
        tones=tuple(read),
        unread=tuple(unread),
        places=differing_places(soft, tones, printed, px_per_mm),
        map=difference_map(soft, tones, planned, px_per_mm),
        notes=tuple(notes_on(read, unread, laid.paper_round, int((~laid.seen).sum()) / tones.size)),
    )


@dataclass(frozen=True, slots=True, eq=False)
class _Inner:
    """The cells of a tone that are read, as places of the flat grid, and how far in they lie.

    ``near`` are the cells, these among them, that are far enough in to be looked at.
    """

    tone: int
    cells: IndexArray
    near: IndexArray
    eroded_mm: float


def _inner_parts(
    tones: ToneArray, seen: BoolArray, count: int, px_per_mm: float, looked_mm: float
) -> list[_Inner]:
    from scipy import ndimage

    border = np.zeros(tones.shape, dtype=bool)
    border[:, 1:] |= tones[:, 1:] != tones[:, :-1]
    border[:, :-1] |= border[:, 1:]
    across = tones[1:] != tones[:-1]
    border[1:] |= across
    border[:-1] |= across
    padded = np.pad(~border & seen, 1)  # the plate's edge is a border too
    depth = ndimage.distance_transform_edt(padded)[1:-1, 1:-1].astype(np.float32).ravel()
    flat = tones.ravel()
    most = MOST_ERODED_MM * px_per_mm
    parts = []
    for tone in range(count):
        cells = np.flatnonzero((flat == tone) & seen.ravel())
        if cells.size < FEWEST_CELLS:
            continue
        depths = depth[cells]
        # the fifty deepest cells, all of them, if fewer lie a millimetre in
        far = min(most, float(np.partition(depths, -FEWEST_CELLS)[-FEWEST_CELLS]))
        near = cells[depths >= min(far, looked_mm * px_per_mm)]
        parts.append(_Inner(tone, cells[depths >= far], near, far / px_per_mm))
    return parts


def _soft_lightness(
    laid: LaidProof, tones: ToneArray, inner: Sequence[_Inner], px_per_mm: float
) -> Raster:
    """CIE L* (rows, columns) of the mean light about every cell that is read, else NaN.

    Only cells of the same tone that are read themselves are averaged.
    """
    from scipy import ndimage

    side = max(1, round(_GRAIN_MM * px_per_mm))
    soft = np.full(tones.shape, np.nan, np.float32)
    for part in inner:
        chosen = np.zeros(tones.size, dtype=bool)
        chosen[part.near] = True
        mask = chosen.reshape(tones.shape)
        rows, columns = np.divmod(part.near, tones.shape[1])
        box = slice(rows.min(), rows.max() + 1), slice(columns.min(), columns.max() + 1)
        weight = mask[box].astype(np.float32)
        sums = ndimage.uniform_filter(laid.light[box] * weight, side, mode="constant")
        counts = ndimage.uniform_filter(weight, side, mode="constant")
        mean = sums[mask[box]] / counts[mask[box]]
        soft[box][mask[box]] = lightness(np.maximum(mean, 0.0))
    return soft


def _reading(
    part: _Inner, laid: LaidProof, soft: Raster, planned: float, px_per_mm: float
) -> ToneReading:
    values = soft.ravel()[part.cells].astype(np.float64)
    printed = float(np.clip(np.median(values), 0.0, 100.0))
    low, high = (float(v) for v in np.quantile(values, [1 / 6, 5 / 6]))
    uneven = _unevenness(values, part.cells, soft.shape, px_per_mm)
    narrow = _NARROW_SPREAD if part.eroded_mm < _NARROW_MM else 0.0
    blind = 0.0 if laid.paper_round else _UNPAPERED_SPREAD
    spread = float(np.sqrt(SCAN_SPREAD**2 + uneven**2 + narrow**2 + blind**2))
    note = ""
    if part.eroded_mm < _NARROW_MM:
        note = say("Everywhere narrow: its neighbours show in the reading.")
    return ToneReading(
        tone=part.tone,
        planned_lightness=planned,
        printed_lightness=round(printed, 2),
        spread=round(spread, 2),
        cells=int(part.cells.size),
        low=round(low, 2),
        high=round(high, 2),
        note=note,
    )


def _unevenness(
    values: FloatArray, cells: IndexArray, shape: tuple[int, ...], px_per_mm: float
) -> float:
    """How uncertain the median is: half the middle two thirds of blocks, over their number."""
    rows, columns = np.divmod(cells, shape[1])
    side = _BLOCK_MM * px_per_mm
    block = (rows // side).astype(np.intp) * 4096 + (columns // side).astype(np.intp)
    _, number, count = np.unique(block, return_inverse=True, return_counts=True)
    means = np.bincount(number, weights=values) / count
    if len(means) < 2:
        low, high = np.quantile(values, [0.16, 0.84])
        return float(high - low) / 2.0
    mean = float(np.average(means, weights=count))
    strays = float(np.sqrt(np.average((means - mean) ** 2, weights=count)))
    return strays / float(np.sqrt(min(len(means), _MANY_BLOCKS) / 2.0))
