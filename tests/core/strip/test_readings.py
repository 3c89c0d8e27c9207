"""One reading: lightness, density, or a step of a grey scale."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.errors import QuantityError
from toneladder.strip.readings import (
    Unit,
    density_of_lightness,
    lightness_of_density,
    read_reading,
    read_spread,
)

# From density to CIE L*: D = -log10 Y and L* = 116 Y^(1/3) - 16, worked out by hand from CIE 15
# at densities whose cube root of Y is a plain power of ten.
BY_HAND = [(0.0, 100.0), (0.3, 76.14), (0.9, 42.14), (1.5, 20.68), (2.1, 7.17)]

GREY_SCALE = tuple(0.05 + 0.15 * step for step in range(21))  # 21 steps, 0.15 apart


@pytest.mark.parametrize(("density", "tone"), BY_HAND)
def test_a_density_is_the_lightness_of_its_reflectance(density: float, tone: float) -> None:
    assert lightness_of_density(density) == pytest.approx(tone, abs=0.01)
    assert density_of_lightness(tone) == pytest.approx(density, abs=1e-3)


@given(st.floats(0.0, 4.0))
def test_density_there_and_back(density: float) -> None:
    assert density_of_lightness(lightness_of_density(density)) == pytest.approx(density, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "unit", "tone"),
    [
        ("63.5", Unit.LIGHTNESS, 63.5),
        ("63,5", Unit.LIGHTNESS, 63.5),
        ("63 L*", Unit.LIGHTNESS, 63.0),
        ("0", Unit.LIGHTNESS, 0.0),
        ("0,30", Unit.DENSITY, 76.14),
        (".9", Unit.DENSITY, 42.14),
    ],
)
def test_readings_are_typed_as_people_type(text: str, unit: Unit, tone: float) -> None:
    assert read_reading(text, unit)[0] == pytest.approx(tone, abs=0.01)


@pytest.mark.parametrize(
    ("text", "density"), [("1", 0.05), ("step 5", 0.65), ("Step 21", 3.05), ("5,5", 0.725)]
)
def test_a_matching_step_is_read_as_its_density(text: str, density: float) -> None:
    tone, spread = read_reading(text, Unit.STEP, GREY_SCALE)
    assert tone == pytest.approx(lightness_of_density(density), abs=0.6)
    assert spread >= 0.6
    if "," not in text:
        assert tone == pytest.approx(lightness_of_density(density))


def test_a_match_among_coarse_steps_is_less_sure_than_a_reading() -> None:
    assert read_reading("3", Unit.STEP, GREY_SCALE)[1] > 2.0


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("101", Unit.LIGHTNESS),
        ("-3", Unit.LIGHTNESS),
        ("dark", Unit.LIGHTNESS),
        ("", Unit.LIGHTNESS),
        ("=1+1", Unit.LIGHTNESS),
        ("7", Unit.DENSITY),
        ("0", Unit.STEP),
        ("22", Unit.STEP),
        ("3.2", Unit.STEP),
        ("1e9", Unit.STEP),
    ],
)
def test_what_no_print_can_be_is_refused(text: str, unit: Unit) -> None:
    with pytest.raises(QuantityError):
        read_reading(text, unit, GREY_SCALE)


def test_a_step_without_a_grey_scale_is_refused() -> None:
    with pytest.raises(QuantityError, match="grey scale of 0 steps"):
        read_reading("3", Unit.STEP)


def test_a_spread_is_typed_too() -> None:
    assert read_spread("0,8") == 0.8
    with pytest.raises(QuantityError):
        read_spread("31")
