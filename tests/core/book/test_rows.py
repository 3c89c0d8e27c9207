"""Rows become values, or are refused."""

import pytest

from toneladder.book.rows import numbered, values_from
from toneladder.book.trouble import UnreadableRowError
from toneladder.book.values import Bitten, Use

GOOD = ("plate", "a", "2026-01-01", 1.5)


def test_a_row_becomes_its_value() -> None:
    assert values_from([GOOD], Use) == (Use(Bitten.PLATE, "a", "2026-01-01", 1.5),)
    assert numbered([(7, *GOOD)], Use) == (((7,), Use(Bitten.PLATE, "a", "2026-01-01", 1.5)),)
    assert values_from([], Use) == ()


@pytest.mark.parametrize(
    "row",
    [
        ("plank", "a", "", None),
        (b"plate", "a", "", None),
        ("plate", b"a", "", None),
        ("plate", None, "", None),
        ("plate", "a", "", "much"),
    ],
)
def test_what_was_never_written_is_refused(row: tuple[object, ...]) -> None:
    with pytest.raises(UnreadableRowError):
        values_from([GOOD, row], Use)


def test_a_number_that_is_none_is_refused() -> None:
    with pytest.raises(UnreadableRowError):
        numbered([("x", *GOOD)], Use)
