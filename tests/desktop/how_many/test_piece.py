"""The frame stays on the plate, and begins where there is most to compare."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder_desktop.how_many.piece import Piece, richest

shares = st.floats(0.01, 1.0)
places = st.floats(-1.0, 2.0)


@given(places, places, shares, shares)
def test_a_piece_lies_on_the_plate_and_keeps_its_size(
    x: float, y: float, width: float, height: float
) -> None:
    piece = Piece.about(x, y, width, height)
    assert (piece.width, piece.height) == (width, height)
    assert -1e-9 <= piece.x <= 1.0 - width + 1e-9
    assert -1e-9 <= piece.y <= 1.0 - height + 1e-9


@given(st.floats(0.2, 0.8), st.floats(0.2, 0.8))
def test_a_place_with_room_around_it_is_the_middle(x: float, y: float) -> None:
    assert Piece.about(x, y, 0.4, 0.4).middle == pytest.approx((x, y))


def test_the_frame_begins_where_the_picture_has_most_greys() -> None:
    # plain black, but for a ramp of all greys in the lower right
    cells = np.zeros((300, 400), dtype=np.uint8)
    cells[210:270, 250:350] = np.linspace(0, 255, 100).astype(np.uint8)
    piece = richest(cells, 0.25, 0.2)
    assert 0.5 < piece.middle[0] < 0.9
    assert 0.6 < piece.middle[1] < 1.0


def test_a_plate_of_one_grey_and_a_plate_of_one_cell_have_a_frame_too() -> None:
    for shape in ((300, 400), (1, 1), (2, 3000)):
        piece = richest(np.full(shape, 7, dtype=np.uint8), 0.3, 0.3)
        assert 0.0 <= piece.x <= 0.7
