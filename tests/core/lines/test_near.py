"""What lies near a cell, beside a general library's answers."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as some
from hypothesis.extra.numpy import arrays
from numpy.typing import NDArray
from scipy import ndimage

from toneladder.lines.near import most_about, nearest, neighbours, number_about

SHAPES = some.tuples(some.integers(1, 20), some.integers(1, 20))
CELLS = arrays(np.bool_, SHAPES)
GREYS = arrays(np.uint8, SHAPES)


def by_distance(cells: NDArray[np.bool_]) -> NDArray[np.intp]:
    """Flat numbers of the nearest of ``cells``, from an exact distance transform."""
    rows, columns = ndimage.distance_transform_edt(
        ~cells, return_distances=False, return_indices=True
    )
    numbers: NDArray[np.intp] = rows.astype(np.intp) * cells.shape[1] + columns
    return numbers


@given(CELLS)
def test_the_nearest_are_those_of_an_exact_distance_transform(cells: NDArray[np.bool_]) -> None:
    assume(cells.any())
    everywhere = np.ones_like(cells)
    assert np.array_equal(nearest(cells, everywhere), by_distance(cells).ravel())


@pytest.mark.parametrize("apart", [3, 9, 40])
def test_far_ones_are_found_as_well(apart: int) -> None:
    cells = np.zeros((90, 70), dtype=np.bool_)
    cells[::apart, ::apart] = True
    at = np.random.default_rng(1).random(cells.shape) < 0.1
    assert np.array_equal(nearest(cells, at), by_distance(cells)[at])


@given(GREYS, some.integers(0, 9))
def test_the_most_about_a_cell_is_that_of_a_general_filter(
    greys: NDArray[np.uint8], reach: int
) -> None:
    expected = ndimage.maximum_filter(greys, 2 * reach + 1, mode="constant")
    assert np.array_equal(most_about(greys, reach), expected)


@given(CELLS, some.integers(0, 9))
def test_the_number_about_a_cell_is_that_of_a_general_filter(
    cells: NDArray[np.bool_], reach: int
) -> None:
    square = np.ones((2 * reach + 1, 2 * reach + 1), np.int64)
    expected = ndimage.convolve(cells.astype(np.int64), square, mode="constant")
    found = number_about(cells, np.arange(cells.size), reach)
    assert np.array_equal(found, expected.ravel())


def test_neighbours_are_given_row_by_row_and_none_beyond_the_edge() -> None:
    cells = np.arange(1, 7).reshape(2, 3)
    at = np.array([[False, False, True], [False, True, False]])
    assert neighbours(cells, at).tolist() == [
        [0, 0, 0, 2, 3, 0, 5, 6, 0],
        [1, 2, 3, 4, 5, 6, 0, 0, 0],
    ]
