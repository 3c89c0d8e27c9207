"""Outlines lose the corners that nobody would miss, and no others."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from skimage.measure import approximate_polygon

from toneladder.tones.simplifying import simplified


def wobbly(seed: int, corners: int) -> NDArray[np.float64]:
    draw = np.random.default_rng(seed)
    around = np.linspace(0.0, 2.0 * np.pi, corners, endpoint=False)
    reach = 20.0 + draw.normal(scale=2.0, size=corners)
    return np.stack([reach * np.cos(around), reach * np.sin(around)], axis=1)


@given(st.integers(0, 10_000), st.integers(3, 200), st.floats(0.1, 5.0))
def test_the_corners_that_stay_are_those_of_a_general_library(
    seed: int, corners: int, tolerance: float
) -> None:
    # beside scikit-image, ring by ring
    ring = wobbly(seed, corners)
    expected = approximate_polygon(np.concatenate([ring, ring[:1]]), tolerance)[:-1]
    (found,) = simplified([ring], tolerance) or (np.empty((0, 2)),)
    if len(expected) >= 3:
        assert found == pytest.approx(expected)
    else:
        assert not len(found)


@given(st.integers(0, 1000), st.lists(st.integers(3, 60), min_size=1, max_size=5))
def test_many_outlines_at_once_are_each_by_itself(seed: int, sizes: list[int]) -> None:
    rings = [wobbly(seed + n, size) for n, size in enumerate(sizes)]
    together = simplified(rings, 1.0)
    apart = [simple for ring in rings for simple in simplified([ring], 1.0)]
    assert len(together) == len(apart)
    assert all(np.array_equal(a, b) for a, b in zip(together, apart, strict=True))


def test_what_has_no_inside_is_left_out() -> None:
    assert simplified([], 1.0) == ()
    assert simplified([np.array([[0.0, 0.0], [5.0, 5.0]])], 1.0) == ()
    assert simplified([np.array([[0.0, 0.0], [5.0, 5.0], [9.0, 9.0]])], 1.0) == ()
