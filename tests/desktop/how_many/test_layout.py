"""Columns, frame and figures of the test strip lie apart, and within the board."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from toneladder.boxes import Box
from toneladder_desktop.how_many.layout import ENLARGED, LEAST, Layout, Row, lay_out

widths, heights = st.floats(LEAST[0], 3840.0), st.floats(LEAST[1], 2000.0)
layouts = st.builds(
    lay_out,
    widths,
    heights,
    st.integers(9, 11),
    st.floats(0.1, 10.0),
    hard=st.booleans(),
)


def within(inner: Box, outer: Box) -> bool:
    return (
        inner.x >= outer.x - 1e-6
        and inner.y >= outer.y - 1e-6
        and inner.right <= outer.right + 1e-6
        and inner.bottom <= outer.bottom + 1e-6
    )


@given(layouts)
def test_columns_stand_beside_each_other_and_beside_the_print(layout: Layout) -> None:
    assert layout.sheet.right <= layout.columns[0].x
    assert layout.caption.right <= layout.columns[0].x
    for left, right in pairwise(layout.columns):
        assert left.right <= right.x + 1e-6
    for column, strip, tones in zip(layout.columns, layout.strips, layout.tones, strict=True):
        assert within(strip, column)
        assert within(tones, column)
        assert tones.bottom <= strip.y


@given(layouts)
def test_rows_stand_below_the_band_and_below_each_other(layout: Layout) -> None:
    assert layout.band.bottom <= layout.rows[0].y + 1e-6
    for upper, lower in pairwise(layout.rows):
        assert upper.bottom <= lower.y + 1e-6
    assert layout.rows[Row.DISTANCE].bottom <= layout.tab.y + 1e-6
    assert layout.tab.bottom <= layout.rows[Row.GAIN].y + 1e-6


@given(layouts, st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_a_column_shows_its_piece_whole_at_twice_the_size(
    layout: Layout, x: float, y: float
) -> None:
    piece = layout.piece(x, y)
    frame = layout.frame(piece)
    assert within(frame, layout.plate)
    for k in range(len(layout.columns)):
        shown = layout.shown(piece, k)
        assert within(shown, layout.strips[k])
        assert abs(shown.width - ENLARGED * frame.width) < 1e-6
        assert abs(shown.height - ENLARGED * frame.height) < 1e-6


@given(widths, heights, st.integers(9, 11), st.floats(0.1, 10.0), st.booleans())
def test_nothing_leaves_the_board(
    width: float,
    height: float,
    count: int,
    proportion: float,
    hard: bool,
) -> None:
    layout = lay_out(width, height, count, proportion, hard=hard)
    board = Box(0.0, 0.0, width, height)
    for area in (layout.band, *layout.columns, *layout.rows, layout.tab):
        assert within(area, board)
    for area in (layout.sheet, layout.caption, *layout.strips):
        assert within(area, layout.band)


@given(layouts)
def test_what_lies_under_the_pointer_is_the_column_seen_there(layout: Layout) -> None:
    for k, column in enumerate(layout.columns):
        assert layout.column_at(column.centre, column.bottom / 2.0) == k
    assert layout.column_at(layout.plate.centre, layout.plate.y + 1.0) is None
