"""Looks for the print on the page: at every angle, size and place, roughly.

What is compared is not how dark a place is but whether the places of one tone look alike, so
that tones may print quite otherwise than planned.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from toneladder.optics import lightness
from toneladder.proof.layers import Layers
from toneladder.proof.page_tone import reduced
from toneladder.proof.values import FloatArray, Raster

CELLS = 60
"""Cells along the plate's longer side while it is looked for."""

GROUPS = 4
"""Neighbouring tones are taken together until so many are left."""

_NOISE = 4.0  # variance of L* that every scan has
_SEEN = 0.55  # of the plate must lie on the page
_KEPT = 6
_APART = 2.5  # cells


@dataclass(frozen=True, slots=True, eq=False)
class Start:
    """Where the print may lie: ``matrix`` (2, 3) from the plate's mm to pixels of the scan."""

    matrix: FloatArray
    score: float


def starts(
    light: Raster, layers: Layers, sizes: Iterable[float], turns: Sequence[float]
) -> list[Start]:
    """The likeliest places of a print on a page, best first.

    Parameters
    ----------
    light : (height, width) array, 0..1
        Linear light.
    layers : Layers
        Few tones, on a coarse raster.
    sizes : iterable of float
        Pixels of the page to a millimetre of the plate that are tried.
    turns : sequence of float
        Degrees clockwise that are tried.
    """
    patterns = [_Pattern.of(layers, turn) for turn in turns]
    found: list[Start] = []
    for size in sizes:
        pitch = size * layers.pitch_mm
        tone = lightness(np.maximum(reduced(light, pitch), 0.0)).astype(np.float32)
        step = max(1.0, pitch)
        if pitch < 1.0 or min(tone.shape) < 4:
            continue
        found += _on(tone, patterns, step)
    return _best(sorted(found, key=lambda start: -start.score), layers)


@dataclass(frozen=True, slots=True, eq=False)
class _Pattern:
    """The layers turned: (layers, height, width), and the map from plate mm to its cells."""

    shares: Raster
    matrix: FloatArray

    @classmethod
    def of(cls, layers: Layers, turn_deg: float) -> "_Pattern":
        from scipy import ndimage

        _, height, width = layers.shares.shape
        angle = np.radians(turn_deg)
        turned = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
        room = np.ceil(np.abs(turned) @ [width, height]).astype(int)
        # cells of the turned raster to cells of the layers, both down first
        back = turned.T[::-1, ::-1]
        old, new = np.array([height, width]) / 2.0, room[::-1] / 2.0
        start = old - 0.5 - back @ (new - 0.5)
        shares = np.stack(
            [
                ndimage.affine_transform(
                    layer, back, start, output_shape=tuple(room[::-1]), order=1
                )
                for layer in layers.shares
            ]
        )
        to_cells = turned / layers.pitch_mm
        middle = (
            np.array([width, height]) / 2.0 - layers.ring
        )  # of the raster, in cells of the plate
        offset = room / 2.0 - turned @ middle
        return cls(shares, np.column_stack([to_cells, offset]))


def _on(tone: Raster, patterns: Sequence[_Pattern], pitch: float) -> Iterator[Start]:
    """The best place of every pattern on a page whose pixels are as wide as its cells."""
    from scipy import fft

    for pattern in patterns:
        _, height, width = pattern.shares.shape
        shape = [
            fft.next_fast_len(a + b, real=True)
            for a, b in zip(tone.shape, (height, width), strict=True)
        ]
        page = np.stack([np.ones_like(tone), tone, tone * tone])
        seen = fft.rfft2(page, shape)
        pieces = np.conj(fft.rfft2(pattern.shares, shape))
        areas = fft.irfft2(pieces * seen[0], shape)
        sums = fft.irfft2(pieces * seen[1], shape)
        squares = fft.irfft2(pieces.sum(axis=0) * seen[2], shape)
        areas = np.maximum(areas, 1e-3)
        whole, total = areas.sum(axis=0), sums.sum(axis=0)
        mean_square = total * total / whole
        told = (sums * sums / areas).sum(axis=0) - mean_square
        score = told / (np.maximum(squares - mean_square, 0.0) + _NOISE * whole)
        on_page = areas[:-1].sum(axis=0) > _SEEN * float(pattern.shares[:-1].sum())
        score = np.where(on_page, score, -1.0)
        down, across = np.unravel_index(int(score.argmax()), score.shape)
        best = float(score[down, across])
        if best <= 0.0:
            continue
        # the far half of the shifts are those up and left
        shift = [
            float(at if at < side else at - full)
            for at, side, full in zip((across, down), tone.shape[::-1], shape[::-1], strict=True)
        ]
        matrix = pattern.matrix.copy()
        matrix[:, 2] += shift
        yield Start(matrix * pitch, best)


def _best(found: Sequence[Start], layers: Layers) -> list[Start]:
    """A few that are not the same place again."""
    x, y = layers.middles_mm()
    far = np.array([[x[0], x[-1], x[-1], x[0]], [y[0], y[0], y[-1], y[-1]], [1, 1, 1, 1]])
    kept: list[Start] = []
    for start in found:
        size = np.sqrt(abs(np.linalg.det(start.matrix[:, :2])))
        near = _APART * layers.pitch_mm * size
        if all(np.abs((start.matrix - other.matrix) @ far).max() > near for other in kept):
            kept.append(start)
        if len(kept) == _KEPT:
            break
    return kept
