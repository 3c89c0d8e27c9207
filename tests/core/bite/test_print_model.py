"""What a bite prints: limits that follow from the published relations, and laws."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.bite.print_model import BathModel, printed_lightness
from toneladder.optics import density, luminance

BATH = BathModel(
    rate_um_per_min=4.0,
    coverage=0.5,
    diameter_um=75.0,
    spread=0.4,
    ink_strength=0.5,
    black=0.022,
    widest_gap_um=450.0,
    white_lightness=90.0,
)

MINUTE = 60.0


def test_no_bite_prints_wiped_white() -> None:
    assert printed_lightness(0.0, BATH) == pytest.approx(90.0, abs=1e-9)


@given(st.floats(0.0, 1500.0))
def test_nothing_prints_lighter_than_white_or_darker_than_deep_ink(bite: float) -> None:
    printed = luminance(printed_lightness(bite, BATH))
    assert BATH.black - 1e-12 <= printed <= luminance(90.0) + 1e-12


def test_land_left_white_keeps_the_print_grey() -> None:
    # Murray 1936: where a share of the surface stays white, density is at most -log10 of it;
    # Yule and Nielsen 1951: n times as much where light is scattered sideways
    standing = replace(
        BATH,
        diameter_um=1e6,
        widest_gap_um=1e12,
        ink_strength=1e3,
        black=1e-12,
        white_lightness=100.0,
    )
    printed = density(luminance(printed_lightness(MINUTE, standing)))
    assert printed == pytest.approx(1.6 * -np.log10(0.5), rel=1e-3)


def test_a_ground_bitten_away_prints_light_again() -> None:
    deepest = np.min(printed_lightness(np.linspace(0.0, 60.0, 200) * MINUTE, BATH))
    assert printed_lightness(90.0 * MINUTE, BATH) > deepest + 20.0


@given(st.floats(0.25, 4.0), st.floats(1.0, 900.0))
def test_a_faster_bath_only_shortens_the_bite(pace: float, bite: float) -> None:
    faster = replace(BATH, rate_um_per_min=BATH.rate_um_per_min * pace)
    assert printed_lightness(bite / pace, faster) == pytest.approx(
        printed_lightness(bite, BATH), abs=1e-6
    )


def test_many_baths_are_worked_out_at_once() -> None:
    bites = np.array([0.0, 30.0, 300.0])
    rates = np.array([[2.0], [4.0]])
    both = printed_lightness(bites, replace(BATH, rate_um_per_min=rates))
    assert both.shape == (2, 3)
    assert both[1] == pytest.approx(printed_lightness(bites, BATH))
