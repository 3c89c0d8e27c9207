"""Scans and photographs of printed strips, drawn from known tones, independently of the reader.

A page is described in millimetres; every pixel looks up the point of the page it sees.
Lightness and sRGB are written out once more, from CIE 15 and IEC 61966-2-1.
"""

import io
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image
from scipy import ndimage

Array = NDArray[Any]
MM_PER_INCH = 25.4


def luminance_of(tone: Array) -> Array:
    """CIE 15: relative luminance of a lightness."""
    return np.where(tone > 8.0, ((tone + 16.0) / 116.0) ** 3, tone * 27.0 / 24389.0)


def lightness_of(light: Array) -> Array:
    """CIE 15: lightness of a relative luminance."""
    return np.where(light > 216.0 / 24389.0, 116.0 * np.cbrt(light) - 16.0, light * 24389.0 / 27.0)


def srgb(light: Array) -> Array:
    """IEC 61966-2-1: code (0..1) of linear light."""
    lit = np.clip(light, 0.0, 1.0)
    return np.where(lit <= 0.0031308, 12.92 * lit, 1.055 * lit ** (1 / 2.4) - 0.055)


@dataclass(frozen=True)
class Row:
    """Tones side by side: a strip or a grey scale. Left top corner, widths and height in mm."""

    x: float
    y: float
    widths: tuple[float, ...]
    height: float
    tones: tuple[float, ...]
    gap: float = 0.0


@dataclass(frozen=True)
class Page:
    """What lies on the glass, or on the table under the telephone."""

    width: float = 240.0
    height: float = 120.0
    paper: float = 94.0
    rows: tuple[Row, ...] = ()
    around: float | None = None


@dataclass(frozen=True)
class Look:
    """How the page is seen."""

    dpi: float = 200.0
    turn: float = 0.0
    tilt: float = 0.0
    tilt_towards: float = 0.0
    gradient: float = 0.0
    gradient_towards: float = 0.0
    bow: float = 0.0
    grain: float = 0.04
    cloud: float = 0.3
    noise: float = 0.003
    blur: float = 0.8
    gamma: float | None = None
    gain: float = 1.0
    sharpen: float = 0.0
    stretch: tuple[float, float] | None = None
    bits: int = 8
    jpeg: int | None = None
    mark: float = 2.0
    margin: float = 1.0


@dataclass(frozen=True)
class Scan:
    """The file, and where every patch of the first row lies in it (x, y of its middle)."""

    data: bytes
    middles: tuple[tuple[float, float], ...]
    patch_px: float
    rows: tuple[tuple[tuple[float, float], ...], ...] = field(default=())


def draw(page: Page, look: Look, seed: int = 0) -> Scan:
    """The page, scanned or photographed."""
    chance = np.random.default_rng(seed)
    shape, matrix = _camera(page, look)
    x, y = _seen(shape, np.linalg.inv(matrix))
    tone = _tones(page, look, x, y)
    light = luminance_of(tone) * _texture(page, look, x, y, shape, chance)
    light = light * _lamp(look, shape) * look.gain
    light = ndimage.gaussian_filter(light, look.blur)
    code = srgb(light) if look.gamma is None else np.clip(light, 0.0, 1.0) ** (1.0 / look.gamma)
    code = code + chance.normal(0.0, look.noise, shape)
    if look.sharpen:
        code = code + look.sharpen * (code - ndimage.gaussian_filter(code, 1.5))
    if look.stretch is not None:
        low, high = look.stretch
        code = (np.round(np.clip(code, 0.0, 1.0) * 255.0) / 255.0 - low) / (high - low)
    rows = tuple(_middles(row, matrix) for row in page.rows)
    first = page.rows[0] if page.rows else None
    pitch = min(first.widths) * look.dpi / MM_PER_INCH if first else 0.0
    return Scan(_file(np.clip(code, 0.0, 1.0), look), rows[0] if rows else (), pitch, rows)


def even_row(x: float, y: float, width: float, height: float, tones: tuple[float, ...]) -> Row:
    """Tones of one width."""
    return Row(x, y, (width,) * len(tones), height, tones)


def grey_scale(x: float, y: float, width: float, height: float, first: float = 0.05) -> Row:
    """21 steps, 0.15 of density apart [ISO 5-3: D = -log10 R]."""
    densities = first + 0.15 * np.arange(21)
    tones = tuple(float(tone) for tone in lightness_of(10.0**-densities))
    return even_row(x, y, width, height, tones)


def _camera(page: Page, look: Look) -> tuple[tuple[int, int], Array]:
    """Size of the picture and the matrix from millimetres to pixels."""
    across, down = page.width, page.height
    turn, lean, towards = np.radians([look.turn, look.tilt, look.tilt_towards])
    middle = np.array([[1, 0, -across / 2], [0, 1, -down / 2], [0, 0, 1.0]])
    turned = np.array(
        [[np.cos(turn), -np.sin(turn), 0], [np.sin(turn), np.cos(turn), 0], [0, 0, 1.0]]
    )
    away = 1.6 * np.hypot(across, down)
    u, v = np.cos(towards), np.sin(towards)
    # the plane leans about the line across the direction (u, v); distance grows along it
    along = np.array([[u, v, 0], [-v, u, 0], [0, 0, 1.0]])
    leaned = np.array([[np.cos(lean), 0, 0], [0, 1, 0], [np.sin(lean) / away, 0, 1.0]])
    scale = look.dpi / MM_PER_INCH
    sized = np.diag([scale, scale, 1.0])
    matrix = sized @ along.T @ leaned @ along @ turned @ middle
    corners = np.array([[0, across, across, 0], [0, 0, down, down], [1, 1, 1, 1.0]])
    seen = matrix @ corners
    seen = seen[:2] / seen[2]
    low, high = seen.min(axis=1), seen.max(axis=1)
    if look.tilt == 0.0:  # a scanner's glass is as large as the page
        size = (
            np.array([across, down] if round(look.turn / 90) % 2 == 0 else [down, across]) * scale
        )
        low, high = -size / 2, size / 2
    shift = np.array([[1, 0, -low[0]], [0, 1, -low[1]], [0, 0, 1.0]])
    width, height = np.ceil(high - low).astype(int)
    return (int(height), int(width)), shift @ matrix


def _seen(shape: tuple[int, int], back: Array) -> tuple[Array, Array]:
    rows, columns = np.mgrid[: shape[0], : shape[1]] + 0.5
    x, y, w = (row[0] * columns + row[1] * rows + row[2] for row in back)
    return x / w, y / w


def _tones(page: Page, look: Look, x: Array, y: Array) -> Array:
    tone = np.full(x.shape, page.paper)
    for row in page.rows:
        ends = row.x + np.concatenate([[0.0], np.cumsum(row.widths)])
        inside = (x >= ends[0]) & (x < ends[-1]) & (y >= row.y) & (y < row.y + row.height)
        which = np.clip(np.searchsorted(ends, x[inside], side="right") - 1, 0, len(row.tones) - 1)
        found = np.asarray(row.tones)[which]
        if row.gap:
            to_border = np.abs(x[inside][:, None] - ends[None, :]).min(axis=1)
            found = np.where(to_border < row.gap / 2, page.paper, found)
        if look.mark:  # the plate's mark, just outside
            off = look.margin
            near = (
                (x >= ends[0] - off)
                & (x < ends[-1] + off)
                & (y >= row.y - off)
                & (y < row.y + row.height + off)
            )
            rim = near & ~(
                (x >= ends[0] - off + 0.3)
                & (x < ends[-1] + off - 0.3)
                & (y >= row.y - off + 0.3)
                & (y < row.y + row.height + off - 0.3)
            )
            tone[rim] -= look.mark
        tone[inside] = found
    if page.around is not None:
        outside = (x < 0) | (x > page.width) | (y < 0) | (y > page.height)
        tone[outside] = page.around
    return tone


def _texture(
    page: Page, look: Look, x: Array, y: Array, shape: tuple[int, int], chance: np.random.Generator
) -> Array:
    """Grain in the rows, fibres in the paper, and clouds over all, each with a mean of 1."""
    scale = look.dpi / MM_PER_INCH
    grain = ndimage.gaussian_filter(chance.normal(size=shape), max(0.3, 0.08 * scale))
    grain /= grain.std()
    soft = tuple(max(4, int(side / (scale * 6.0))) for side in shape)
    cloud = ndimage.zoom(
        chance.normal(size=soft), np.array(shape) / soft, order=1, grid_mode=True, mode="nearest"
    )[: shape[0], : shape[1]]
    printed = np.zeros(shape, dtype=bool)
    for row in page.rows:
        right, foot = row.x + sum(row.widths), row.y + row.height
        printed |= (x >= row.x) & (x < right) & (y >= row.y) & (y < foot)
    strength = np.where(printed, look.grain, 0.008)
    return np.asarray((1.0 + strength * grain) * (1.0 + look.cloud * 0.03 * cloud * printed))


def _lamp(look: Look, shape: tuple[int, int]) -> Array:
    rows, columns = np.mgrid[-1 : 1 : shape[0] * 1j, -1 : 1 : shape[1] * 1j]
    towards = np.radians(look.gradient_towards)
    across = (columns * np.cos(towards) + rows * np.sin(towards)) / np.sqrt(2.0)
    return np.asarray(
        1.0 - look.gradient * (0.5 + 0.5 * across) - look.bow * (rows**2 + columns**2) / 2.0
    )


def _middles(row: Row, matrix: Array) -> tuple[tuple[float, float], ...]:
    ends = row.x + np.concatenate([[0.0], np.cumsum(row.widths)])
    middles = (ends[1:] + ends[:-1]) / 2
    points = matrix @ np.array(
        [middles, np.full_like(middles, row.y + row.height / 2), np.ones_like(middles)]
    )
    return tuple((float(px), float(py)) for px, py in (points[:2] / points[2]).T)


def _file(code: Array, look: Look) -> bytes:
    file = io.BytesIO()
    if look.jpeg is not None:
        grey = np.round(code * 255.0).astype(np.uint8)
        Image.fromarray(grey).convert("RGB").save(file, "JPEG", quality=look.jpeg)
    elif look.bits == 16:
        Image.fromarray(np.round(code * 65535.0).astype(np.uint16)).save(file, "TIFF")
    else:
        Image.fromarray(np.round(code * 255.0).astype(np.uint8)).save(file, "PNG", compress_level=1)
    return file.getvalue()
