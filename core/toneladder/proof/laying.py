"""The scan laid on the plate's grid in even light, absolute where bare paper is seen round it."""

from dataclasses import dataclass, field

import numpy as np

from toneladder.optics import luminance
from toneladder.picture.light import WHITE, Light
from toneladder.proof.page_tone import reduced
from toneladder.proof.values import BoolArray, FloatArray, Raster, Registration
from toneladder.scans.page import lamp, page_of

_OFF_MM, _FAR_MM = 3.0, 40.0  # bare paper is looked for so far round the plate: mark and bevel off
_LEAST_SHARE = 0.02  # of a side's strip of paper
_CURVED, _LEANING = 3, 2  # sides of paper that tell how light bends, and how it leans
_LAMP_LONGEST = 500
_ROUNDS = 4


@dataclass(frozen=True, slots=True, eq=False)
class LaidProof:
    """The print on the plate's grid.

    ``light`` (rows, columns) is linear, 0 to 1; ``seen`` says which cells lie on the scan, and
    ``paper_round`` on how many sides of the plate bare paper was seen.
    """

    light: Raster = field(repr=False)
    seen: BoolArray = field(repr=False)
    paper_round: int


def lay_proof(
    light: Light,
    registration: Registration,
    shape: tuple[int, int],
    px_per_mm: float,
    paper: float,
) -> LaidProof:
    """Bring a scan to the plate's grid.

    Bare paper on two sides of the plate or more evens the light, on one side it says how bright
    the light is, and nothing else does either.

    Parameters
    ----------
    light : (height, width) array
        Linear luminance of the scan, 0 to 65535.
    registration : Registration
        How the print lies on it.
    shape : rows and columns of the plate's grid
    px_per_mm : float
        Of that grid.
    paper : float
        CIE L* of the bare paper.
    """
    pitch = max(1.0, registration.px_per_mm / px_per_mm)
    page = reduced(light, pitch) / np.float32(WHITE)
    glow, sides = _glow(light, registration, shape, px_per_mm)
    laid, seen = _on_grid(page, max(1.0, pitch), registration, shape, px_per_mm)
    if sides:
        scale = max(light.shape) / max(glow.shape)
        lit, _ = _on_grid(glow, scale, registration, shape, px_per_mm)
        laid = (laid / np.maximum(lit, 1e-4) * luminance(paper)).astype(np.float32)
    return LaidProof(laid, seen, sides)


def _on_grid(
    page: Raster, pitch: float, registration: Registration, shape: tuple[int, int], px: float
) -> tuple[Raster, BoolArray]:
    """A raster of the scan, whose pixels are ``pitch`` of the scan's, on the plate's grid."""
    from scipy import ndimage

    (a, b, c), (d, e, f) = registration.matrix
    linear = np.array([[e, d], [b, a]]) / px / pitch  # rows and columns, down first
    start = np.array([f, c]) / pitch + linear @ [0.5, 0.5] - 0.5
    laid = ndimage.affine_transform(
        page, linear, start, output_shape=shape, order=1, mode="nearest", output=np.float32
    )
    rows, columns = np.ogrid[: shape[0], : shape[1]]
    down = linear[0, 0] * rows + linear[0, 1] * columns + start[0]
    across = linear[1, 0] * rows + linear[1, 1] * columns + start[1]
    height, width = page.shape
    seen = (down > -0.5) & (down < height - 0.5) & (across > -0.5) & (across < width - 0.5)
    return laid, seen


def _glow(
    light: Light, registration: Registration, shape: tuple[int, int], px_per_mm: float
) -> tuple[Raster, int]:
    """How bright paper looks all over the page, and on how many sides of the plate it is seen."""
    page = page_of(light, _LAMP_LONGEST)
    (a, b, c), (d, e, f) = registration.matrix
    back = np.linalg.inv(np.array([[a, b, c], [d, e, f], [0.0, 0.0, 1.0]]))
    rows, columns = np.ogrid[: page.light.shape[0], : page.light.shape[1]]
    across = (columns + 0.5) * page.scale
    down = (rows + 0.5) * page.scale
    x = back[0, 0] * across + back[0, 1] * down + back[0, 2]
    y = back[1, 0] * across + back[1, 1] * down + back[1, 2]
    width, height = shape[1] / px_per_mm, shape[0] / px_per_mm
    beyond = np.stack([-x, x - width, -y, y - height])  # left, right, above, below
    off = beyond.max(axis=0)
    bare = (off > _OFF_MM) & (off < _FAR_MM) & _as_light_as_paper(page.light, off > _OFF_MM)
    which = beyond.argmax(axis=0)
    plate_px = registration.px_per_mm / page.scale
    needed = [_LEAST_SHARE * plate_px**2 * side * side for side in (height, height, width, width)]
    sides = [int((bare & (which == n)).sum()) > need for n, need in enumerate(needed)]
    count = sum(sides)
    if count >= _CURVED:
        return lamp(page.light, bare), count
    if count >= _LEANING:
        return _leaning(page.light, bare), count
    level = float(np.median(page.light[bare])) if count else 1.0
    return np.full(page.light.shape, level, np.float32), count


def _leaning(light: Raster, bare: BoolArray) -> Raster:
    """Light that rises evenly in one direction, as the bare paper shows it."""
    rows, columns = np.nonzero(bare)
    terms = np.stack([np.ones(rows.size), columns, rows], axis=1)
    seen = np.log(light[bare].astype(np.float64))
    trust = np.ones(rows.size, dtype=bool)
    found: FloatArray = np.zeros(3)
    for _ in range(_ROUNDS):
        found = np.asarray(np.linalg.lstsq(terms[trust], seen[trust], rcond=None)[0], np.float64)
        off = np.abs(seen - terms @ found)
        trust = off <= 2.0 * np.median(off) + 1e-6
    down, across = np.ogrid[: light.shape[0], : light.shape[1]]
    return np.asarray(np.exp(found[0] + found[1] * across + found[2] * down), np.float32)


def _as_light_as_paper(light: Raster, outside: BoolArray) -> BoolArray:
    """Where it is about as light as most of what lies round the plate, if that is light at all."""
    if not outside.any():
        return outside
    usual = float(np.median(light[outside]))
    return (light > 0.6 * usual) & (light < 1.6 * usual) & (usual > 0.3)
