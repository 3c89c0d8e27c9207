"""A small copy keeps the picture's light and proportions."""

import numpy as np
from PIL import Image

from toneladder.picture.small_copy import small_copy


def test_a_copy_has_the_mean_light_of_what_it_stands_for() -> None:
    light = np.zeros((400, 800), np.uint16)
    light[:, ::2] = 65535
    copy = small_copy(light, 100)
    assert copy.shape == (50, 100)
    assert np.all(np.abs(copy.astype(int) - 188) <= 1)  # sRGB code of half the light [IEC61966-2-1]


def test_a_small_picture_keeps_its_size() -> None:
    light = np.full((3, 5), 65535, np.uint16)
    assert np.array_equal(small_copy(light, 100), np.full((3, 5), 255, np.uint8))


def test_a_copy_agrees_with_another_library_where_light_is_even() -> None:
    ramp = np.tile(np.linspace(0, 65535, 1200).astype(np.uint16), (60, 1))
    copy = small_copy(ramp, 300)
    other = Image.fromarray((ramp / 65535.0).astype(np.float32)).resize(
        (300, 15), Image.Resampling.BOX
    )
    linear = np.asarray(other)
    codes = np.where(linear <= 0.0031308, 12.92 * linear, 1.055 * linear ** (1 / 2.4) - 0.055) * 255
    assert np.abs(copy - codes).max() < 1.0
