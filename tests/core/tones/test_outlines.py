"""From outlines to cells by the even-odd rule, and from cells to outlines."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import ndimage
from skimage.measure import points_in_poly

from toneladder.tones.outlines import inside, outlines

points = st.tuples(st.floats(-10.0, 50.0), st.floats(-10.0, 40.0))


@given(
    st.lists(points, min_size=3, max_size=9, unique=True), st.integers(1, 40), st.integers(1, 30)
)
def test_what_lies_inside_is_what_a_general_library_says(
    ring: list[tuple[float, float]], width: int, height: int
) -> None:
    # beside scikit-image's even-odd test of single points
    rows, columns = np.mgrid[0:height, 0:width]
    middles = np.stack([columns, rows], axis=-1).reshape(-1, 2) + 0.5
    corners = np.array(ring) + 1e-4 * np.array([np.pi, np.e])  # no corner just on a middle
    expected = points_in_poly(middles, corners).reshape(height, width)
    assert np.array_equal(inside([corners], (height, width)), expected)


def test_a_ring_within_a_ring_is_a_hole() -> None:
    outer, inner = square(0, 0, 10), square(3, 3, 4)
    cells = inside([outer, inner], (10, 10))
    assert cells.sum() == 100 - 16
    assert not cells[3:7, 3:7].any()


@given(st.floats(0.1, 19.9), st.floats(0.1, 9.9), st.floats(0.1, 9.9))
def test_places_that_share_a_border_share_out_every_cell(x: float, y: float, z: float) -> None:
    left = [(0.0, 0.0), (x, 0.0), (y, 5.0), (z, 10.0), (0.0, 10.0)]
    right = [(20.0, 0.0), (x, 0.0), (y, 5.0), (z, 10.0), (20.0, 10.0)]
    one, other = inside([left], (10, 20)), inside([right], (10, 20))
    assert np.array_equal(one, ~other)


def test_nothing_lies_inside_no_outline() -> None:
    assert not inside([], (4, 5)).any()
    assert inside([square(0, 0, 3)], (0, 5)).shape == (0, 5)


@given(st.integers(0, 10_000), st.floats(2.0, 6.0))
def test_cells_come_back_from_their_outlines_but_for_the_border(seed: int, coarse: float) -> None:
    noise = ndimage.gaussian_filter(np.random.default_rng(seed).normal(size=(60, 80)), coarse)
    cells = noise > 0.0
    found = inside(outlines(cells, 0.4, 4000), cells.shape)
    core, rim = (
        ndimage.binary_erosion(cells, np.ones((3, 3))),
        ndimage.binary_dilation(cells, np.ones((3, 3))),
    )
    assert not (core & ~found).any()
    assert not (found & ~rim).any()


def test_an_upright_rectangle_comes_back_cell_for_cell_with_its_corners() -> None:
    cells = np.zeros((20, 30), bool)
    cells[4:15, 7:22] = True
    (ring,) = outlines(cells, 0.4, 4000)
    assert np.array_equal(inside([ring], cells.shape), cells)
    assert len(ring) <= 8


@pytest.mark.parametrize("most", [12, 40, 200])
def test_there_are_never_more_corners_than_asked(most: int) -> None:
    noise = ndimage.gaussian_filter(np.random.default_rng(5).normal(size=(120, 160)), 2.0)
    rings = outlines(noise > 0.0, 0.5, most)
    assert sum(map(len, rings)) <= most


def square(x: float, y: float, side: float) -> list[tuple[float, float]]:
    return [(x, y), (x + side, y), (x + side, y + side), (x, y + side)]
