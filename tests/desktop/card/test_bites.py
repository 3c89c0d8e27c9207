"""Several bites in one field."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.errors import QuantityError
from toneladder_desktop.card.bites import read_bites, write_bites


@given(st.lists(st.integers(1, 80_000), max_size=5))
def test_what_is_written_is_read_again(seconds: list[int]) -> None:
    bites = tuple(map(float, seconds))
    assert read_bites(write_bites(bites)) == bites


@pytest.mark.parametrize("text", ["1,5 min, 3 min", "1:30; 3:00", "90 s / 180 s", "90 s and 3 min"])
def test_bites_are_parted_as_people_write_them(text: str) -> None:
    assert read_bites(text) == (90.0, 180.0)


def test_a_bite_without_a_unit_is_refused() -> None:
    with pytest.raises(QuantityError, match="minutes or as seconds"):
        read_bites("5, 10 min")
