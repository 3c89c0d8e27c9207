"""Tables give the light that the formula gives."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from toneladder.optics import linear_from_srgb
from toneladder.picture.light import REC709, DeepTables, PairTables, over_paper, srgb_response

PIXELS = arrays(np.uint8, (7, 4))


@given(PIXELS)
def test_pairs_of_samples_give_the_light_of_the_formula(quads: np.ndarray) -> None:
    pairs = np.ascontiguousarray(quads).view("<u2")
    light = PairTables.of(srgb_response(3, 256)).light(pairs)
    expected = linear_from_srgb(quads[:, :3] / 255.0) @ np.array(REC709) * 65535
    assert np.abs(light - expected).max() <= 2.0  # three roundings, of which blue makes up for two


def test_a_neutral_grey_is_exactly_rounded() -> None:
    codes = np.arange(256, dtype=np.uint8)
    quads = np.repeat(codes[:, None], 4, axis=1)
    light = PairTables.of(srgb_response(3, 256)).light(quads.view("<u2"))
    assert np.array_equal(light, np.rint(linear_from_srgb(codes / 255.0) * 65535))


@given(arrays(np.uint16, (9, 3)))
def test_deep_samples_give_the_light_of_the_formula(samples: np.ndarray) -> None:
    light = DeepTables.of(srgb_response(3, 65536)).light(samples)
    expected = linear_from_srgb(samples / 65535.0) @ np.array(REC709) * 65535
    assert np.abs(light - expected).max() <= 0.51


@given(st.integers(0, 65535), st.integers(0, 255))
def test_cover_lies_between_paper_and_picture(light: int, cover: int) -> None:
    over = int(over_paper(np.array([light], np.uint16), np.array([cover], np.uint8), 255)[0])
    assert light <= over <= 65535
    if cover == 255:
        assert over == light
    if cover == 0:
        assert over == 65535
