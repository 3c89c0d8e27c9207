"""How far a peg goes, in which steps, and what stays in the hand when the plan changes."""

from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder_desktop.ladder.content import Content, Peg, Side
from toneladder_desktop.ladder.layout import lay_out
from toneladder_desktop.ladder.moving import (
    grip_of,
    limits_of,
    moved,
    reading_of,
    regripped,
    stepped,
    typed_limits_of,
    value_at,
)

if TYPE_CHECKING:
    from tests.desktop.conftest import MadeLadder

LEVELS = [90.0, 70.0, 55.0, 40.0, 25.0]
TOTALS = [0.0, 45.0, 105.0, 285.0, 840.0]
PARTING = Peg(Side.PARTING, 2)
BITE = Peg(Side.BITE, 2)
LAST = Peg(Side.BITE, 4)


@pytest.fixture
def ladder(made_ladder: "MadeLadder") -> Content:
    return made_ladder(LEVELS, TOTALS)


def test_readings_are_what_is_spoken(ladder: Content) -> None:
    # darkness is 10 - L*/10, told in hundredths; bites in seconds
    assert reading_of(ladder, PARTING) == 375
    assert value_at(Side.PARTING, 375) == 62.5
    assert reading_of(ladder, BITE) == 105


def test_a_parting_stops_a_tenth_of_darkness_before_its_neighbours(ladder: Content) -> None:
    limits = limits_of(ladder, PARTING)
    assert (limits.least, limits.most) == (200 + 10, 525 - 10)


def test_a_bite_stops_at_its_neighbours_less_the_shortest_bite(ladder: Content) -> None:
    limits = limits_of(ladder, BITE)
    assert (limits.least, limits.most) == (45 + 15, 285 - 15)


def test_the_longest_bite_may_go_past_what_was_tested_and_typed_even_further(
    ladder: Content,
) -> None:
    assert limits_of(ladder, LAST).most > ladder.tested_s
    assert typed_limits_of(ladder, LAST).most > limits_of(ladder, LAST).most
    assert typed_limits_of(ladder, BITE) == limits_of(ladder, BITE)


@pytest.mark.parametrize(
    ("bite", "longer"),
    [(15, 20), (55, 60), (60, 75), (75, 90), (285, 300), (300, 330), (570, 600), (600, 660)],
)
def test_an_arrow_goes_to_the_next_bite_a_hand_can_time(
    made_ladder: "MadeLadder", bite: int, longer: int
) -> None:
    # steps of 5 s up to 1 min, 15 s to 5, 30 s to 10, 1 min above: common practice, no source
    content = made_ladder([90.0, 60.0, 25.0], [0.0, 40.0, 40.0 + bite])
    peg = Peg(Side.BITE, 2)
    assert stepped(content, peg, 1) == 40 + longer
    assert stepped(content.with_value(peg, 40.0 + longer), peg, -1) == 40 + bite


def test_up_is_lighter_and_shorter(ladder: Content) -> None:
    assert stepped(ladder, PARTING, -1) == 370
    assert stepped(ladder, PARTING, 1) == 380
    assert stepped(ladder, PARTING, 10) == 425
    assert stepped(ladder, BITE, -1) == 100 < stepped(ladder, BITE, 1)


@given(st.integers(1, 4), st.sampled_from(list(Side)), st.integers(-400, 400))
def test_no_number_of_steps_passes_a_limit(
    made_ladder: "MadeLadder", step: int, side: Side, steps: int
) -> None:
    content, peg = made_ladder(LEVELS, TOTALS), Peg(side, step)
    assert limits_of(content, peg).holds(stepped(content, peg, steps))


@given(st.integers(1, 4), st.sampled_from(list(Side)), st.floats(-900.0, 900.0), st.booleans())
def test_no_drag_passes_a_limit(
    made_ladder: "MadeLadder",
    step: int,
    side: Side,
    way: float,
    fine: bool,
) -> None:
    content, peg = made_ladder(LEVELS, TOTALS), Peg(side, step)
    layout = lay_out(content, 312.0, 640.0)
    grip = moved(grip_of(content, layout, peg, 300.0, fine=fine), layout, 300.0 + way, fine=fine)
    assert grip.limits.holds(grip.reading)
    if abs(way) > 800.0 and not fine:
        assert grip.reading in (grip.limits.least, grip.limits.most)
        assert grip.stopped


def test_a_fine_hand_moves_a_peg_a_fifth_as_far(ladder: Content) -> None:
    layout = lay_out(ladder, 312.0, 800.0)
    plain = moved(grip_of(ladder, layout, PARTING, 0.0, fine=False), layout, 50.0, fine=False)
    fine = moved(grip_of(ladder, layout, PARTING, 0.0, fine=True), layout, 50.0, fine=True)
    assert fine.reading - 375 == pytest.approx((plain.reading - 375) / 5.0, abs=1.5)
    assert plain.reading % 5 == 0


def test_pressing_the_fine_key_in_the_middle_moves_nothing(ladder: Content) -> None:
    layout = lay_out(ladder, 312.0, 800.0)
    grip = moved(grip_of(ladder, layout, PARTING, 0.0, fine=False), layout, 50.0, fine=False)
    assert moved(grip, layout, 50.0, fine=True).reading == grip.reading


def test_a_hand_that_trembles_moves_nothing(ladder: Content) -> None:
    layout = lay_out(ladder, 312.0, 800.0)
    grip = grip_of(ladder, layout, BITE, 300.0, fine=False)
    assert moved(grip, layout, 300.4, fine=False) == grip


@pytest.mark.parametrize(
    ("peg", "way", "why"),
    [
        (Peg(Side.PARTING, 1), -900.0, "stops at white"),
        (Peg(Side.PARTING, 4), 900.0, "stops at the darkest tone"),
        (Peg(Side.PARTING, 2), 900.0, "stops at parting 2 | 3"),
        (Peg(Side.PARTING, 2), -900.0, "stops at parting 0 | 1"),
        (Peg(Side.BITE, 2), -900.0, "stops here: step 2 must bite 15 s"),
        (Peg(Side.BITE, 2), 900.0, "stops here: step 3 must bite 15 s"),
        (Peg(Side.BITE, 4), 900.0, "the rail ends here; type a longer bite"),
    ],
)
def test_a_peg_that_stops_says_why(ladder: Content, peg: Peg, way: float, why: str) -> None:
    layout = lay_out(ladder, 312.0, 640.0)
    grip = moved(grip_of(ladder, layout, peg, 300.0, fine=False), layout, 300.0 + way, fine=False)
    assert grip.stopped.replace("\N{NO-BREAK SPACE}", " ") == why


def test_a_held_parting_is_found_again_among_others(
    ladder: Content, made_ladder: "MadeLadder"
) -> None:
    layout = lay_out(ladder, 312.0, 640.0)
    grip = moved(grip_of(ladder, layout, PARTING, 0.0, fine=False), layout, 8.0, fine=False)
    level = value_at(Side.PARTING, grip.reading)
    fewer = made_ladder(LEVELS[1:], TOTALS[:-1], [level, 50.0, 30.0])
    found = regripped(grip, fewer)
    assert found is not None
    assert (found.peg, found.taken) == (Peg(Side.PARTING, 1), PARTING)


def test_a_grip_ends_when_its_tone_is_gone(ladder: Content, made_ladder: "MadeLadder") -> None:
    layout = lay_out(ladder, 312.0, 640.0)
    grip = grip_of(ladder, layout, LAST, 0.0, fine=False)
    assert regripped(grip, made_ladder(LEVELS[:3], TOTALS[:3])) is None
