"""The rest worked out again: totals are met whatever happens to a bite."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from tests.core.tank.hands import Hands, curve, facts, order_of
from tests.core.tank.totals import STEPS, Happened, coarse, require_totals_met

from toneladder.bite.curve import lightness_at
from toneladder.order.rounding import hand_step
from toneladder.tank.values import Kind, Remedy, State
from toneladder.tank.working_out import without
from toneladder.tones.parting import TOLD_APART


@settings(max_examples=2000, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.integers(2, 6), STEPS)
@example(5, [(None, [72.25]), (23.0, []), (14.0, []), (None, []), (None, [])])
@example(5, [(23.25, [64.0]), (None, []), (14.0, []), (None, []), (None, [])])
def test_totals_are_met_within_the_rounding_whatever_happens(tones: int, steps: Happened) -> None:
    require_totals_met(order_of(tones), coarse(), steps)


def test_a_bite_as_planned_changes_nothing() -> None:
    hands = Hands()
    for _ in range(3):
        assert hands.bite().state is State.OUT
        assert hands.standing.order is not None
        assert hands.standing.order.steps == hands.order.steps
        assert hands.standing.orders == (hands.order,)


def test_an_overrun_is_taken_off_the_next_bite() -> None:
    hands = Hands()
    hands.bite(over=20.0)
    order = hands.standing.order
    assert order is not None
    assert [s.bite_s for s in order.steps] == [
        45.0,
        30.0,
        *(s.bite_s for s in hands.order.steps[2:]),
    ]
    assert order.tones[1].lightness < hands.order.tones[1].lightness
    assert order.tones[2:] == hands.order.tones[2:]


def test_a_warmer_bath_bites_shorter_by_its_rate() -> None:
    hands = Hands()
    hands.press()
    warmer = hands.enter(Kind.TEMPERATURE, reading=25.0)
    rate = 1.5**0.5
    assert warmer.order is not None
    for now, planned in zip(warmer.order.tones, hands.order.tones, strict=True):
        exact = planned.total_bite_s / rate
        assert abs(now.total_bite_s - exact) <= hand_step(exact) / 2.0
    assert "The bath is at 25\N{NO-BREAK SPACE}°C." in warmer.said
    assert warmer.sentence.startswith("Step 1.")


def test_a_reading_during_a_bite_counts_from_the_next() -> None:
    hands = Hands()
    begun = hands.begin_bite()
    hands.wait(5.0)
    assert hands.enter(Kind.TEMPERATURE, reading=30.0).length_s == begun.length_s
    hands.wait(20.0)
    hands.enter(Kind.LIFTED)
    assert hands.standing.effective_s[1] == pytest.approx(25.0)
    assert hands.begin_bite().length_s < hands.order.steps[1].bite_s


def test_the_first_check_patch_tells_of_the_whole_day() -> None:
    hands = Hands()
    hands.bite()
    seconds = 60.0
    faster = float(lightness_at(curve(), seconds * 1.2))  # as dark as 72 s on the curve
    read = hands.enter(Kind.CHECK_PATCH, seconds=seconds, reading=faster)
    assert read.effective_s[1] == pytest.approx(25.0 * 1.2, rel=0.02)
    hands.press()
    for _ in range(4):
        while hands.bite().state is State.OUT_EARLY:
            pass
    totals = hands.standing.effective_s
    for tone in (2, 3, 4, 5):
        aim = hands.order.tones[tone].total_bite_s
        assert abs(totals[tone] - aim) <= 1.2 * hand_step(aim) / 2.0


def test_a_reading_that_no_bath_can_have_is_not_counted() -> None:
    hands = Hands()
    hands.press()
    before = hands.standing.order
    off = hands.enter(Kind.CHECK_PATCH, seconds=1.0, reading=40.0)
    assert off.order == before
    assert "noted, not counted" in " ".join(off.said)
    flat = hands.enter(Kind.CHECK_PATCH, seconds=60.0, reading=5.0)
    assert flat.order == before
    assert hands.enter(Kind.TEMPERATURE, reading=400.0).order == before


def test_space_anew_leaves_tones_that_can_be_told_apart_up_to_the_deepest() -> None:
    hands = Hands()
    hands.bite()
    length = hands.begin_bite().length_s
    hands.wait(length + 150.0)
    lost = hands.enter(Kind.LIFTED)
    assert lost.state is State.LOST_TONE
    anew = hands.enter(Kind.CHOSE, text=Remedy.ANEW.value)
    assert anew.order is not None
    tones = anew.order.tones
    assert [s.step for s in anew.order.steps] == [1, 2, 3, 4, 5]
    assert all(a.lightness - b.lightness >= TOLD_APART for a, b in pairwise(tones[2:]))
    gaps = np.diff([tone.lightness for tone in tones[2:]])
    assert np.ptp(gaps) < 2.0  # but for what a hand can time
    deepest = hands.order.tones[-1]
    assert tones[-1].lightness == pytest.approx(deepest.lightness, abs=0.5)


def test_leave_it_keeps_the_bites_that_are_left() -> None:
    hands = Hands()
    hands.bite()
    length = hands.begin_bite().length_s
    hands.wait(length + 150.0)
    before = hands.enter(Kind.LIFTED).order
    assert hands.enter(Kind.CHOSE, text=Remedy.LEAVE.value).order == before


def test_a_new_order_adds_up() -> None:
    hands = Hands()
    hands.bite(over=30.0)
    hands.enter(Kind.TEMPERATURE, reading=22.0)
    order = hands.standing.order
    assert order is not None
    total = 0.0
    for step in order.steps:
        total += step.bite_s
        assert step.total_bite_s == pytest.approx(total)
        assert step.total_bite_s == order.tones[step.step].total_bite_s
        assert sum(step.dips_s) == pytest.approx(step.bite_s)
    assert all(a.lift_after_s < b.lift_after_s for a, b in pairwise(order.steps))
    assert {one.step for one in order.day} == {s.step for s in order.steps}


def test_a_step_left_out_hands_its_varnish_to_the_next() -> None:
    order = order_of(6)
    joined = without(order, 3)
    assert [s.step for s in joined.steps] == [1, 2, 4, 5]
    assert joined.steps[2].stop_out == (2, 3)
    assert joined.steps[2].paint_min == order.steps[2].paint_min + order.steps[3].paint_min
    assert without(order, 9) == order
    assert replace(joined, steps=order.steps) == order
    assert facts().rate == 1.0
