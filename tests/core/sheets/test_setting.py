"""Blocks of type keep to their width and to each other's order."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.boxes import Box
from toneladder.lettering import Face, text_width
from toneladder.sheets.marks import Text, frame
from toneladder.sheets.setting import (
    Block,
    beside,
    boxed,
    flowing,
    gridded,
    in_two_columns,
    label,
    moved,
    paragraph,
    stacked,
    ticked,
)

words = st.lists(st.text("abcdefgh", min_size=1, max_size=9), min_size=1, max_size=30).map(" ".join)


def texts(block: Block) -> list[Text]:
    return [mark for mark in block.marks if isinstance(mark, Text)]


@given(words, st.floats(20.0, 180.0))
def test_a_paragraph_says_everything_within_its_width(text: str, width: float) -> None:
    block = paragraph(text, width)
    assert "".join(line.text for line in texts(block)).replace(" ", "") == text.replace(" ", "")
    assert block.width <= width + 1e-9
    assert all(text_width(line.text, line.face, line.size_mm) <= width for line in texts(block))
    assert all(0.0 < line.y < block.height for line in texts(block))


def test_moving_a_block_moves_every_kind_of_mark() -> None:
    block = boxed(label("dry"), 40.0)
    there = moved(block, 7.0, 9.0)
    assert [(mark.x, mark.y) for mark in there if isinstance(mark, Text)] == [
        (text.x + 7.0, text.y + 9.0) for text in texts(block)
    ]
    assert there[0] == frame(Box(7.35, 9.35, 39.3, block.height - 0.7), 0.7)


def test_blocks_in_a_stack_stand_in_order_and_empty_ones_leave_no_gap() -> None:
    one, two = label("one"), label("two")
    both = stacked([one, Block(50.0, 0.0), two], 3.0)
    assert both.height == pytest.approx(one.height + two.height + 3.0)
    assert [text.text for text in texts(both)] == ["one", "two"]


def test_blocks_side_by_side_never_touch() -> None:
    first, second = texts(beside([label("first"), label("second")], 2.0))
    assert second.x == pytest.approx(first.x + first.width + 2.0)


def test_a_flow_begins_anew_where_the_line_is_full() -> None:
    items = [label("abcdefgh") for _ in range(9)]
    flow = flowing(items, 60.0, 4.0, 1.0)
    assert all(text.x + text.width <= 60.0 for text in texts(flow))
    assert len({text.y for text in texts(flow)}) > 1


def test_nothing_flows_to_nothing() -> None:
    assert flowing([], 60.0, 4.0, 1.0).height == 0.0
    assert gridded((), 60.0).height == 0.0


def test_a_grid_has_fewer_columns_for_longer_texts() -> None:
    def columns(text: str) -> int:
        return len({mark.x for mark in texts(gridded([text] * 4, 186.0))})

    assert columns("dry") == 4
    assert columns("a sentence of quite some length, for two columns") == 2
    assert columns("a sentence " * 12) == 1


def test_every_box_to_tick_stands_beside_its_words() -> None:
    tick = ticked("no grease", 60.0)
    assert len(tick.marks) == 2
    assert texts(tick)[0].x > 3.0


def test_two_columns_are_nearly_of_one_height() -> None:
    blocks = [paragraph(f"{number} " + "word " * 9 * number, 80.0) for number in range(1, 7)]
    columns = in_two_columns(blocks, 166.0, 6.0)
    assert columns.height < 0.65 * sum(block.height for block in blocks)
    assert len(texts(columns)) == sum(len(block.marks) for block in blocks)


def test_the_faces_of_a_paragraph_are_those_asked_for() -> None:
    assert texts(paragraph("Cautions", 90.0, Face.SANS_BOLD))[0].face is Face.SANS_BOLD
