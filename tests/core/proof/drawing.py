"""Scans of printed plates, drawn from known tones; it shares nothing with the reader.

The print is drawn on its paper at the plate's own resolution, in linear light; the scan sees
it through one affine map. Lightness and sRGB are written out once more, from CIE 15 and
IEC 61966-2-1.
"""

import io
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image
from scipy import ndimage

Array = NDArray[np.float64]
MM_PER_INCH = 25.4


def luminance_of(tone: Array) -> Array:
    """CIE 15: relative luminance of a lightness."""
    return np.where(tone > 8.0, ((tone + 16.0) / 116.0) ** 3, tone * 27.0 / 24389.0)


def lightness_of(light: Array) -> Array:
    """CIE 15: lightness of a relative luminance."""
    return np.where(light > 216.0 / 24389.0, 116.0 * np.cbrt(light) - 16.0, light * 24389.0 / 27.0)


def srgb(light: NDArray[Any]) -> Array:
    """IEC 61966-2-1: code (0..1) of linear light."""
    lit = np.clip(light, 0.0, 1.0)
    return np.asarray(np.where(lit <= 0.0031308, 12.92 * lit, 1.055 * lit ** (1 / 2.4) - 0.055))


def blobs(count: int, seed: int = 0, shape: tuple[int, int] = (400, 520)) -> NDArray[np.uint8]:
    """Tones (rows, columns) in rounded places of equal share, like a picture a brush can paint."""
    chance = np.random.default_rng(seed)
    height = ndimage.gaussian_filter(chance.normal(size=shape), 22.0)
    levels = np.quantile(height, np.linspace(0.0, 1.0, count + 1)[1:-1])
    return np.asarray(np.searchsorted(levels, height), np.uint8)


@dataclass(frozen=True)
class Look:
    """How a print is seen: degrees, shares, millimetres."""

    dpi: float = 200.0
    turn: float = 0.0
    scale: float = 1.0
    shift: tuple[float, float] = (0.0, 0.0)
    shear: float = 0.0
    margin: float | None = 20.0
    """Paper round the plate that lies on the glass; None crops to the plate mark."""
    crop: float = 0.0
    """More that is cut off at the right, share of the width."""
    blur: float = 0.8
    noise: float = 0.004
    grain: float = 0.04
    cloud: float = 0.01
    gradient: float = 0.0
    gradient_towards: float = 0.0
    paper: float = 94.0
    warm: tuple[float, float, float] = (1.0, 1.0, 1.0)
    mark: float = 0.06
    bits: int = 8
    jpeg: int | None = None
    quarter: int = 0


@dataclass(frozen=True)
class Scan:
    """The file, and the matrix (2, 3) from the plate's millimetres to its pixels."""

    data: bytes
    matrix: Array


def draw(
    tones: NDArray[np.uint8],
    printed: Array,
    px_per_mm: float,
    look: Look,
    seed: int = 0,
    foul: NDArray[np.float32] | None = None,
) -> Scan:
    """The print of a plate, scanned; ``foul`` (height, width) is lightness added to the tones."""
    chance = np.random.default_rng(seed)
    tone = printed[tones] + (0.0 if foul is None else foul)
    sheet, edge = _sheet(luminance_of(tone), px_per_mm, look, chance)
    shape, matrix = _glass(tones.shape, px_per_mm, look)
    back = np.linalg.inv(np.vstack([matrix, [0, 0, 1]]))  # scan pixels to plate mm
    # both rasters count from the middle of their first cell, down first
    whole = np.diag([px_per_mm, px_per_mm, 1.0]) @ back
    linear = whole[:2, :2][::-1, ::-1]
    start = whole[:2, 2][::-1] + linear @ [0.5, 0.5] - 0.5 + edge
    fineness = look.dpi * look.scale / MM_PER_INCH / px_per_mm
    if fineness < 1.0:
        sheet = ndimage.gaussian_filter(sheet, 0.45 / fineness)
    paper = float(luminance_of(np.array(look.paper)))
    light = ndimage.affine_transform(
        sheet, linear, start, output_shape=shape, order=1, cval=paper, output=np.float32
    )
    light = ndimage.gaussian_filter(light * _lamp(look, shape), look.blur)
    return Scan(_file(light, look, chance), matrix)


def _sheet(
    light: Array, px_per_mm: float, look: Look, chance: np.random.Generator
) -> tuple[NDArray[np.float32], int]:
    """The print on its paper, and how many cells of paper there are round it."""
    edge = round(px_per_mm * (40.0 if look.margin is None else look.margin + 30.0))
    grain = ndimage.gaussian_filter(chance.normal(size=light.shape).astype(np.float32), 0.7)
    grain *= look.grain / grain.std()
    soft = tuple(max(3, int(side / (8.0 * px_per_mm))) for side in light.shape)
    cloud = ndimage.zoom(
        chance.normal(size=soft).astype(np.float32),
        np.array(light.shape) / soft,
        order=1,
        grid_mode=True,
        mode="nearest",
    )[: light.shape[0], : light.shape[1]]
    shape = tuple(side + 2 * edge for side in light.shape)
    sheet = np.full(shape, luminance_of(np.array(look.paper)), np.float32)
    lip = round(0.8 * px_per_mm)
    for step in range(lip):  # the plate mark: darker above and left, lighter below and right
        at, far = edge - step - 1, edge + step
        sheet[at, at : shape[1] - at] *= 1.0 - look.mark
        sheet[at : shape[0] - at, at] *= 1.0 - look.mark
        sheet[shape[0] - far - 1 + 0, at : shape[1] - at] *= 1.0 + look.mark / 3
        sheet[at : shape[0] - at, shape[1] - far - 1] *= 1.0 + look.mark / 3
    printed = light * (1.0 + grain) * (1.0 + look.cloud * cloud)
    sheet[edge:-edge, edge:-edge] = printed
    return sheet, edge


def _glass(shape: tuple[int, ...], px_per_mm: float, look: Look) -> tuple[tuple[int, int], Array]:
    """Size of the scan and the matrix from the plate's millimetres to its pixels."""
    down, across = (side / px_per_mm for side in shape)
    turn = np.radians(look.turn + 90.0 * look.quarter)
    sheared = np.array([[1.0, look.shear], [0.0, 1.0]])
    turned = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    linear = look.scale * look.dpi / MM_PER_INCH * turned @ sheared
    margin = 0.0 if look.margin is None else look.margin
    room = np.array([across, down]) + 2.0 * margin
    if look.quarter % 2:
        room = room[::-1]
    size = room * look.dpi / MM_PER_INCH * (look.scale if look.margin is None else 1.0)
    middle = size / 2.0
    if look.margin is not None:
        middle = middle + np.array(look.shift) * look.dpi / MM_PER_INCH
    size = size * [1.0 - look.crop, 1.0]
    offset = middle - linear @ [across / 2.0, down / 2.0]
    width, height = np.round(size).astype(int)
    return (int(height), int(width)), np.column_stack([linear, offset])


def _lamp(look: Look, shape: tuple[int, int]) -> NDArray[np.float32]:
    rows, columns = np.ogrid[-1 : 1 : shape[0] * 1j, -1 : 1 : shape[1] * 1j]
    towards = np.radians(look.gradient_towards)
    across = (columns * np.cos(towards) + rows * np.sin(towards)) / np.sqrt(2.0)
    return np.asarray(1.0 - look.gradient * (0.5 + 0.5 * across), np.float32)


def _file(light: NDArray[np.float32], look: Look, chance: np.random.Generator) -> bytes:
    file = io.BytesIO()
    noise = chance.normal(0.0, look.noise, light.shape).astype(np.float32)
    dpi = (look.dpi, look.dpi)
    if look.warm != (1.0, 1.0, 1.0):  # shares that leave luminance as it is
        code = np.stack([srgb(light * share) + noise for share in look.warm], axis=-1)
    else:
        code = srgb(light) + noise
    code = np.clip(code, 0.0, 1.0)
    if look.jpeg is not None:
        eight = np.round(code * 255.0).astype(np.uint8)
        Image.fromarray(eight).convert("RGB").save(file, "JPEG", quality=look.jpeg, dpi=dpi)
    elif look.bits == 16 and code.ndim == 2:
        Image.fromarray(np.round(code * 65535.0).astype(np.uint16)).save(file, "TIFF", dpi=dpi)
    else:
        eight = np.round(code * 255.0).astype(np.uint8)
        Image.fromarray(eight).save(file, "PNG", compress_level=1, dpi=dpi)
    return file.getvalue()
