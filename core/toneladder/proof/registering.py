"""Lays the plan on a scan of its proof, or says that this is no proof of this plate."""

from collections.abc import Sequence

import numpy as np

from toneladder.errors import ProofError
from toneladder.picture.light import WHITE, Light
from toneladder.proof.layers import Layers, halved, layers_of, merged
from toneladder.proof.page_tone import page_tone, reduced
from toneladder.proof.seeking import CELLS, GROUPS, Start, starts
from toneladder.proof.settling import likeness, residual_mm, settled
from toneladder.proof.values import FloatArray, Point, Raster, Registration, ToneArray
from toneladder.wording import say

MM_PER_INCH = 25.4

LEAST_LIKENESS = 0.25

_LONGEST = 2000
_TURNS = (0.0, 2.0, -2.0, 4.0, -4.0)
_QUARTERS = (0.0, 180.0, 90.0, 270.0)
_STEP = 0.04
_AROUND = 0.12
_SMALLEST, _LARGEST = 0.3, 1.25
_TRIED_CELLS = 130
_JUDGED_CELLS = 260


def register(
    light: Light,
    tones: ToneArray,
    px_per_mm: float,
    *,
    dpi: float | None = None,
    corners: Sequence[Point] | None = None,
) -> Registration:
    """How a print of the plate lies on its scan.

    Parameters
    ----------
    light : (height, width) array
        Linear luminance of the scan, 0 to 65535.
    tones : (rows, columns) array
        Tone of every cell of the plate's grid, as printed. How dark each of them was to be does
        not matter here, nor in which order they printed.
    px_per_mm : float
        Of the plate's grid.
    dpi : float, optional
        The scan's resolution. Without it, and where it proves wrong, every size of the print
        on the page is tried.
    corners : four points, optional
        The plate's corners on the scan from its top left clockwise, as somebody marked them.

    Raises
    ------
    ProofError
        The scan does not look like this plate.
    """
    levels = _levels(tones, px_per_mm)
    pitch = max(1.0, max(light.shape) / _LONGEST)
    small = reduced(light, pitch) / np.float32(WHITE)
    best: tuple[float, FloatArray] | None = None
    for tried in _tries(small, pitch, levels, tones.shape, px_per_mm, dpi, corners):
        found = _judged(small, levels, tried)
        if found is not None and (best is None or found[0] > best[0]):
            best = found
        if best is not None and best[0] >= LEAST_LIKENESS:
            break
    if best is None or best[0] < LEAST_LIKENESS:
        raise ProofError(not_this_plate())
    score, matrix = best
    return _registration(light, small, pitch, levels[0], matrix, score, tones.shape, px_per_mm, dpi)


def not_this_plate() -> str:
    """The sentence for a scan of something else."""
    return say(
        "This does not look like this plate. Nothing was changed. Choose the scan of its proof,"
        " or mark the four corners of the plate on it."
    )


def _levels(tones: ToneArray, px_per_mm: float) -> list[Layers]:
    """The plate's layers, finest first, down to few cells."""
    levels = [layers_of(tones, px_per_mm)]
    while max(levels[-1].shares.shape) > 1.3 * CELLS:
        levels.append(halved(levels[-1]))
    return levels


def _tries(small, pitch, levels, shape, px_per_mm, dpi, corners):  # noqa
    """Lists of places to start from, the likeliest first."""
    size = np.array(shape[::-1]) / px_per_mm
    if corners is not None:
        yield [Start(_from_corners(corners, size) / pitch, 1.0)]
        return
    coarse = merged(levels[-1], GROUPS)
    fits = min(np.array(small.shape[::-1]) / size)
    every = fits * np.exp(np.arange(np.log(_LARGEST), np.log(_SMALLEST), -_STEP))
    if dpi is not None:
        known = dpi / MM_PER_INCH / pitch
        near = known * np.exp(np.arange(-_AROUND, _AROUND + 1e-9, _STEP))
        yield starts(small, coarse, near, _TURNS)
    for quarter in _QUARTERS:
        yield starts(small, coarse, every, [turn + quarter for turn in _TURNS])


def _from_corners(corners: Sequence[Point], size: FloatArray) -> FloatArray:
    """The map (2, 3) that fits four corners best."""
    w, h = size
    plate = np.array([[0, 0, 1], [w, 0, 1], [w, h, 1], [0, h, 1]], dtype=np.float64)
    found, *_ = np.linalg.lstsq(plate, np.asarray(corners, dtype=np.float64), rcond=None)
    return np.asarray(found.T)


def _judged(
    small: Raster, levels: list[Layers], tried: Sequence[Start]
) -> tuple[float, FloatArray] | None:
    """The best of some starts, settled, and how well it explains the scan."""
    rough = next(level for level in reversed(levels) if max(level.shares.shape) >= 60)
    judge = next((x for x in reversed(levels) if max(x.shares.shape) >= 120), levels[0])
    found = []
    for start in tried:
        matrix = _settle(small, rough, start.matrix)
        if _likely(matrix, start.matrix):
            found.append((_like(small, rough, matrix), matrix))
    found.sort(key=lambda pair: -pair[0])
    better = []
    for _, matrix in found[:3]:
        settled_here = _settle(small, judge, matrix)
        better.append((_like(small, judge, settled_here), settled_here))
    return max(better, key=lambda pair: pair[0]) if better else None


def _page_for(small: Raster, level: Layers, matrix: FloatArray):  # noqa
    size = np.sqrt(abs(np.linalg.det(matrix[:, :2])))
    return page_tone(small, float(size * level.pitch_mm), white=1.0)


def _settle(small: Raster, level: Layers, matrix: FloatArray) -> FloatArray:
    return settled(_page_for(small, level, matrix), level, matrix)


def _like(small: Raster, level: Layers, matrix: FloatArray) -> float:
    return likeness(_page_for(small, level, matrix), level, matrix)


def _likely(matrix: FloatArray, start: FloatArray) -> bool:
    """Whether a map is still one of a print that lies flat, near where it started."""
    now, before = np.linalg.det(matrix[:, :2]), np.linalg.det(start[:, :2])
    if not 0.7 < now / before < 1.4:
        return False
    large, least = np.linalg.svd(matrix[:, :2], compute_uv=False)
    return bool(large / least < 1.12)


def _registration(light, small, pitch, finest, matrix, score, shape, px_per_mm, dpi):  # noqa
    matrix = _settle(small, finest, matrix)
    page = _page_for(small, finest, matrix)
    residual = residual_mm(page, finest, matrix)
    matrix = matrix * pitch
    size = np.array(shape[::-1]) / px_per_mm
    linear = matrix[:, :2]
    px = float(np.sqrt(np.linalg.det(linear)))
    turn = float(np.degrees(np.arctan2(linear[1, 0], linear[0, 0])))
    angle = np.radians(turn)
    upright = np.array([[np.cos(angle), np.sin(angle)], [-np.sin(angle), np.cos(angle)]]) @ linear
    middle = matrix @ [*(size / 2.0), 1.0] - np.array(light.shape[::-1]) / 2.0
    known = px_per_mm if dpi is None else dpi / MM_PER_INCH
    rows = tuple(tuple(float(v) for v in row) for row in matrix)
    return Registration(
        matrix=rows,
        rotation_deg=turn,
        scale=px / known,
        shift_mm=(float(middle[0] / px), float(middle[1] / px)),
        shear=float(upright[0, 1] / upright[1, 1]),
        residual_mm=residual,
        score=score,
        confidence=float(np.clip((score - LEAST_LIKENESS) / (1.0 - LEAST_LIKENESS), 0.0, 1.0)),
    )
