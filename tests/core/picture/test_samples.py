"""Samples of any depth become light."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.optics import linear_from_srgb
from toneladder.picture.samples import floating_strips, whole_number_strips


def test_floating_samples_are_linear_light() -> None:
    samples = np.array([[[0.0], [0.18], [1.0]]], np.float32)
    assert floating_strips(samples, 1)(0, 1)[0].tolist() == [0, 11796, 65535]


def test_what_is_no_number_is_paper_and_what_is_lighter_than_white_is_white() -> None:
    samples = np.array([[[np.nan], [np.inf], [-np.inf], [7.0], [-3.0]]], np.float32)
    assert floating_strips(samples, 1)(0, 1)[0].tolist() == [65535, 65535, 0, 65535, 0]


def test_a_colour_weighs_as_the_eye_weighs_it() -> None:
    # IEC 61966-2-1: shares of red, green and blue in luminance
    samples = np.eye(3)[None]
    assert floating_strips(samples, 3)(0, 1)[0] / 65535 == pytest.approx(
        [0.2126, 0.7152, 0.0722], abs=1e-5
    )
    whole = (samples * 65535).astype(np.uint16)
    light = whole_number_strips(whole, 16, 3, b"")(0, 1)[0]
    assert light / 65535 == pytest.approx([0.2126, 0.7152, 0.0722], abs=1e-5)


@pytest.mark.parametrize("bits", [1, 2, 4, 8, 10, 12, 14, 16, 32])
def test_any_depth_runs_from_black_to_white(bits: int) -> None:
    full = (1 << bits) - 1
    codes = np.array([[[0], [full // 3], [full]]], np.uint64)
    samples = codes.astype(np.uint32 if bits > 16 else np.uint16)
    light = whole_number_strips(samples, bits, 1, b"")(0, 1)[0]
    expected = linear_from_srgb(np.array([0, full // 3, full]) / full)
    assert light / 65535 == pytest.approx(expected, abs=1e-5)
    inverse = whole_number_strips(samples, bits, 1, b"", white_is_zero=True)(0, 1)[0]
    assert inverse[0] == 65535
    assert inverse[-1] == 0


@given(st.integers(0, 255), st.integers(1, 255))
def test_weakened_colours_are_as_those_that_are_not(code: int, cover: int) -> None:
    plain = np.array([[[code, cover]]], np.uint8)
    weakened = np.array([[[round(code * cover / 255), cover]]], np.uint8)
    expected = whole_number_strips(plain, 8, 1, b"", clear=True)(0, 1)
    found = whole_number_strips(weakened, 8, 1, b"", clear=True, premultiplied=True)(0, 1)
    error = 255 / cover / 255  # a weakened code is rounded, and so is the code it stood for
    slope = 2.4 * 65535 * cover / 255
    assert abs(int(found[0, 0]) - int(expected[0, 0])) <= error * slope + 1


def test_strips_are_rows_of_the_whole() -> None:
    samples = np.random.default_rng(1).integers(0, 256, (9, 4, 3), dtype=np.uint8)
    strip = whole_number_strips(samples, 8, 3, b"")
    assert np.array_equal(np.concatenate([strip(0, 5), strip(5, 9)]), strip(0, 9))
