"""Squinting lets detail go and keeps the light."""

from types import ModuleType

import numpy as np
import pytest
import skimage.color
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.ndimage import gaussian_filter

from toneladder.picture.squint import lightness16, percentiles, squint


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
