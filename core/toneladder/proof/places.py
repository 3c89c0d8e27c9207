"""Places that printed otherwise than the rest of their tone, and a map of all differences."""

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from toneladder.proof.values import BoolArray, DifferenceMap, FloatArray, Place, Raster, ToneArray

LEAST_AREA_MM2 = 4.0
LEAST_DIFFERENCE = 3.0
"""CIE L* by which a place must differ: what wiping alone does from pull to pull, from memory."""

MOST_PLACES = 40

_SURE = 4.0  # deviations of the tone itself
_CELL_MM = 0.5
_MAP_CELLS = 120


def differing_places(
    soft: Raster, tones: ToneArray, printed: Mapping[int, float], px_per_mm: float
) -> tuple[Place, ...]:
    """Places within a tone that are darker or lighter than the rest of it, largest first.

    Parameters
    ----------
    soft : (rows, columns) array
        CIE L* on the plate's grid, NaN where nothing can be read.
    tones : (rows, columns) array
    printed : mapping
        What each tone printed on the whole, CIE L*.
    px_per_mm : float
        Of the grid.
    """
    side = max(1, round(_CELL_MM * px_per_mm))
    every = slice(side // 2, None, side)
    few, off = tones[every, every], soft[every, every].copy()
    found: list[Place] = []
    for tone, lightness in printed.items():
        here = (few == tone) & np.isfinite(off)
        if not here.any():
            continue
        odd = np.where(here, off - np.float32(lightness), 0.0)
        strays = 1.4826 * float(np.median(np.abs(odd[here])))
        limit = max(LEAST_DIFFERENCE, _SURE * strays)
        for sign in (-1.0, 1.0):
            found += _places(tone, odd, sign * odd > limit, side / px_per_mm)
    found.sort(key=lambda place: -place.area_mm2 * abs(place.difference))
    return tuple(found[:MOST_PLACES])


def _places(tone: int, off: FloatArray, odd: BoolArray, pitch_mm: float) -> Iterator[Place]:
    """Every piece of ``odd`` that is large enough, and no mere rim of a border."""
    from scipy import ndimage

    names, count = ndimage.label(ndimage.binary_opening(odd, np.ones((2, 2))), np.ones((3, 3)))
    areas = np.bincount(names.ravel(), minlength=count + 1) * pitch_mm**2
    for name in np.flatnonzero(areas[1:] >= LEAST_AREA_MM2) + 1:
        rows, columns = np.nonzero(names == name)
        yield Place(
            tone=tone,
            x_mm=round(float(columns.mean() + 0.5) * pitch_mm, 1),
            y_mm=round(float(rows.mean() + 0.5) * pitch_mm, 1),
            area_mm2=round(float(areas[name]), 1),
            difference=round(float(np.median(off[rows, columns])), 1),
        )


def difference_map(
    soft: Raster, tones: ToneArray, planned: Sequence[float], px_per_mm: float
) -> DifferenceMap:
    """Printed less planned lightness over the plate, coarse enough to be drawn small."""
    side = max(1, -(-max(tones.shape) // _MAP_CELLS))
    rows, columns = (-(-length // side) for length in tones.shape)
    off = soft - np.asarray([*planned], np.float32)[np.minimum(tones, len(planned) - 1)]
    read = np.isfinite(off)
    shape = (rows * side, columns * side)
    sums, counts = np.zeros(shape, np.float32), np.zeros(shape, np.float32)
    sums[: tones.shape[0], : tones.shape[1]][read] = off[read]
    counts[: tones.shape[0], : tones.shape[1]][read] = 1.0
    sums, counts = (
        part.reshape(rows, side, columns, side).sum(axis=(1, 3)) for part in (sums, counts)
    )
    few = np.full((rows, columns), np.nan, np.float32)
    np.divide(sums, counts, out=few, where=counts > 0)
    return DifferenceMap(few, side / px_per_mm)
