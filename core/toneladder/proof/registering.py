"""Lays the plan on a scan of its proof, or says that this is no proof of this plate."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np

from toneladder.errors import ProofError
from toneladder.picture.light import WHITE, Light
from toneladder.proof.layers import Layers, halved, layers_of, merged
from toneladder.proof.page_tone import PageTone, page_tone, reduced
from toneladder.proof.seeking import CELLS, GROUPS, Start, starts
from toneladder.proof.settling import likeness, residual_mm, settled
from toneladder.proof.values import FloatArray, Point, Raster, Registration, ToneArray
from toneladder.wording import say

MM_PER_INCH = 25.4

LEAST_LIKENESS = 0.25
"""Below this a scan is not believed to be of the plate.

Proofs of the sample pictures reach 0.9 and more, other pictures 0.1 at most by chance; what
lies between is left for real paper, which is worse than drawn paper.
"""

_LONGEST = 2000
_TURNS = (0.0, 3.0, -3.0)
_QUARTERS = (0.0, 180.0, 90.0, 270.0)
_STEP = 0.06
_AROUND = 0.12
_SMALLEST, _LARGEST = 0.3, 1.25
_ROUGH_CELLS, _JUDGED_CELLS = 60, 120
_BEST = 3
_STRETCHED = 1.12


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
    pitch = max(1.0, max(light.shape) / _LONGEST)
    search = _Search(
        page=reduced(light, pitch) / np.float32(WHITE),
        pitch=pitch,
        levels=_levels(tones, px_per_mm),
        size_mm=np.array(tones.shape[::-1]) / px_per_mm,
    )
    best = _Found(0.0, np.eye(2, 3))
    for tried in search.tries(dpi, corners):
        best = max([best, *search.judged(tried)], key=lambda found: found.likeness)
        if best.likeness >= LEAST_LIKENESS:
            break
    else:
        raise ProofError(
            say(
                "This does not look like this plate. Nothing was changed. Choose the scan of its"
                " proof, or mark the four corners of the plate on it."
            )
        )
    matrix, residual = search.finished(best.matrix)
    known = px_per_mm if dpi is None else dpi / MM_PER_INCH
    return _registration(matrix, known, search.size_mm, light.shape, residual, best.likeness)


@dataclass(frozen=True, slots=True, eq=False)
class _Found:
    """How much of the scan a map (2, 3) from plate to page explains."""

    likeness: float
    matrix: FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class _Search:
    """A page in linear light, ``pitch`` pixels of the scan to one of its, and the plate's layers.

    ``levels`` go from fine to coarse.
    """

    page: Raster = field(repr=False)
    pitch: float
    levels: list[Layers]
    size_mm: FloatArray

    def tries(self, dpi: float | None, corners: Sequence[Point] | None) -> Iterator[list[Start]]:
        """Places to start from, the likeliest first."""
        if corners is not None:
            yield [Start(_from_corners(corners, self.size_mm) / self.pitch, 1.0)]
            return
        coarse = merged(self.levels[-1], GROUPS)
        if dpi is not None:
            known = dpi / MM_PER_INCH / self.pitch
            near = known * np.exp(np.arange(-_AROUND, _AROUND + 1e-9, _STEP))
            yield starts(self.page, coarse, near.tolist(), _TURNS)
        fits = float((np.array(self.page.shape[::-1]) / self.size_mm).min())
        sizes = fits * np.exp(np.arange(np.log(_LARGEST), np.log(_SMALLEST), -_STEP))
        for quarter in _QUARTERS:
            turns = [turn + quarter for turn in _TURNS]
            yield starts(self.page, coarse, sizes.tolist(), turns)

    def judged(self, tried: Sequence[Start]) -> list[_Found]:
        """The best of some starts, settled."""
        rough, judge = self._level(_ROUGH_CELLS), self._level(_JUDGED_CELLS)
        found = []
        for start in tried:
            matrix = settled(self._page(rough, start.matrix), rough, start.matrix)
            if _flat(matrix, start.matrix):
                found.append(self._like(rough, matrix))
        found.sort(key=lambda one: -one.likeness)
        return [
            self._like(judge, settled(self._page(judge, one.matrix), judge, one.matrix))
            for one in found[:_BEST]
        ]

    def finished(self, matrix: FloatArray) -> tuple[FloatArray, float]:
        """The map to pixels of the scan at its finest, and how far places still lie off, mm."""
        finest = self.levels[0]
        page = self._page(finest, matrix)
        matrix = settled(page, finest, matrix)
        return matrix * self.pitch, residual_mm(page, finest, matrix)

    def _level(self, cells: int) -> Layers:
        """The coarsest level that has so many cells."""
        fine = [level for level in self.levels if max(level.shares.shape) >= cells]
        return fine[-1] if fine else self.levels[0]

    def _page(self, level: Layers, matrix: FloatArray) -> PageTone:
        size = float(np.sqrt(abs(np.linalg.det(matrix[:, :2]))))
        return page_tone(self.page, size * level.pitch_mm, white=1.0)

    def _like(self, level: Layers, matrix: FloatArray) -> _Found:
        return _Found(likeness(self._page(level, matrix), level, matrix), matrix)


def _levels(tones: ToneArray, px_per_mm: float) -> list[Layers]:
    """The plate's layers, finest first, down to few cells."""
    levels = [layers_of(tones, px_per_mm)]
    while max(levels[-1].shares.shape) > 1.3 * CELLS:
        levels.append(halved(levels[-1]))
    return levels


def _from_corners(corners: Sequence[Point], size_mm: FloatArray) -> FloatArray:
    """The map (2, 3) that fits four corners best."""
    w, h = size_mm
    plate = np.array([[0, 0, 1], [w, 0, 1], [w, h, 1], [0, h, 1]], dtype=np.float64)
    found, *_ = np.linalg.lstsq(plate, np.asarray(corners, dtype=np.float64), rcond=None)
    return np.asarray(found.T)


def _flat(matrix: FloatArray, start: FloatArray) -> bool:
    """Whether a map is still one of a print that lies flat, near where it started."""
    now, before = np.linalg.det(matrix[:, :2]), np.linalg.det(start[:, :2])
    if not 0.7 < now / before < 1.4:
        return False
    large, least = np.linalg.svd(matrix[:, :2], compute_uv=False)
    return bool(large / least < _STRETCHED)


def _registration(
    matrix: FloatArray,
    known: float,
    size_mm: FloatArray,
    shape: tuple[int, ...],
    residual: float,
    score: float,
) -> Registration:
    """A map in the words of a person; ``known`` is how many pixels a millimetre should have."""
    (a, b, c), (d, e, f) = matrix.tolist()
    px = float(np.sqrt(a * e - b * d))
    angle = np.arctan2(d, a)
    along = np.cos(angle) * b + np.sin(angle) * e
    upright = np.cos(angle) * e - np.sin(angle) * b
    middle = matrix @ [*(size_mm / 2.0), 1.0] - np.array(shape[::-1]) / 2.0
    return Registration(
        matrix=((a, b, c), (d, e, f)),
        rotation_deg=float(np.degrees(angle)),
        scale=px / known,
        shift_mm=(float(middle[0] / px), float(middle[1] / px)),
        shear=float(along / upright),
        residual_mm=residual,
        score=score,
        confidence=float(np.clip((score - LEAST_LIKENESS) / (1.0 - LEAST_LIKENESS), 0.0, 1.0)),
    )
