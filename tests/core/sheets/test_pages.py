"""Rows and blocks are shared out over pages; none is lost, split or put too low."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.sheets.pages import FIRST_PAGE_ROWS, TALLEST_ROW_MM, Closing, level, shared_out
from toneladder.sheets.setting import Block

GAP = 3.0
ROOMS = (190.0, 240.0)
heights = st.lists(st.floats(20.0, 40.0), min_size=1, max_size=11)
closings = st.lists(
    st.builds(
        lambda height, turn, late: Closing("block", Block(100.0, height), turn, late),
        st.floats(5.0, 150.0),
        st.integers(0, 3),
        st.booleans(),
    ),
    max_size=6,
)


@given(heights, closings)
def test_every_row_and_block_has_one_place(rows: list[float], blocks: list[Closing]) -> None:
    pages = shared_out(rows, blocks, ROOMS, GAP)
    assert [at for page in pages for at in page.rows] == list(range(len(rows)))
    assert sorted(at for page in pages for at in page.closings) == list(range(len(blocks)))


@given(heights, closings)
def test_no_page_is_overfull(rows: list[float], blocks: list[Closing]) -> None:
    for number, page in enumerate(shared_out(rows, blocks, ROOMS, GAP)):
        used = sum(rows[at] for at in page.rows)
        used += sum(GAP + blocks[at].block.height for at in page.closings)
        assert used <= ROOMS[min(number, 1)] + 1e-6
        assert page.rows or page.closings


@given(heights, closings)
def test_the_first_page_has_six_rows_at_the_most(rows: list[float], blocks: list[Closing]) -> None:
    assert len(shared_out(rows, blocks, ROOMS, GAP)[0].rows) <= FIRST_PAGE_ROWS


@given(heights, closings)
def test_what_follows_the_last_bite_stands_below_the_last_row(
    rows: list[float], blocks: list[Closing]
) -> None:
    pages = shared_out(rows, blocks, ROOMS, GAP)
    last = max(number for number, page in enumerate(pages) if page.rows)
    for number, page in enumerate(pages):
        assert number >= last or not any(blocks[at].after_rows for at in page.closings)


def test_seven_rows_are_shared_evenly() -> None:
    pages = shared_out([30.0] * 7, [], ROOMS, GAP)
    assert [len(page.rows) for page in pages] == [4, 3]


def test_the_most_important_block_takes_the_first_page() -> None:
    blocks = [
        Closing("long", Block(1, 60.0), turn=2, after_rows=False),
        Closing("urgent", Block(1, 60.0), turn=1, after_rows=False),
    ]
    first, second = shared_out([100.0], blocks, ROOMS, GAP)
    assert (first.closings, second.closings) == ([1], [0])


@given(heights, st.floats(0.0, 300.0))
def test_raised_rows_fill_the_room_and_no_more(rows: list[float], room: float) -> None:
    raised = level(rows, room)
    assert raised <= TALLEST_ROW_MM
    total = sum(max(row, raised) for row in rows)
    if sum(rows) <= room:
        assert total <= room + 1e-6
        assert total == pytest.approx(room) or raised == TALLEST_ROW_MM
