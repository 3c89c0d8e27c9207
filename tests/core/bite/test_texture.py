"""The ground's restlessness against the published covariance, and against grounds laid out."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.bite.grain import Grain
from toneladder.bite.texture import area_variance, correlation_area_um2, covariance

# Chiu, Stoyan, Kendall and Mecke, Stochastic Geometry and its Applications (2013), ch. 3, equal
# discs; computed apart from this program: coverage, covariance at 0.5, 1, 1.5 and 2 radii
COVARIANCE = [
    (0.3, (0.225619, 0.163330, 0.115879, 0.09)),
    (0.5, (0.401936, 0.327826, 0.276297, 0.25)),
    (0.7, (0.605321, 0.544108, 0.507076, 0.49)),
]

# The same source: coverage, variance of a large window's coverage times window / radius^2
WINDOW_VARIANCE = [(0.3, 0.597343), (0.5, 0.644134), (0.7, 0.461574)]


@pytest.mark.parametrize(("coverage", "expected"), COVARIANCE)
def test_two_points_are_both_covered_as_often_as_published(
    coverage: float, expected: tuple[float, ...]
) -> None:
    shared = covariance([0.5, 1.0, 1.5, 2.0], Grain(coverage, 2.0, 0.0))
    assert shared == pytest.approx(np.array(expected), abs=6e-7)


@pytest.mark.parametrize(("coverage", "expected"), WINDOW_VARIANCE)
def test_a_large_window_varies_as_published(coverage: float, expected: float) -> None:
    grain = Grain(coverage, 2.0, 0.0)
    spread = coverage * (1.0 - coverage)
    assert correlation_area_um2(grain) * spread == pytest.approx(expected, abs=2e-6)
    assert area_variance(1e9, grain) * 1e9 == pytest.approx(expected, abs=2e-6)


@given(st.floats(0.1, 0.9), st.floats(10.0, 200.0), st.floats(0.0, 0.6))
def test_points_close_together_and_far_apart_are_plain(
    coverage: float, diameter: float, spread: float
) -> None:
    grain = Grain(coverage, diameter, spread)
    near, far = covariance([0.0, 100.0 * diameter], grain)
    assert near == pytest.approx(coverage, abs=1e-9)
    assert far == pytest.approx(coverage**2, abs=1e-9)
    assert area_variance(0.0, grain) == pytest.approx(coverage * (1.0 - coverage))


def test_coarser_and_more_mixed_grounds_are_more_restless() -> None:
    even = correlation_area_um2(Grain(0.5, 75.0, 0.0))
    assert correlation_area_um2(Grain(0.5, 150.0, 0.0)) == pytest.approx(4.0 * even)
    assert correlation_area_um2(Grain(0.5, 75.0, 0.4)) > even
