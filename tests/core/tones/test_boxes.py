"""Boxes of cells."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from toneladder.tones.boxes import Box, apart_boxes, around, grown, inner_edges, within

SHAPE = (50, 70)


@st.composite
def boxes(draw: st.DrawFn) -> Box:
    top, left = draw(st.integers(0, 40)), draw(st.integers(0, 60))
    rows = slice(top, top + draw(st.integers(1, 10)))
    return rows, slice(left, left + draw(st.integers(1, 10)))


@given(st.lists(boxes(), max_size=12), st.integers(0, 6))
def test_boxes_set_apart_hold_all_and_do_not_meet(some: list[Box], reach: int) -> None:
    apart = apart_boxes(some, reach)
    marked = np.zeros(SHAPE, int)
    for box in apart:
        marked[grown(box, reach, SHAPE)] += 1
    assert marked.max(initial=0) <= 1
    for rows, columns in some:
        assert any(
            a.start <= rows.start
            and rows.stop <= a.stop
            and b.start <= columns.start
            and columns.stop <= b.stop
            for a, b in apart
        )


@given(boxes())
def test_the_box_around_cells_is_the_smallest(box: Box) -> None:
    cells = np.zeros(SHAPE, bool)
    cells[box] = True
    assert list(around(cells, (slice(0, 50), slice(0, 70)))) == [box]
    assert list(around(np.zeros(SHAPE, bool), (slice(0, 50), slice(0, 70)))) == []


@given(boxes(), st.integers(0, 9))
def test_a_box_within_its_surroundings_is_itself(box: Box, margin: int) -> None:
    numbers = np.arange(50 * 70).reshape(SHAPE)
    outer = grown(box, margin, SHAPE)
    assert np.array_equal(numbers[outer][within(box, outer)], numbers[box])


def test_edges_of_the_plate_are_no_inner_edges() -> None:
    assert len(list(inner_edges((slice(0, 50), slice(0, 70)), SHAPE))) == 0
    assert len(list(inner_edges((slice(1, 50), slice(0, 69)), SHAPE))) == 2
    assert len(list(inner_edges((slice(1, 49), slice(1, 69)), SHAPE))) == 4
