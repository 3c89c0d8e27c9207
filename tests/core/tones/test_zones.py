"""Areas of one tone, and which of them meet, beside a general library's answers."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as some
from hypothesis.extra.numpy import arrays
from numpy.typing import NDArray
from scipy import ndimage

from toneladder.tones.places import small_darks
from toneladder.tones.zones import zones

ROUND = np.ones((3, 3))
TONES = arrays(
    np.uint8,
    some.tuples(some.integers(1, 9), some.integers(1, 9)),
    elements=some.integers(0, 3),
)


@given(TONES)
def test_zones_are_the_connected_cells_of_each_tone(tones: NDArray[np.uint8]) -> None:
    found = zones(tones)
    for tone in range(4):
        pieces, number = ndimage.label(tones == tone, ROUND)
        sizes = np.bincount(pieces.ravel(), minlength=number + 1)[1:]
        assert sorted(found.cells[found.tone == tone]) == sorted(sizes)


@given(TONES, some.integers(1, 3), some.integers(1, 12))
def test_small_darks_are_openings_painted_around_and_not_at_the_edge(
    tones: NDArray[np.uint8], step: int, limit: int
) -> None:
    openings, number = ndimage.label(tones >= step, ROUND)
    painted = ndimage.binary_dilation(tones == step - 1)
    at_edge = np.ones(tones.shape, dtype=np.bool_)
    at_edge[1:-1, 1:-1] = False
    small = [
        np.count_nonzero(opening) < limit and painted[opening].any() and not at_edge[opening].any()
        for opening in (openings == one for one in range(1, number + 1))
    ]
    assert small_darks(zones(tones), step, limit) == sum(small)
