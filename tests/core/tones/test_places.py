"""Places, borders and small darks, on shapes measured by hand."""

import numpy as np
import pytest
from numpy.typing import NDArray

from toneladder.tones.places import border_cells, paintings, places, small_darks
from toneladder.tones.zones import zones


def disc(radius: float, size: int = 400) -> NDArray[np.uint8]:
    y, x = np.mgrid[:size, :size] - size / 2.0
    inside: NDArray[np.uint8] = (x * x + y * y < radius * radius).astype(np.uint8)
    return inside


@pytest.mark.parametrize("radius", [20.0, 60.0, 150.0])
def test_the_border_of_a_disc_is_its_circumference(radius: float) -> None:
    assert border_cells(disc(radius), 2)[0, 1] == pytest.approx(2 * np.pi * radius, rel=0.01)


@pytest.mark.parametrize("degrees", [0, 10, 22.5, 30, 45, 60, 90])
def test_a_straight_border_has_its_length_at_any_angle(degrees: float) -> None:
    a = np.radians(degrees)
    y, x = np.mgrid[:600, :600] - 299.5
    half = (x * np.cos(a) + y * np.sin(a) > 0).astype(np.uint8)
    length = 600 / max(abs(np.cos(a)), abs(np.sin(a)))
    assert border_cells(half, 2)[0, 1] == pytest.approx(length, rel=0.02)


def test_the_edge_of_the_plate_is_no_border() -> None:
    assert border_cells(np.zeros((50, 70), dtype=np.uint8), 2).sum() == 0


def test_places_touching_at_a_corner_are_one() -> None:
    tones = np.zeros((10, 10), dtype=np.uint8)
    tones[2:4, 2:4] = tones[4:6, 4:6] = 1
    tones[8, 0] = 1
    assert places(tones, 3) == (1, 2, 0)


def test_a_small_dark_is_counted_where_it_is_painted_around_and_not_at_the_edge() -> None:
    tones = np.zeros((100, 100), dtype=np.uint8)
    tones[40:45, 40:45] = 2
    tones[0:5, 0:5] = 2
    tones[60:, :] = 1
    assert small_darks(zones(tones), 1, 50.0) == 1
    assert small_darks(zones(tones), 2, 50.0) == 0


def test_the_work_of_two_bands_is_what_a_ruler_says() -> None:
    tones = np.zeros((800, 1600), dtype=np.uint8)  # 200 x 100 mm at 8 to the millimetre
    tones[400:, :] = 1
    tones[400:, 800:] = 2
    first, second = paintings(tones, 3, 8.0)
    assert (first.area_cm2, second.area_cm2) == (100.0, 50.0)
    assert (first.places, second.places) == (1, 1)
    assert first.border_cm == pytest.approx(20.0, rel=0.02)
    assert first.new_border_cm == pytest.approx(20.0, rel=0.02)
    assert second.border_cm == pytest.approx(15.0, rel=0.02)
    assert second.new_border_cm == pytest.approx(5.0, rel=0.02)
