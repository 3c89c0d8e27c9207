"""Numbers stand inside their tones or point at them, and never over one another."""

from itertools import combinations
from math import hypot

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import ndimage

from toneladder.borders.numbers import (
    MOST_LEADERS,
    REACH_MM,
    SLIVER_MM,
    Numbered,
    needed_mm,
    place_numbers,
)
from toneladder.tones.parting import ToneArray

PX = 8.0


def spotted(seed: int, spots: int) -> ToneArray:
    """A plate of 40 x 50 mm with round spots of four tones, some of them large."""
    random = np.random.default_rng(seed)
    tones = np.zeros((320, 400), dtype=np.uint8)
    y, x = np.mgrid[0:320, 0:400]
    for _ in range(spots):
        row, column = random.uniform(0, 320), random.uniform(0, 400)
        radius = random.choice([5.0, 8.0, 14.0, 40.0], p=[0.4, 0.3, 0.2, 0.1])
        tones[np.hypot(y - row, x - column) < radius] = random.integers(0, 4)
    return tones


def tone_at(tones: ToneArray, x_mm: float, y_mm: float) -> int:
    return int(tones[int(y_mm * PX), int(x_mm * PX)])


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 10_000), st.integers(0, 60))
def test_numbers_name_what_they_stand_in_or_point_at(seed: int, spots: int) -> None:
    tones = spotted(seed, spots)
    for number in place_numbers(tones, PX).numbers:
        for x, y in number.leaders or ((number.x_mm, number.y_mm),):
            assert tone_at(tones, x, y) == number.tone
        for x, y in number.leaders:
            assert hypot(x - number.x_mm, y - number.y_mm) <= REACH_MM + 1.0
        assert len(number.leaders) <= MOST_LEADERS


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 10_000), st.integers(0, 60))
def test_the_circle_of_a_number_inside_holds_its_tone_alone(seed: int, spots: int) -> None:
    tones = spotted(seed, spots)
    y, x = (np.mgrid[0:320, 0:400] + 0.5) / PX
    for number in place_numbers(tones, PX).numbers:
        if not number.leaders:
            assert number.radius_mm >= needed_mm(number.tone, 2.4)
            inside = np.hypot(y - number.y_mm, x - number.x_mm) < number.radius_mm
            assert set(np.unique(tones[inside])) == {number.tone}
            assert number.radius_mm <= number.x_mm <= 50.0 - number.radius_mm
            assert number.radius_mm <= number.y_mm <= 40.0 - number.radius_mm


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 10_000), st.integers(20, 90))
def test_no_number_lies_over_another_or_over_a_leader(seed: int, spots: int) -> None:
    numbers = place_numbers(spotted(seed, spots), PX).numbers
    square = 2.0 / 4.0  # room is given out in squares of a quarter of a millimetre
    for one, other in combinations(numbers, 2):
        needed = needed_mm(one.tone, 2.4) + needed_mm(other.tone, 2.4)
        assert hypot(one.x_mm - other.x_mm, one.y_mm - other.y_mm) > needed - square
    for one in numbers:
        for other in numbers:
            for x, y in other.leaders if other is not one else ():
                way = np.linspace(0.0, 1.0, 60)[:, None]
                line = np.array([x, y]) + way * (np.array([other.x_mm, other.y_mm]) - (x, y))
                apart = np.hypot(*(line - (one.x_mm, one.y_mm)).T).min()
                assert apart > needed_mm(one.tone, 2.4) - square


def test_a_place_has_its_number_where_the_widest_circle_fits() -> None:
    tones = np.zeros((200, 400), dtype=np.uint8)
    tones[20:180, 200:360] = 1
    numbers = {n.tone: n for n in place_numbers(tones, PX).numbers}
    cells = ndimage.distance_transform_edt(np.pad(tones == 1, 1))[1:-1, 1:-1]
    assert numbers[1].radius_mm == pytest.approx(cells.max() / PX, abs=0.4)
    assert (numbers[1].x_mm, numbers[1].y_mm) == pytest.approx((35.0, 12.5), abs=0.4)
    assert numbers[0].x_mm < 25.0


def test_every_place_is_numbered_or_counted() -> None:
    tones = np.zeros((160, 160), dtype=np.uint8)
    tones[76:84, 76:84] = 2  # a millimetre wide: led to
    tones[20:24, 20:60] = 1  # a sliver
    found = place_numbers(tones, PX)
    assert [n.tone for n in found.numbers] == [0, 2]
    assert len(found.numbers[1].leaders) == 1
    assert (found.slivers, found.crowded_out) == (1, 0)
    assert 4.0 / PX / 2.0 < SLIVER_MM


def test_neighbours_of_one_tone_share_a_number() -> None:
    tones = np.zeros((160, 160), dtype=np.uint8)
    for column in (60, 76, 92):
        tones[80:90, column : column + 10] = 3
    led = [n for n in place_numbers(tones, PX).numbers if n.leaders]
    assert [len(n.leaders) for n in led] == [3]


def test_a_crowd_is_counted_and_not_written_over() -> None:
    tones = np.zeros((160, 160), dtype=np.uint8)
    tones[8::16, :] = 9
    for row in range(0, 160, 16):
        for column in range(0, 160, 16):
            tones[row : row + 10, column : column + 10] = 1 + (row + column) // 16 % 8
    found = place_numbers(tones, PX)
    assert isinstance(found, Numbered)
    assert found.crowded_out > 0


def test_a_tiny_plate_has_room_for_nothing() -> None:
    found = place_numbers(np.zeros((3, 2), dtype=np.uint8), PX)
    assert found.numbers == ()


def test_ten_needs_more_room_than_one_figure() -> None:
    assert needed_mm(10, 2.4) > needed_mm(1, 2.4) > 1.2
