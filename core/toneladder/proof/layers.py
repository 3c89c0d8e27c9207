"""The plate's tones as layers of shares: how much of each coarse cell belongs to each tone."""

from dataclasses import dataclass

import numpy as np

from toneladder.proof.values import FloatArray, Raster, ToneArray

FINEST = 480
"""Cells along the plate's longer side at the finest."""

_RING = 0.07  # of the longer side: paper round the plate that is looked at too


@dataclass(frozen=True, slots=True, eq=False)
class Layers:
    """Tones on a coarse raster with a ring of paper round the plate.

    ``shares`` is (layers, height, width), 0..1, the ring last; the raster's top left corner lies
    ``ring`` cells up and left of the plate's, and a cell is ``pitch_mm`` wide.
    """

    shares: Raster
    ring: int
    pitch_mm: float

    @property
    def inside(self) -> Raster:
        """Share (height, width) of each cell that lies on the plate."""
        return np.asarray(self.shares[:-1].sum(axis=0))

    def middles_mm(self) -> tuple[FloatArray, FloatArray]:
        """Middles of the columns and of the rows, millimetres from the plate's top left."""
        _, height, width = self.shares.shape
        across = (np.arange(width) + 0.5 - self.ring) * self.pitch_mm
        down = (np.arange(height) + 0.5 - self.ring) * self.pitch_mm
        return np.asarray(across, dtype=np.float64), np.asarray(down, dtype=np.float64)


def layers_of(tones: ToneArray, px_per_mm: float) -> Layers:
    """The layers of a plate at their finest; tones without a cell have no layer.

    Parameters
    ----------
    tones : (height, width) array
        Tone of every cell of the plate's grid.
    px_per_mm : float
        Of that grid.
    """
    side = max(1, -(-max(tones.shape) // FINEST))
    height, width = (-(-length // side) for length in tones.shape)
    ring = max(2, round(_RING * max(height, width)))
    present = np.flatnonzero(np.bincount(tones.ravel(), minlength=1))
    shares = np.zeros((len(present) + 1, height + 2 * ring, width + 2 * ring), np.float32)
    whole = np.full((height * side, width * side), 255, np.uint8)
    whole[: tones.shape[0], : tones.shape[1]] = tones
    blocks = whole.reshape(height, side, width, side)
    for layer, tone in zip(shares, present, strict=False):
        inner = (blocks == tone).sum(axis=(1, 3), dtype=np.uint16)
        layer[ring:-ring, ring:-ring] = inner / np.float32(side * side)
    shares[-1] = 1.0 - shares[:-1].sum(axis=0)
    return Layers(shares, ring, side / px_per_mm)


def halved(layers: Layers) -> Layers:
    """The same on a raster of half as many cells each way."""
    shares = layers.shares
    odd = layers.ring % 2  # the plate's corner stays the corner of a cell
    before = (0, 0), (odd, (shares.shape[1] + odd) % 2), (odd, (shares.shape[2] + odd) % 2)
    padded = np.pad(shares, before)
    padded[-1] = 1.0 - padded[:-1].sum(axis=0)
    layer, height, width = padded.shape
    means = padded.reshape(layer, height // 2, 2, width // 2, 2).mean(axis=(2, 4))
    return Layers(means, (layers.ring + odd) // 2, 2.0 * layers.pitch_mm)


def merged(layers: Layers, most: int) -> Layers:
    """The same with neighbouring tones taken together, so that no more than ``most`` are left."""
    tones = layers.shares[:-1]
    if len(tones) <= most:
        return layers
    areas = tones.sum(axis=(1, 2))
    ranks = (np.cumsum(areas) - areas / 2) / areas.sum()
    group = np.minimum((ranks * most).astype(int), most - 1)
    joined = [tones[group == number].sum(axis=0) for number in np.unique(group)]
    return Layers(np.stack([*joined, layers.shares[-1]]), layers.ring, layers.pitch_mm)
