"""The plate's grain under the glass: the discs themselves, etched and inked."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageFilter

from toneladder.bite.grain import Grain, land
from toneladder.optics import FloatArray, luminance
from toneladder.preview.colour import bytes_of
from toneladder.preview.land import Inking, inking
from toneladder.preview.values import LoupeGrain

_CELL_UM = 1000.0  # the plate's grain is scattered cell by cell
_FAR = 1 << 20  # keeps the numbers of cells beyond the plate's edge above zero
_LARGEST = 3.0  # standard deviations of the logarithm of the diameter
_FURTHEST = 3.0  # mean diameters; no land is left there
_DEPTHS = 256
_BLEED_UM = 6.0  # how softly ink ends in damp paper
_SCATTER_UM = 60.0  # how far light runs sideways in paper


def loupe(
    patch_tones: NDArray[np.uint8],
    tone_lightness: Sequence[float],
    grain: LoupeGrain,
    *,
    px_per_mm: float,
    um_per_px: float,
    seed: int,
    origin_mm: tuple[float, float],
) -> NDArray[np.uint8]:
    """What the print shows under the glass: etched grains in paper, openings in ink.

    The same place of the same plate always shows the same grains.

    Parameters
    ----------
    patch_tones : (h, w) uint8
        Tone numbers on the plate's grid; a few millimetres.
    tone_lightness : (n,) CIE L*, never rising
        What each tone prints; tone 0 is white with its plate tone.
    grain : LoupeGrain
    px_per_mm : float, > 0
        Cells of the grid to a millimetre.
    um_per_px : float, > 0
        Micrometres to a pixel of the picture wanted.
    seed : int, >= 0
        Of the plate's grain.
    origin_mm : (across, down)
        Where the patch's upper left corner lies on the plate.

    Returns
    -------
    (H, W) uint8
        Grey sRGB; the mean luminance over each tone is the tone's own.

    References
    ----------
    [Chiu2013] ch. 3, Boolean model; [YuleNielsen1951].
    """
    height, width = (round(cells * 1000.0 / px_per_mm / um_per_px) for cells in patch_tones.shape)
    left, top = (round(at * 1000.0 / um_per_px) for at in origin_mm)
    tones = _brushed(patch_tones, (height, width))
    surface, eaten_um = _etched(tone_lightness, grain)
    depth_um = _depth_um((top, left), (height, width), grain, um_per_px, seed)
    standing = np.clip((depth_um - eaten_um[tones]) / um_per_px + 0.5, 0.0, 1.0)
    opening, paper = surface.opening[tones], surface.paper[tones]
    seen = _softened(opening + standing * (paper - opening), _BLEED_UM / um_per_px)
    return bytes_of(seen * _softened(surface.around[tones], _SCATTER_UM / um_per_px))


def _etched(tone_lightness: Sequence[float], grain: LoupeGrain) -> tuple[Inking, FloatArray]:
    """How each tone is inked, and how far its land is eaten."""
    ground = Grain(grain.coverage, grain.diameter_um, grain.spread)
    standing = land(grain.undercut_um or 0.0, ground)
    surface = inking(tone_lightness, standing, float(luminance(grain.ink_lightness)))
    reach = np.linspace(0.0, _FURTHEST * grain.diameter_um, _DEPTHS)
    eaten = np.interp(-surface.land, -land(reach, ground), reach)
    return surface, np.where(surface.land < 1.0, eaten, -np.inf)


def _softened(light: FloatArray, sigma: float) -> FloatArray:
    from scipy.ndimage import gaussian_filter

    soft: FloatArray = gaussian_filter(
        light.astype(np.float32), sigma, mode="nearest", truncate=2.5
    )
    return soft


def _depth_um(
    corner: tuple[int, int],
    shape: tuple[int, int],
    grain: LoupeGrain,
    um_per_px: float,
    seed: int,
) -> FloatArray:
    """Distance of every point under the grain from the nearest edge; below 0 in the open."""
    from scipy.ndimage import distance_transform_edt

    rim = int(grain.diameter_um / um_per_px) + 1
    top, left = corner[0] - rim, corner[1] - rim
    covered = np.zeros((shape[0] + 2 * rim, shape[1] + 2 * rim), dtype=np.bool_)
    discs = _discs_um((top, left), covered.shape, grain, um_per_px, seed) / um_per_px
    rows, columns = np.arange(covered.shape[0]), np.arange(covered.shape[1])
    for y, x, r in (discs - [top, left, 0.0]).tolist():
        down = slice(max(0, int(y - r)), max(0, int(y + r) + 2))
        across = slice(max(0, int(x - r)), max(0, int(x + r) + 2))
        near = (rows[down, None] + 0.5 - y) ** 2 + (columns[across] + 0.5 - x) ** 2
        covered[down, across] |= near <= r * r
    inside = distance_transform_edt(covered)[rim:-rim, rim:-rim]
    depth: FloatArray = (inside - 0.5) * um_per_px
    return depth


def _discs_um(
    corner: tuple[int, int],
    shape: tuple[int, ...],
    grain: LoupeGrain,
    um_per_px: float,
    seed: int,
) -> FloatArray:
    """Every disc that can touch a piece of plate: (n, 3) of down, across and radius."""
    mean_um = grain.diameter_um / 2.0
    widest = mean_um * np.exp(_LARGEST * grain.spread)
    area = np.pi * mean_um**2 * np.exp(grain.spread**2)
    count = -np.log1p(-grain.coverage) / area * _CELL_UM**2
    cells = [
        range(
            int((first * um_per_px - widest) // _CELL_UM),
            int(((first + size) * um_per_px + widest) // _CELL_UM) + 1,
        )
        for first, size in zip(corner, shape, strict=True)
    ]
    found = []
    for row in cells[0]:
        for column in cells[1]:
            chance = np.random.default_rng((seed, row + _FAR, column + _FAR))
            discs = chance.random((chance.poisson(count), 3))
            discs[:, :2] = (discs[:, :2] + [row, column]) * _CELL_UM
            z = np.clip(chance.standard_normal(len(discs)), -_LARGEST, _LARGEST)
            discs[:, 2] = mean_um * np.exp(grain.spread * z - grain.spread**2 / 2.0)
            found.append(discs)
    return np.concatenate(found)


def _brushed(patch_tones: NDArray[np.uint8], shape: tuple[int, int]) -> NDArray[np.intp]:
    """Tone numbers at the glass's scale, with borders as a brush leaves them, not in stairs."""
    tones = np.full(shape, patch_tones.min(), dtype=np.intp)
    for tone in range(int(patch_tones.min()) + 1, int(patch_tones.max()) + 1):
        open_then = Image.fromarray(np.where(patch_tones >= tone, 255, 0).astype(np.uint8))
        soft = open_then.filter(ImageFilter.GaussianBlur(1.0))
        large = soft.resize((shape[1], shape[0]), Image.Resampling.BICUBIC)
        tones += np.asarray(large) > 127
    return tones
