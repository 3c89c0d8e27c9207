"""Made-up pictures to measure with: soft ones, ugly ones, drawings, as files."""

from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw
from scipy import ndimage

_NOISE = 509  # pixels after which the noise repeats


def photograph(folder: Path, megapixels: float) -> Path:
    """A photograph of so many megapixels, 3 : 2: soft shapes and fine noise."""
    rng = np.random.default_rng(5)
    soft = ndimage.gaussian_filter(rng.normal(size=(252, 377, 3)), (9, 9, 0))
    return _kept(folder / f"{megapixels:g}.jpg", soft, megapixels)


def maze(folder: Path, megapixels: float) -> Path:
    """An ugly picture: hard light and dark everywhere, hardly wider than a brush."""
    rng = np.random.default_rng(9)
    height = 600  # so many soft spots that on an A4 plate they are a millimetre wide
    hard = ndimage.gaussian_filter(rng.normal(size=(height, height * 3 // 2)), 3.0)
    hard = np.clip(hard / hard.std() * 0.28 + 0.5, 0.0, 1.0)
    return _kept(folder / f"maze-{megapixels:g}.jpg", np.repeat(hard[:, :, None], 3, 2), megapixels)


def drawing(grid: tuple[int, int], px_per_mm: float) -> NDArray[np.float32]:
    """A pen drawing as light (rows, columns): strokes of three pens over two washes."""
    rng = np.random.default_rng(3)
    rows, columns = grid
    light = np.full(grid, 0.8, np.float32)
    light[rows // 3 :, : columns // 2] = 0.45
    light[: rows // 4, columns // 3 :] = 0.6
    strokes = np.zeros(grid, np.uint8)
    picture = Image.fromarray(strokes)
    pen = ImageDraw.Draw(picture)
    for number in range(round(rows * columns / px_per_mm**2 / 40.0)):
        x, y, turn = rng.uniform(0, columns), rng.uniform(0, rows), rng.uniform(0, np.pi)
        along = np.linspace(0.0, rng.uniform(4.0, 25.0) * px_per_mm, 12)
        bend = rng.uniform(-0.02, 0.02) / px_per_mm
        way = turn + bend * along
        line = np.column_stack([x + along * np.cos(way), y + along * np.sin(way)])
        width = max(1, round((0.25, 0.4, 0.7)[number % 3] * px_per_mm))
        pen.line([(float(a), float(b)) for a, b in line], fill=255, width=width)
    inked = ndimage.gaussian_filter(np.asarray(picture, np.float32) / 255.0, 0.6)
    tooth = rng.normal(0.0, 0.008, grid).astype(np.float32)
    drawn = light * (1.0 - 0.93 * inked) + tooth
    return np.asarray(np.clip(drawn, 0.0, 1.0), np.float32)


def _kept(path: Path, shapes: NDArray[np.float64], megapixels: float) -> Path:
    """Write ``shapes`` enlarged, with noise over them."""
    height = round((megapixels * 1e6 / 1.5) ** 0.5)
    width = round(height * 1.5)
    shapes = (shapes - shapes.min()) / np.ptp(shapes)
    small = Image.fromarray((12.0 + 231.0 * shapes).astype(np.uint8))
    cells = np.array(small.resize((width, height), Image.Resampling.BILINEAR))
    noise = np.random.default_rng(6).integers(-6, 7, (_NOISE, _NOISE, 3), np.int8).view(np.uint8)
    for top in range(0, height, _NOISE):
        for left in range(0, width, _NOISE):
            piece = cells[top : top + _NOISE, left : left + _NOISE]
            piece += noise[: piece.shape[0], : piece.shape[1]]  # turns over below 0, as meant
    Image.fromarray(cells).save(path, quality=90)
    return path
