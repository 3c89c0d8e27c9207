"""Darkness is 10 less a tenth of L*."""

import pytest

from toneladder.quantities import Manner, write_tone


@pytest.mark.parametrize(
    ("lightness", "written"), [(100.0, "0.0"), (93.0, "0.7"), (48.0, "5.2"), (0.0, "10.0")]
)
def test_darkness_is_written_with_one_decimal(lightness: float, written: str) -> None:
    assert write_tone(lightness) == written
    assert write_tone(lightness, Manner(decimal=",")) == written.replace(".", ",")
