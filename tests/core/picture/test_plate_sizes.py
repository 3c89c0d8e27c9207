"""Common plates, and the one that suits a picture."""

from math import log

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.picture.plate_sizes import common_sizes, nearest_common
from toneladder.picture.values import PlateSize


def test_common_plates_are_whole_centimetres_or_whole_inches() -> None:
    # an inch is 25.4 mm by definition
    for common in common_sizes():
        unit = 25.4 if common.in_inches else 10.0
        for side in (common.size.width_mm, common.size.height_mm):
            assert side / unit == pytest.approx(round(side / unit), abs=1e-9)
        assert common.size.width_mm >= common.size.height_mm


def test_no_common_plate_is_listed_twice() -> None:
    sizes = common_sizes()
    assert len(set(sizes)) == len(sizes)


def test_a_picture_gets_the_plate_of_its_shape_of_middling_size() -> None:
    assert nearest_common(6000, 4000) == PlateSize(300.0, 200.0)
    assert nearest_common(4000, 6000) == PlateSize(200.0, 300.0)
    assert nearest_common(3000, 4000) == PlateSize(150.0, 200.0)
    assert nearest_common(4000, 3000, in_inches=True) == PlateSize(203.2, 152.4)
    assert nearest_common(4000, 3000, about_cm2=1500.0) == PlateSize(400.0, 300.0)


@given(st.integers(1, 10_000), st.integers(1, 10_000), st.booleans())
def test_no_common_plate_is_nearer_in_shape(width: int, height: int, inches: bool) -> None:
    found = nearest_common(width, height, in_inches=inches)
    wanted = log(width / height)
    assert (found.width_mm - found.height_mm) * (width - height) >= 0.0
    for common in common_sizes():
        if common.in_inches == inches:
            shape = log(common.size.width_mm / common.size.height_mm)
            off = min(abs(shape - wanted), abs(-shape - wanted))
            assert abs(log(found.width_mm / found.height_mm) - wanted) <= off + 1e-8
