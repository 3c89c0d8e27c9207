"""Drawings made by script: known pen lines over known washes, as a scanner would bring them."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw
from scipy import ndimage

PX_PER_MM = 8.0
_FINER = 6  # dots of the drawing to a cell of the plate's grid, along each axis

Floats = NDArray[np.floating]
Points = NDArray[np.floating]


@dataclass(frozen=True)
class Stroke:
    """One pen line: its middle as (n, 2) points (across, down) in mm, its width, its ink's L*."""

    points: Points
    width_mm: float
    lightness: float


@dataclass(frozen=True)
class Drawing:
    """A drawing laid on the plate's grid, and what it was made of.

    ``light`` is linear luminance as the scanner brings it; ``washes`` is the same scan of the
    same paper if no line had been drawn on it; ``ink`` is the share of each cell under a line,
    ``specks`` that under a splash.
    """

    light: NDArray[np.float32]
    washes: NDArray[np.float32]
    ink: Floats
    specks: Floats
    strokes: tuple[Stroke, ...]


def luminance(lightness: Floats) -> Floats:
    """CIE 15: Y from L*, written out here so that nothing is borrowed from the program."""
    f = (lightness + 16.0) / 116.0
    return np.where(lightness > 8.0, f**3, lightness * 27.0 / 24389.0)


def lightness(light: Floats) -> Floats:
    """CIE 15: L* from Y."""
    y = np.asarray(light, dtype=np.float64)
    return np.where(y > 216.0 / 24389.0, 116.0 * np.cbrt(y) - 16.0, y * 24389.0 / 27.0)


def drawing(
    seed: int,
    *,
    size_mm: tuple[float, float] = (60.0, 45.0),
    widths_mm: tuple[float, float] = (0.2, 1.0),
    noise: float = 1.0,
    blur_cells: float = 0.5,
    specks: int = 40,
    pens_mm: Sequence[float] = (),
) -> Drawing:
    """A drawing of curves, hatching and crossed hatching over hard and soft washes.

    Widths lie anywhere between two, or are those of a few pens.
    """
    chance = np.random.default_rng(seed)
    washes = _washes(chance, size_mm)
    strokes = tuple(_strokes(chance, size_mm, pens_mm or _any_width(chance, widths_mm)))
    bare = luminance(np.kron(washes, np.ones((_FINER, _FINER))))
    splashed = np.zeros(bare.shape, dtype=bool)
    for _ in range(specks):
        splash = _speck(chance, bare.shape)
        splashed |= splash
        bare[splash] = np.minimum(bare[splash], luminance(np.array(chance.uniform(15.0, 50.0))))
    drawn, inked = bare.copy(), np.zeros(bare.shape, dtype=bool)
    for stroke in strokes:
        under = _drawn(stroke, bare.shape)
        drawn[under] = np.minimum(drawn[under], luminance(np.array(stroke.lightness)))
        inked |= under
    tooth = ndimage.gaussian_filter(chance.standard_normal(washes.shape), 0.7)
    tooth *= noise / tooth.std()
    return Drawing(
        _scanned(drawn, blur_cells, tooth),
        _scanned(bare, blur_cells, tooth),
        _cells(inked.astype(np.float64)),
        _cells(splashed.astype(np.float64)),
        strokes,
    )


def along(stroke: Stroke, every_mm: float = 0.05) -> Points:
    """Points of the stroke's middle, ``every_mm`` apart, (n, 2) in mm."""
    steps = np.hypot(*np.diff(stroke.points, axis=0).T)
    way = np.concatenate([[0.0], np.cumsum(steps)])
    at = np.arange(0.0, way[-1], every_mm)
    return np.column_stack([np.interp(at, way, stroke.points[:, axis]) for axis in (0, 1)])


def _washes(chance: np.random.Generator, size_mm: tuple[float, float]) -> Floats:
    """Paper, hard-edged brush washes, one soft passage: L* of every cell."""
    width, height = (round(side * PX_PER_MM) for side in size_mm)
    y, x = np.mgrid[0:height, 0:width] / PX_PER_MM
    washes = np.full((height, width), 93.0)
    for level in chance.uniform(45.0, 85.0, 4):
        washes[_blob(chance, x, y, size_mm)] = level
    edge = ndimage.gaussian_filter(
        _blob(chance, x, y, size_mm).astype(np.float64), chance.uniform(4.0, 16.0)
    )
    darkest = 48.0
    return np.asarray(
        np.maximum(washes - edge * chance.uniform(10.0, 25.0), darkest)
    )  # no ink is lost in it


def _blob(
    chance: np.random.Generator, x: Floats, y: Floats, size_mm: tuple[float, float]
) -> NDArray[np.bool_]:
    across, down = chance.uniform(0.0, 1.0, 2) * size_mm
    angle = np.arctan2(y - down, x - across)
    reach = chance.uniform(8.0, 16.0)
    for wave in range(2, 9):
        reach = reach + chance.normal(0.0, 3.0 / wave) * np.sin(
            wave * angle + chance.uniform(0.0, 6.3)
        )
    return np.asarray(np.hypot(x - across, y - down) < reach)


def _any_width(chance: np.random.Generator, widths_mm: tuple[float, float]) -> Sequence[float]:
    """Enough widths for every stroke to have one of its own, evenly on a scale of doublings."""
    widths: list[float] = np.exp(
        chance.uniform(np.log(widths_mm[0]), np.log(widths_mm[1]), 60)
    ).tolist()
    return widths


def _strokes(
    chance: np.random.Generator, size_mm: tuple[float, float], pens_mm: Sequence[float]
) -> Sequence[Stroke]:
    made = [_curve(chance, size_mm, float(chance.choice(pens_mm))) for _ in range(14)]
    for crossed in (False, True, True):
        width = min(float(chance.choice(pens_mm)), 0.6)
        made += _hatching(chance, size_mm, width, crossed=crossed)
    return made


def _curve(chance: np.random.Generator, size_mm: tuple[float, float], width: float) -> Stroke:
    """A line that wanders: its direction changes slowly."""
    steps = int(chance.uniform(30, 160))
    turn = ndimage.gaussian_filter1d(chance.normal(0.0, 0.5, steps), 6.0)
    heading = chance.uniform(0.0, 6.3) + np.cumsum(turn)
    start = chance.uniform(0.1, 0.9, 2) * size_mm
    points = start + 0.25 * np.column_stack(
        [np.cumsum(np.cos(heading)), np.cumsum(np.sin(heading))]
    )
    return Stroke(points, width, float(chance.uniform(8.0, 25.0)))


def _hatching(
    chance: np.random.Generator, size_mm: tuple[float, float], width: float, *, crossed: bool
) -> Sequence[Stroke]:
    """Parallel lines with gaps of once to four times their width, or two such sets crossed."""
    middle = chance.uniform(0.2, 0.8, 2) * size_mm
    half = chance.uniform(3.0, 6.0)
    slope = chance.uniform(0.0, np.pi)
    ink = float(chance.uniform(8.0, 25.0))
    made = []
    for angle in (slope, slope + chance.uniform(0.6, 1.6))[: 1 + crossed]:
        along_it = np.array([np.cos(angle), np.sin(angle)])
        aside = np.array([-along_it[1], along_it[0]])
        pitch = width * chance.uniform(2.0, 5.0)
        for off in np.arange(-half, half, pitch):
            ends = [
                middle + off * aside + end * half * along_it for end in chance.normal((-1, 1), 0.1)
            ]
            made.append(Stroke(np.array(ends), width, ink))
    return made


def _drawn(stroke: Stroke, shape: tuple[int, ...]) -> NDArray[np.bool_]:
    page = Image.new("1", (shape[1], shape[0]))
    pen = ImageDraw.Draw(page)
    dots = PX_PER_MM * _FINER
    points = stroke.points * dots
    wide = max(1, round(stroke.width_mm * dots))
    pen.line([tuple(point) for point in points.tolist()], fill=1, width=wide, joint="curve")
    return np.asarray(page)


def _speck(chance: np.random.Generator, shape: tuple[int, ...]) -> NDArray[np.bool_]:
    """A round splash, a quarter of a millimetre to one across."""
    page = Image.new("1", (shape[1], shape[0]))
    x, y = chance.uniform(0.0, 1.0, 2) * (shape[1], shape[0])
    r = chance.uniform(0.12, 0.5) * PX_PER_MM * _FINER
    ImageDraw.Draw(page).ellipse((x - r, y - r, x + r, y + r), fill=1)
    return np.asarray(page)


def _scanned(fine: Floats, blur_cells: float, tooth: Floats) -> NDArray[np.float32]:
    """What the scanner sees: softened a little, with the tooth of the paper in it."""
    rough = lightness(ndimage.gaussian_filter(_cells(fine), blur_cells)) + tooth
    return luminance(np.clip(rough, 0.0, 100.0)).astype(np.float32)


def _cells(fine: Floats) -> Floats:
    height, width = (side // _FINER for side in fine.shape)
    return np.asarray(fine.reshape(height, _FINER, width, _FINER).mean(axis=(1, 3)))
