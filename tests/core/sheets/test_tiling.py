"""Pieces of what is larger than a page: they fit, they overlap, they leave nothing out."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.sheets.tiling import OVERLAP_MM, Tile, tiles

lengths = st.floats(5.0, 3000.0)
rooms = st.tuples(st.floats(60.0, 400.0), st.floats(60.0, 400.0))


@given(lengths, lengths, rooms)
def test_every_piece_fits_its_page(width: float, height: float, room: tuple[float, float]) -> None:
    for tile in tiles(width, height, room):
        assert 0.0 < tile.shown.width <= room[0] + 1e-6
        assert 0.0 < tile.shown.height <= room[1] + 1e-6


@given(lengths, lengths, rooms)
def test_own_pieces_are_the_drawing_each_place_once(
    width: float, height: float, room: tuple[float, float]
) -> None:
    found = tiles(width, height, room)
    assert sum(tile.own.width * tile.own.height for tile in found) == pytest.approx(width * height)
    for before, after in pairwise(found):
        if before.row == after.row:
            assert before.own.right == pytest.approx(after.own.x)
    assert found[0].own.corners[0] == pytest.approx((0.0, 0.0), abs=1e-9)
    assert found[-1].own.corners[2] == pytest.approx((width, height))


@given(lengths, lengths, rooms)
def test_neighbours_both_show_ten_millimetres(
    width: float, height: float, room: tuple[float, float]
) -> None:
    found = tiles(width, height, room)
    for before, after in pairwise(found):
        if before.row == after.row:
            assert before.shown.right - after.shown.x == pytest.approx(OVERLAP_MM)
            assert before.own.right == pytest.approx(before.shown.right - OVERLAP_MM / 2)


@given(lengths, rooms)
def test_one_piece_less_would_not_do(width: float, room: tuple[float, float]) -> None:
    count = len(tiles(width, 50.0, room))
    if count > 1:
        assert (count - 1) * (room[0] - OVERLAP_MM) + OVERLAP_MM < width + 1e-6


def test_what_fits_is_one_whole_piece() -> None:
    (only,) = tiles(180.0, 240.0, (182.0, 244.0))
    assert only.whole
    assert (only.shown.width, only.shown.height) == (180.0, 240.0)


def test_pieces_are_named_by_row_and_column() -> None:
    found = tiles(300.0, 400.0, (182.0, 160.0))
    assert [tile.name for tile in found] == ["A1", "A2", "B1", "B2", "C1", "C2"]
    assert all(isinstance(tile, Tile) and not tile.whole for tile in found)
