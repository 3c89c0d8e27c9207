"""A rise past black is believed only where patches show it."""

import numpy as np
import pytest

from toneladder.bite.fitting.rising import first_of_rise

BITES = np.array([0.0, 60.0, 240.0, 480.0, 720.0, 960.0])


@pytest.mark.parametrize(
    ("tones", "found"),
    [
        ([91, 60, 30, 20, 24, 29], 480.0),  # two witnesses, lighter and lighter
        ([91, 60, 20, 22, 25, 33], 240.0),
        ([91, 60, 30, 20, 20, 20], None),  # level
        ([91, 60, 30, 24, 20, 26], None),  # one witness
        ([91, 60, 30, 20, 26, 20.5], None),  # the last speaks against it
        ([91, 60, 30, 20, 21, 21.5], None),  # no more than a reading may err
        ([91, 60, 21, 31, 31, 30.5], None),  # one dark reading, then level: a bad patch
        ([91, 60, 50, 40, 30, 20], None),
    ],
)
def test_two_patches_must_get_lighter_and_lighter(tones: list[float], found: float | None) -> None:
    assert first_of_rise(BITES, np.array(tones, dtype=float), np.full(6, 0.6)) == found


def test_the_order_in_which_patches_are_given_does_not_matter() -> None:
    tones = np.array([91.0, 60.0, 30.0, 20.0, 24.0, 29.0])
    turned = first_of_rise(BITES[::-1], tones[::-1], np.full(6, 0.6))
    assert turned == 480.0
