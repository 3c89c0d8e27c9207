"""Squinting lets detail go and keeps the light; if asked it keeps the edges, too."""

from functools import cache
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest
import skimage.color
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.ndimage import gaussian_filter, map_coordinates, uniform_filter
from skimage.feature import canny

from toneladder.picture.laying import grid_for, lay, plate_size_for
from toneladder.picture.opening import open_picture
from toneladder.picture.squint import lightness16, percentiles, squint, squint_keeping_edges
from toneladder.picture.values import Laying

SAMPLES = ("alley", "boathouse", "breakwater", "night", "still-life")
BRUSH = 12  # cells: 1.5 mm
SQUINT = BRUSH / 2

Cells = NDArray[np.float32]
Numbers = NDArray[np.float64]


@pytest.mark.parametrize("shape", [(64, 64), (65, 130), (1, 40), (40, 1), (1, 1), (200, 3)])
@pytest.mark.parametrize("sigma", [0.4, 1.0, 3.7, 16.0])
def test_a_squint_is_the_gaussian_of_scipy(shape: tuple[int, int], sigma: float) -> None:
    light = np.random.default_rng(8).random(shape, dtype=np.float32)
    expected = gaussian_filter(light.astype(np.float64), sigma, mode="reflect")
    found = squint(light, sigma)
    assert found == pytest.approx(expected, abs=2e-5)
    assert found.dtype == np.float32
    assert found.flags.c_contiguous


@settings(deadline=None)
@given(st.integers(1, 60), st.integers(1, 60), st.floats(0.31, 12.0), st.integers(0, 99))
def test_a_squint_keeps_the_mean_light(height: int, width: int, sigma: float, seed: int) -> None:
    light = np.random.default_rng(seed).random((height, width), dtype=np.float32)
    assert squint(light, sigma).mean() == pytest.approx(light.mean(), abs=1e-5)


def test_a_squint_too_small_to_see_changes_nothing() -> None:
    light = np.random.default_rng(8).random((5, 6), dtype=np.float32)
    assert squint(light, 0.0) is light
    assert squint(light, 0.3) is light


def test_lightness_is_that_of_colour_science_even_in_the_darks(colour: ModuleType) -> None:
    light = np.concatenate([np.linspace(0, 0.02, 50_000), np.linspace(0, 1, 65536)])
    found = lightness16(light.astype(np.float32)) / 655.35
    expected = colour.lightness(light * 100.0, method="CIE 1976")
    assert np.abs(found - expected).max() < 0.003


def test_lightness_of_a_16_bit_grey_ramp_is_that_of_scikit_image() -> None:
    codes = np.linspace(0, 1, 65536)
    light = np.where(codes <= 0.04045, codes / 12.92, ((codes + 0.055) / 1.055) ** 2.4)
    greys = np.repeat(codes[:, None], 3, axis=1)
    found = lightness16(light.astype(np.float32)) / 655.35
    assert np.abs(found - skimage.color.rgb2lab(greys)[:, 0]).max() < 0.003


def test_lightness_never_leaves_its_range() -> None:
    found = lightness16(np.array([-0.5, 0.0, 1.0, 1.5], np.float32))
    assert found.tolist() == [0, 0, 65535, 65535]


@given(st.lists(st.integers(0, 65535), min_size=1, max_size=60), st.floats(0, 100))
def test_a_percentile_is_that_of_numpy(values: list[int], percent: float) -> None:
    cells = np.array(values, np.uint16)
    (found,) = percentiles(cells, [percent])
    expected = np.percentile(cells, percent, method="inverted_cdf")
    assert found == pytest.approx(float(expected) * 100 / 65535)


def seen(light: Cells) -> Cells:
    return lightness16(light).astype(np.float32) / np.float32(655.35)


@cache
def sample(name: str) -> Cells:
    path = Path(__file__).parents[3] / "sample_images" / f"{name}.png"
    picture = open_picture(path, name=path.name)
    size = plate_size_for(picture.ref.width, picture.ref.height, Laying(), longest_mm=100.0)
    return lay(picture, Laying(), size, grid_for(size, 1.5, 2.0)[0]).light


def sharp_edges(light: Cells) -> tuple[Numbers, Numbers, Numbers]:
    """Points on edges of more than 15 L* between places that are even for a brush's width.

    Returns the points (row, column), the way to the lighter side, and the lightness halfway.
    """
    lightness = seen(squint(light, 1.0))
    slope = np.stack([np.gradient(lightness, axis=axis) for axis in (0, 1)])
    at = np.argwhere(canny(lightness / 100, 1.0, 0.03, 0.06)).astype(float)
    way = slope[:, at[:, 0].astype(int), at[:, 1].astype(int)].T
    way /= np.linalg.norm(way, axis=1, keepdims=True)
    mean = seen(uniform_filter(light, BRUSH + 1))
    squares = uniform_filter(lightness**2, BRUSH + 1) - uniform_filter(lightness, BRUSH + 1) ** 2
    sides = [map_coordinates(mean, (at + d * way).T, order=1) for d in (-BRUSH, BRUSH)]
    rough = [map_coordinates(squares, (at + d * way).T, order=1) for d in (-9.0, 9.0)]
    inside = np.all((at > 2 * BRUSH) & (at < np.array(light.shape) - 2 * BRUSH), axis=1)
    even = (sides[1] - sides[0] > 15.0) & (np.maximum(*rough) < 36.0) & inside
    keep = np.flatnonzero(even)
    keep = keep[:: max(1, len(keep) // 1500)]
    return at[keep], way[keep], (sides[0] + sides[1])[keep] / 2.0


def moved_by(light: Cells, edges: tuple[Numbers, Numbers, Numbers]) -> tuple[Numbers, Numbers]:
    """How far away the lightness halfway is met now, cells; and how steeply, L* a cell."""
    at, way, halfway = edges
    along = np.arange(-1.5 * BRUSH, 1.5 * BRUSH + 0.1, 0.5)
    points = at[:, None] + along[None, :, None] * way[:, None]
    profile = map_coordinates(seen(light), points.transpose(2, 0, 1), order=1)
    above = profile - halfway[:, None]
    rises = (above[:, :-1] < 0) & (above[:, 1:] >= 0)
    away = np.where(rises, np.abs(along[:-1] + 0.25), np.inf)
    middle = len(along) // 2
    steep = np.diff(profile, axis=1)[:, middle - 6 : middle + 6].max(axis=1) * 2.0
    return away.min(axis=1), steep


@pytest.mark.parametrize("name", SAMPLES)
def test_sharp_edges_of_the_samples_stay_where_they_were(name: str) -> None:
    light = sample(name)
    edges = sharp_edges(light)
    assert len(edges[0]) > 200
    kept, steep = moved_by(squint_keeping_edges(light, SQUINT), edges)
    soft_kept, soft_steep = moved_by(squint(light, SQUINT), edges)
    assert np.mean(kept <= BRUSH) > 0.995
    assert np.median(kept) < np.median(soft_kept)
    assert np.median(steep) > 1.3 * np.median(soft_steep)


@pytest.mark.parametrize("name", SAMPLES)
def test_the_local_mean_lightness_of_the_samples_is_kept(name: str) -> None:
    light = sample(name)
    before, after = (
        seen(squint(part, 4.0 * BRUSH)) for part in (light, squint_keeping_edges(light, SQUINT))
    )
    assert np.abs(after - before).max() < 0.5  # L*


@pytest.mark.parametrize(("period", "line"), [(6, 2), (8, 4), (12, 3), (12, 6), (16, 8)])
def test_hatching_finer_than_the_brush_becomes_a_grey_of_the_same_light(
    period: int, line: int
) -> None:
    light = np.full((240, 240), 0.9, np.float32)
    light[:, np.arange(240) % period < line] = 0.02
    light[:100] = 0.5
    found = squint_keeping_edges(light, SQUINT)
    inner = found[140:220, 40:200]
    assert inner.mean() == pytest.approx(light[140:220, 40:200].mean(), abs=0.02)
    assert seen(inner).std() < 1.0
    assert np.ptp(seen(found[60:140:79, 40:200])) > 1.0  # and the edge beside it is still there


def test_dots_as_wide_as_the_squint_go_and_dots_of_two_brushes_stay() -> None:
    rows, columns = np.mgrid[0:180, 0:180]

    def dots(radius: float) -> Cells:
        light = np.full((180, 180), 0.9, np.float32)
        light[(rows % 60 - 30) ** 2 + (columns % 60 - 30) ** 2 < radius**2] = 0.02
        return light

    def depth(light: Cells) -> float:
        return float(np.ptp(seen(squint_keeping_edges(light, SQUINT))))

    full = float(np.ptp(seen(dots(3.0))))
    assert depth(dots(SQUINT / 2)) < 0.12 * full
    assert depth(dots(BRUSH)) > 0.9 * full


@settings(deadline=None)
@given(st.integers(1, 60), st.integers(1, 60), st.floats(0.0, 12.0), st.floats(0.0, 1.0))
def test_an_even_picture_of_any_size_stays_as_it_is(
    height: int, width: int, sigma: float, grey: float
) -> None:
    light = np.full((height, width), grey, np.float32)
    found = squint_keeping_edges(light, sigma)
    assert found.shape == light.shape
    assert found.dtype == np.float32
    assert found == pytest.approx(light, abs=1e-5)
