"""Lines first: a worked example, step by step, and what is said about them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.bite.curve import starting_curve
from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.lines.values import MOST_DEPTHS, Lines
from toneladder.order.ladder import Wanted, make_ladder
from toneladder.order.line_steps import (
    depth_words,
    line_minutes,
    line_steps,
    line_warnings,
    with_lines,
)
from toneladder.order.making import Job, make_order
from toneladder.order.stages import LineStep
from toneladder.order.values import Order, Rates
from toneladder.picture.values import PlateSize
from toneladder.quantities import write_bite
from toneladder.tones.values import Painting

COPPER = Conditions()
SIZE = PlateSize(200.0, 150.0)


def steps(lines: Lines, *lengths_cm: float) -> tuple[LineStep, ...]:
    return line_steps(lines, COPPER, lengths_cm, Rates(), dry_min=10.0)


def order() -> Order:
    """Two tones, the darker one bitten 12 minutes."""
    curve = starting_curve(COPPER)
    wanted = Wanted((90.0, 40.0), (0.5, 0.5), (None, 720.0))
    ladder = make_ladder(wanted, curve, 1.0, SIZE)
    return make_order(Job(2, SIZE, COPPER, Rates()), ladder, [Painting(10.0, 3, 20.0, 20.0)])


def test_a_worked_example_in_three_depths() -> None:
    # Copper in ferric chloride, heaviest lines 60 min, so totals of 15, 30 and 60 min and bites
    # of 15, 15 and 30 min. No dip is longer than 15 min. Step 2 paints over the 60 cm of depth 1
    # at 6 cm a minute: 10 min; step 3 the 30 cm of depth 2: 5 min. Depth 1 is dry already.
    one, two, three = steps(Lines(depths=3), 60.0, 30.0, 90.0)
    assert [s.total_bite_s for s in (one, two, three)] == [900.0, 1800.0, 3600.0]
    assert [s.bite_s for s in (one, two, three)] == [900.0, 900.0, 1800.0]
    assert [s.dips_s for s in (one, two, three)] == [(900.0,), (900.0,), (900.0, 900.0)]
    assert [s.stop_out for s in (one, two, three)] == [(), (1,), (2,)]
    assert [s.paint_min for s in (one, two, three)] == [0.0, 10.0, 5.0]
    assert [s.dry_min for s in (one, two, three)] == [0.0, 10.0, 10.0]
    assert [s.length_cm for s in (one, two, three)] == [60.0, 30.0, 90.0]
    # in all 60 min of biting, 15 of painting, 20 of drying, three times 5 between
    assert line_minutes((one, two, three), Rates()) == pytest.approx(60.0 + 15.0 + 20.0 + 15.0)


@pytest.mark.parametrize(
    ("longest_tone_s", "shallow"),
    # lines of 60 min are twice 30 min: up to there they are deep enough, beyond they are not
    [(720.0, False), (1800.0, False), (1801.0, True), (2400.0, True)],
)
def test_lines_are_shallow_below_twice_the_longest_total_bite(
    longest_tone_s: float, shallow: bool
) -> None:
    said = list(line_warnings(Lines(), COPPER, steps(Lines(), 50.0), longest_tone_s))
    assert any("shallow" in sentence for sentence in said) is shallow


def test_a_shallow_line_is_named_with_what_it_would_need() -> None:
    # 12 min in the tones ask for 24 min of line; the finest of three depths has 15
    said = " ".join(line_warnings(Lines(depths=3), COPPER, steps(Lines(depths=3), 1, 1, 1), 720.0))
    for bite_s in (900.0, 720.0, 1440.0):
        assert write_bite(bite_s) in said


def test_lines_deepen_with_the_tones_unless_they_are_painted_over() -> None:
    for stopped_out in (False, True):
        lines = Lines(stopped_out=stopped_out)
        said = " ".join(line_warnings(lines, COPPER, steps(lines, 50.0), 60.0))
        assert ("deepen" in said) is not stopped_out
        (only,) = steps(lines, 60.0)
        # 60 cm at 6 cm a minute
        assert ("about 10\u00a0min" in only.sentences[-1]) is stopped_out
        boxes = with_lines(order(), lines, (50.0,), COPPER, Rates()).before
        assert ("lines painted over" in boxes) is stopped_out


def test_untested_bites_say_where_they_come_from_and_own_ones_do_not() -> None:
    own = Lines(bites_s=(4000.0,))
    assert "untested" in " ".join(line_warnings(Lines(), COPPER, steps(Lines(), 5.0), 60.0))
    assert "untested" not in " ".join(line_warnings(own, COPPER, steps(own, 5.0), 60.0))


def test_where_nothing_is_known_no_bite_is_made_up() -> None:
    steel = Conditions(Metal.STEEL, Mordant.NITRIC_ACID)
    made = line_steps(Lines(), steel, (50.0,), Rates(), 10.0)
    assert made == ()
    assert "give the line bites yourself" in " ".join(line_warnings(Lines(), steel, made, 60.0))


def test_the_order_of_the_tones_stays_as_it_was() -> None:
    alone = order()
    done = with_lines(alone, Lines(depths=2), (20.0, 30.0), COPPER, Rates())
    assert (done.tones, done.steps, done.day) == (alone.tones, alone.steps, alone.day)
    assert len(done.line_steps) == 2
    assert set(alone.before) < set(done.before)
    assert set(alone.cautions) < set(done.cautions)
    assert done.cautions[-1] == alone.cautions[-1]


def test_the_words_begin_with_the_ground_and_end_with_the_grain() -> None:
    made = steps(Lines(depths=3), 1.0, 1.0, 1.0)
    assert "hard ground" in made[0].sentences[0]
    assert [depth_words(k, 3) for k in (1, 2, 3)] == [
        "the finest lines",
        "lines of depth 2",
        "the heaviest lines",
    ]
    assert "lay the grain" in made[2].sentences[-1]


@given(st.integers(1, MOST_DEPTHS), st.floats(5.0, 40.0))
def test_line_bites_add_up_and_rise(depths: int, warmth: float) -> None:
    made = line_steps(
        Lines(depths=depths), Conditions(temperature_c=warmth), (1.0,) * depths, Rates(), 10.0
    )
    reached = 0.0
    for step in made:
        assert step.bite_s > 0.0
        assert sum(step.dips_s) == pytest.approx(step.bite_s, abs=5.0)
        reached += step.bite_s
        assert step.total_bite_s == pytest.approx(reached)
