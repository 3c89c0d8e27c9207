"""Ink on paper."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from skimage.color import rgb2lab

from toneladder.optics import lightness
from toneladder.preview.colour import colour_of, luminance_of, palette
from toneladder.preview.values import InkAndPaper

WARM = InkAndPaper()
LIGHTNESS = np.linspace(0.0, 100.0, 401)
hexes = st.integers(0, 0xFFFFFF).map(lambda code: f"#{code:06x}")


def lightness_by_scikit_image(srgb: np.ndarray) -> np.ndarray:
    return np.asarray(rgb2lab(srgb))[..., 0]


@given(hexes, hexes)
def test_a_colour_has_exactly_the_lightness_asked_for(ink: str, paper: str) -> None:
    found = lightness_by_scikit_image(colour_of(LIGHTNESS, ink, paper))
    # 0.03: the standard's luminance weights have four digits, the library's have more
    assert np.abs(found - LIGHTNESS).max() < 0.03


def test_paper_and_ink_print_in_their_own_colours() -> None:
    ends = [lightness(luminance_of(WARM.paper)), lightness(luminance_of(WARM.ink))]
    codes = np.rint(255 * colour_of(ends, WARM.ink, WARM.paper)).astype(int)
    assert codes.tolist() == [[0xF4, 0xEF, 0xE3], [0x1D, 0x1B, 0x1A]]


def test_the_greys_between_are_warm_and_never_turn_back() -> None:
    codes = colour_of(LIGHTNESS, WARM.ink, WARM.paper)
    assert (np.diff(codes, axis=0) >= 0).all()
    inner = codes[40:380]
    assert (inner[:, 0] >= inner[:, 1]).all()
    assert (inner[:, 1] >= inner[:, 2]).all()


def test_a_palette_has_one_colour_for_every_tone_within_a_byte_of_its_lightness() -> None:
    tones = (90.0, 72.0, 55.0, 37.0, 20.0)
    colours = palette(tones, WARM)
    assert colours.dtype == np.uint8
    assert colours.shape == (5, 3)
    assert np.abs(lightness_by_scikit_image(colours / 255.0) - tones).max() < 0.3
