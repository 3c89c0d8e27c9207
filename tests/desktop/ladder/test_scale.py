"""The two rails: there and back, and figures that stand clear of one another."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder_desktop.ladder.scale import TICK_GAP, BiteScale, DarknessScale

rail = st.floats(250.0, 900.0)


@given(rail, st.floats(60.0, 20_000.0), st.floats(0.0, 1.0))
def test_a_bite_is_found_again_where_it_stands(length: float, end_s: float, share: float) -> None:
    scale = BiteScale(80.0, 80.0 + length, end_s)
    assert scale.total_s(scale.y(share * end_s)) == pytest.approx(share * end_s, abs=1e-6)


@given(rail, st.floats(0.0, 100.0))
def test_a_darkness_is_found_again_where_it_stands(length: float, lightness: float) -> None:
    scale = DarknessScale(80.0, 80.0 + length)
    assert scale.lightness(scale.y(lightness)) == pytest.approx(lightness, abs=1e-9)


@given(rail, st.floats(60.0, 20_000.0), st.floats(15.0, 20_000.0))
def test_figures_of_bites_never_touch(length: float, end_s: float, tested_s: float) -> None:
    marks = BiteScale(80.0, 80.0 + length, end_s).marks(tested_s)
    assert all(b.y - a.y >= TICK_GAP for a, b in pairwise(marks))
    assert all(80.0 <= mark.y <= 80.0 + length + 1e-6 for mark in marks)


@given(rail, st.floats(60.0, 20_000.0))
def test_the_longest_tested_bite_always_has_its_mark(length: float, tested_s: float) -> None:
    scale = BiteScale(80.0, 80.0 + length, 1.2 * tested_s)
    assert any(mark.y == pytest.approx(scale.y(tested_s)) for mark in scale.marks(tested_s))


@given(rail, st.lists(st.floats(80.0, 900.0), max_size=11))
def test_figures_of_darkness_keep_away_from_the_pegs_lines(
    length: float, lines: list[float]
) -> None:
    marks = DarknessScale(80.0, 80.0 + length).marks(lines)
    assert all(abs(mark.y - line) >= TICK_GAP / 2.0 for mark in marks for line in lines)


def test_short_bites_get_more_of_the_rail_than_long_ones() -> None:
    scale = BiteScale(0.0, 400.0, 960.0)
    assert scale.y(60.0) - scale.y(30.0) > scale.y(960.0) - scale.y(930.0)
    assert (scale.y(0.0), scale.y(960.0)) == (0.0, 400.0)
    assert scale.y(float("inf")) == 400.0


def test_marks_read_as_people_say_them() -> None:
    texts = [mark.text for mark in BiteScale(0.0, 500.0, 1200.0).marks(900.0)]
    plain = [text.replace("\N{NO-BREAK SPACE}", " ") for text in texts]
    assert plain == ["0", "30 s", "1 min", "2", "4", "8", "15"]


def test_the_first_mark_in_minutes_says_so_whichever_it_is() -> None:
    texts = [mark.text for mark in BiteScale(0.0, 120.0, 1200.0).marks(900.0)]
    minutes = [text for text in texts if "s" not in text and text != "0"]
    assert minutes[0].endswith("\N{NO-BREAK SPACE}min")
    assert all(text.isdigit() for text in minutes[1:])
