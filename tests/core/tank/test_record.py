"""Events as rows of the studio book, and back."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.errors import TankError
from toneladder.tank.record import EventRow, event_from, event_row
from toneladder.tank.values import Event, Kind, Moment

NUMBERS = st.floats(-1e9, 1e9, allow_nan=False)
EVENTS = st.builds(
    Event,
    st.integers(0, 10**6),
    st.sampled_from(Kind),
    st.builds(Moment, NUMBERS, NUMBERS, st.text(max_size=40)),
    NUMBERS,
    NUMBERS,
    st.integers(0, 10**6),
    st.text(max_size=200),
)


@given(EVENTS)
def test_an_event_comes_back_as_it_was(event: Event) -> None:
    row = event_row(event)
    assert event_from(row) == event
    assert row[:2] == (event.number, event.kind.value)
    assert isinstance(json.loads(row.detail), dict)


@pytest.mark.parametrize(
    "row",
    [
        EventRow(3, "never heard of", 1.0, 2.0, "{}"),
        EventRow(3, "lifted", 1.0, 2.0, "no JSON"),
        EventRow(3, "lifted", 1.0, 2.0, "[1, 2]"),
        EventRow(3, "lifted", 1.0, 2.0, '{"seconds": "long"}'),
        EventRow(3, "lifted", 1.0, 2.0, '{"seconds": NaN}'),
    ],
)
def test_a_row_that_cannot_be_read_is_named(row: EventRow) -> None:
    with pytest.raises(TankError, match="Event 3 of this session cannot be read"):
        event_from(row)
