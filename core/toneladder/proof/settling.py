"""Settles a print on its scan: from a rough place to a tenth of a cell.

In every round the lightness of each tone is found together with the shift that is still
missing, as one linear least squares problem, in which the map from plate to scan is all that
bends [LucasKanade1981].
"""

from dataclasses import dataclass

import numpy as np

from toneladder.optics import lightness, luminance
from toneladder.proof.layers import Layers
from toneladder.proof.page_tone import SOFT, PageTone
from toneladder.proof.values import FloatArray, Raster

_RING_WEIGHT = 0.5
_ENOUGH = 0.01  # pixels
_FAR = 3.0  # deviations beyond which a place is not believed
_LEAST_NOISE = 1.0  # CIE L*
_HOLD = 1e-5  # keeps what no place tells of at nothing
_BROAD = 0.04  # of the longer side: what changes more slowly tells nothing of the plan
_LEAST_VARIANCE = 0.5
_BLOCKS = 5


@dataclass(frozen=True, slots=True, eq=False)
class _Setting:
    """One scan against the layers of one fineness, ready to be compared."""

    layers: Layers
    soft: FloatArray  # (layers, n)
    places: FloatArray  # (3, n): x, y in mm, 1
    unit: FloatArray  # (3, n): the same from -1 to 1
    page: PageTone
    slopes: tuple[Raster, Raster]

    @classmethod
    def of(cls, page: PageTone, layers: Layers) -> "_Setting":
        from scipy import ndimage

        down, across = (np.asarray(part, np.float32) for part in np.gradient(page.tone))
        soft = np.stack([ndimage.gaussian_filter(layer, SOFT) for layer in layers.shares])
        x, y = layers.middles_mm()
        grid = np.stack(np.broadcast_arrays(x[None, :], y[:, None], 1.0)).reshape(3, -1)
        far = np.abs(grid).max(axis=1) / 2.0
        unit = np.stack([grid[0] / far[0] - 1.0, grid[1] / far[1] - 1.0, grid[2]])
        return cls(
            layers,
            soft.reshape(len(soft), -1).astype(np.float64),
            grid,
            unit,
            page,
            (across, down),
        )

    def sampled(self, matrix: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
        """Lightness, its slopes across and down (n), and whether a place is on the page."""
        from scipy import ndimage

        at = matrix @ self.places / self.page.scale - 0.5
        places = at[::-1]
        height, width = self.page.tone.shape
        seen = (at[0] >= 0) & (at[0] <= width - 1) & (at[1] >= 0) & (at[1] <= height - 1)
        columns = (
            np.asarray(
                ndimage.map_coordinates(raster, places, order=1, mode="nearest"), dtype=np.float64
            )
            for raster in (self.page.tone, *self.slopes)
        )
        tone, across, down = columns
        return tone, across, down, seen.astype(np.float64)


def settled(page: PageTone, layers: Layers, matrix: FloatArray, rounds: int = 12) -> FloatArray:
    """A better map (2, 3) from the plate's millimetres to pixels of the scan."""
    setting = _Setting.of(page, layers)
    weight_of_ring = 1.0 - (1.0 - _RING_WEIGHT) * setting.soft[-1]
    trust, bent = np.ones(setting.soft.shape[1]), np.zeros(setting.soft.shape[1])
    for _ in range(rounds):
        tone, across, down, seen = setting.sampled(matrix)
        weight = seen * weight_of_ring * trust
        columns = np.vstack(
            [-across * setting.unit, -down * setting.unit, setting.soft, setting.unit[:2]]
        )
        weighted = columns * weight
        square = weighted @ columns.T
        square[np.diag_indices(len(square))] += _HOLD * (1.0 + weight.sum())
        found = np.linalg.solve(square, weighted @ (tone - bent))
        off = tone - bent - found[6:] @ columns[6:]
        bent = _bent(setting.soft, found[6:-2])
        trust = _trusted(off, weight > 0)
        step = found[:6].reshape(2, 3)
        matrix = matrix + setting.page.scale * step @ _unit_of(setting)
        if np.abs(step).sum(axis=1).max() < _ENOUGH:
            break
    return matrix


def _bent(soft: FloatArray, tones: FloatArray) -> FloatArray:
    """How much lighter soft borders look than the mean of their tones: light mixes, not L*."""
    mixed = luminance(np.clip(tones, 0.0, 100.0)) @ soft
    return np.asarray(lightness(mixed) - np.clip(tones, 0.0, 100.0) @ soft)


def _unit_of(setting: _Setting) -> FloatArray:
    """The matrix (3, 3) from millimetres to -1..1."""
    far = np.abs(setting.places).max(axis=1) / 2.0
    return np.array([[1 / far[0], 0, -1], [0, 1 / far[1], -1], [0, 0, 1]])


def _trusted(off: FloatArray, seen: np.ndarray) -> FloatArray:
    """Weights that fall to nothing where a place is far off [Tukey1977]."""
    if not seen.any():
        return np.ones_like(off)
    width = max(_LEAST_NOISE, 1.4826 * float(np.median(np.abs(off[seen]))))
    share = np.clip(off / (_FAR * 1.6 * width), -1.0, 1.0)
    return (1.0 - share * share) ** 2


def likeness(page: PageTone, layers: Layers, matrix: FloatArray) -> float:
    """How much of what changes from place to place the plan explains, 0 to 1.

    What changes slowly over the plate is left out of both: any two pictures share some of that.
    """
    from scipy import ndimage

    setting = _Setting.of(page, layers)
    tone, _, _, seen = setting.sampled(matrix)
    shape = layers.shares.shape[1:]
    inside = (seen * (setting.soft[-1] < 0.02)).reshape(shape)
    if inside.sum() < 0.5 * layers.inside.sum():
        return 0.0
    broad = _BROAD * max(shape)
    around = np.maximum(ndimage.gaussian_filter(inside, broad), 1e-6)

    def fine(raster: FloatArray) -> FloatArray:
        slow = ndimage.gaussian_filter(raster * inside, broad) / around
        return np.asarray((raster - slow)[inside > 0])

    seen_fine = fine(tone.reshape(shape))
    plan_fine = np.stack([fine(layer.reshape(shape)) for layer in setting.soft[:-1]])
    square = plan_fine @ plan_fine.T
    square[np.diag_indices(len(square))] += _HOLD * (1.0 + seen_fine.size)
    heights = np.linalg.solve(square, plan_fine @ seen_fine)
    left = seen_fine - heights @ plan_fine
    whole = float(seen_fine @ seen_fine) + _LEAST_VARIANCE * seen_fine.size
    return max(0.0, 1.0 - (float(left @ left) + _LEAST_VARIANCE * seen_fine.size) / whole)


def residual_mm(page: PageTone, layers: Layers, matrix: FloatArray) -> float:
    """How far places of the print still lie off, root mean square over blocks of the plate."""
    setting = _Setting.of(page, layers)
    tone, across, down, seen = setting.sampled(matrix)
    columns = np.vstack([setting.soft, setting.unit[:2]])
    weighted = columns * seen
    square = weighted @ columns.T
    square[np.diag_indices(len(square))] += _HOLD * (1.0 + seen.sum())
    model = np.linalg.solve(square, weighted @ tone) @ columns
    off = (tone - model) * seen * _trusted(tone - model, seen > 0)
    squares, weights = 0.0, 0.0
    for block in _blocks(setting.unit):
        slopes = np.stack([across[block], down[block]]) * seen[block]
        hold = slopes @ slopes.T
        told = float(np.linalg.eigvalsh(hold)[0])
        if told <= 1e-9:
            continue
        move = np.linalg.solve(hold + 0.02 * np.trace(hold) * np.eye(2), slopes @ off[block])
        squares += told * float(move @ move)
        weights += told
    size = np.sqrt(abs(np.linalg.det(matrix[:, :2])))
    pixels = np.sqrt(squares / weights) if weights else 0.0
    return float(pixels * page.scale / size)


def _blocks(unit: FloatArray) -> list[np.ndarray]:
    at = np.clip(((unit[:2] + 1.0) / 2.0 * _BLOCKS).astype(int), 0, _BLOCKS - 1)
    number = at[0] + _BLOCKS * at[1]
    return [np.flatnonzero(number == block) for block in range(_BLOCKS**2)]
