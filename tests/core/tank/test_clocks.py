"""Elapsed time through sleep, a set clock, summer time, a restart; or a doubt that is said."""

from datetime import datetime
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.core.tank.hands import Hands, facts, order_of

from toneladder.tank.acts import press
from toneladder.tank.clocks import agree, elapsed
from toneladder.tank.session import session
from toneladder.tank.values import Act, Event, Kind, Moment, Standing, State

WITHIN_S = 0.5


def at_step(step: int) -> Hands:
    """Hands at the tank, all bites before ``step`` done."""
    hands = Hands()
    for done in hands.order.steps[: step - 1]:
        hands.enter(Kind.GIVEN, seconds=done.bite_s)
    return hands


def right_or_doubted(standing: Standing, truly_s: float) -> None:
    assert abs(standing.bitten_s - truly_s) < WITHIN_S or (
        standing.state is State.CLOCKS and abs(standing.apart_s) > WITHIN_S
    )


def test_five_minutes_of_sleep_in_a_bite_count_where_the_clock_runs_on() -> None:
    hands = at_step(5)
    hands.begin_bite()
    standing = hands.wait(20.0 + 300.0)  # both clocks count through sleep
    assert standing.bitten_s == pytest.approx(320.0, abs=WITHIN_S)
    assert standing.state is State.LIFT


def test_sleep_that_one_clock_did_not_count_is_asked_about_and_the_longer_bite_counts() -> None:
    hands = at_step(5)
    hands.begin_bite()
    hands.wait(20.0)
    awake = hands.now
    hands.now = Moment(awake.boottime_s + 10.0, awake.utc_s + 10.0 + 300.0, awake.boot)
    asked = hands.standing
    assert asked.state is State.CLOCKS
    assert asked.sentence.startswith("The clocks disagree by 5\N{NO-BREAK SPACE}min.")
    assert asked.sentence.endswith("Was the computer asleep?")
    assert asked.bitten_s == pytest.approx(330.0)
    slept, was_set = hands.copy(), hands.copy()
    assert slept.press().bitten_s == pytest.approx(332.0)
    assert slept.standing.state is State.LIFT
    assert was_set.press(Act.SECOND).bitten_s == pytest.approx(32.0)
    assert was_set.standing.state is State.BITING


def test_a_clock_set_back_an_hour_in_a_bite_is_said_and_changes_nothing() -> None:
    hands = at_step(4)
    hands.begin_bite()
    hands.wait(30.0)
    before = hands.now
    hands.now = Moment(before.boottime_s + 5.0, before.utc_s + 5.0 - 3600.0, before.boot)
    said = hands.standing
    assert said.state is State.CLOCKS
    assert said.sentence == (
        "The clock was set back by 1\N{NO-BREAK SPACE}h. The bite is timed without it."
    )
    assert said.bitten_s == pytest.approx(35.0)
    assert hands.press().state is State.BITING
    assert hands.wait(10.0).bitten_s == pytest.approx(47.0)


def test_a_clock_that_is_set_between_bites_is_nobodys_trouble() -> None:
    hands = Hands()
    hands.bite()
    now = hands.now
    hands.now = Moment(now.boottime_s + 60.0, now.utc_s - 7200.0, now.boot)
    hands.begin_bite()
    assert hands.wait(10.0).state is State.BITING


@pytest.mark.parametrize(
    ("zone", "changes"),
    [
        # nights of the change in 2026 by the time zone database; the instants are its UTC times
        ("Europe/Berlin", datetime(2026, 10, 25, 1, 0, tzinfo=ZoneInfo("UTC"))),
        ("Europe/Berlin", datetime(2026, 3, 29, 1, 0, tzinfo=ZoneInfo("UTC"))),
        ("America/New_York", datetime(2026, 11, 1, 6, 0, tzinfo=ZoneInfo("UTC"))),
    ],
)
def test_the_night_of_the_summer_time_bites_as_long_as_any(zone: str, changes: datetime) -> None:
    there = ZoneInfo(zone)
    before, after = (
        datetime.fromtimestamp(changes.timestamp() + s, there).utcoffset() for s in (-1, 1)
    )
    assert before != after  # it is the night of a change
    start = Moment(900.0, changes.timestamp() - 60.0, "first")
    events = [Event(0, Kind.STARTED, start)]
    now = start.later(120.0)
    standing = session(order_of(6), facts(), events, now, zone=there)
    assert standing.bitten_s == pytest.approx(120.0)
    assert standing.state is State.LIFT


def test_eight_hours_at_the_tank_end_as_exact_as_they_began() -> None:
    hands = Hands()
    for _ in range(5):
        while hands.bite().state is State.OUT_EARLY:
            hands.wait(120.0)
        hands.wait(6000.0)
    assert hands.now.boottime_s - hands.events[0].at.boottime_s > 8 * 3600.0
    totals = hands.standing.effective_s
    assert totals == pytest.approx([tone.total_bite_s for tone in hands.order.tones], abs=WITHIN_S)


def test_a_restart_in_a_bite_comes_back_with_the_true_time() -> None:
    hands = at_step(4)
    hands.begin_bite()
    hands.wait(50.0)
    down = hands.now
    hands.now = Moment(25.0, down.utc_s + 40.0, "second")
    back = hands.enter(Kind.BACK, seconds=40.0)
    assert back.state is State.BACK
    assert back.sentence == (
        "The power was out for 40\N{NO-BREAK SPACE}s. The bite ran on. Leave it in."
    )
    assert back.bitten_s == pytest.approx(90.0, abs=WITHIN_S)
    assert hands.wait(20.0).state is State.BITING
    assert hands.standing.bitten_s == pytest.approx(110.0, abs=WITHIN_S)


def test_a_clock_that_was_set_back_over_a_restart_is_found_out() -> None:
    hands = at_step(5)
    hands.begin_bite()
    hands.wait(20.0)
    hands.now = Moment(90.0, hands.now.utc_s - 3600.0, "second")
    said = hands.standing
    assert said.state is State.CLOCKS
    assert said.bitten_s >= 90.0  # the machine alone has been up that long


@given(
    st.floats(0.0, 280.0),
    st.floats(0.0, 600.0),
    st.floats(-7200.0, 7200.0),
    st.booleans(),
    st.floats(0.0, 120.0),
)
def test_a_bite_is_right_to_half_a_second_or_doubted(
    before: float, asleep: float, set_by: float, counts_sleep: bool, after: float
) -> None:
    start = Moment(100.0, 1.8e9, "first")
    truly = before + asleep + after
    steady = truly if counts_sleep else truly - asleep
    now = Moment(start.boottime_s + steady, start.utc_s + truly + set_by, "first")
    standing = session(order_of(6), facts(), [Event(0, Kind.STARTED, start)], now)
    cancelled = not counts_sleep and abs(asleep + set_by) < 1.0  # nobody could tell
    if not cancelled:
        right_or_doubted(standing, truly)


def test_clocks_that_drift_as_usual_agree() -> None:
    for seconds in (60.0, 600.0, 3600.0):
        assert agree(200e-6 * seconds, seconds)
    assert not agree(0.6, 60.0)
    assert elapsed(Moment(5.0, 10.0, "a"), Moment(3.0, 30.0, "b")).steady_s == 20.0


def test_killed_at_any_moment_the_session_stands_where_it_stood() -> None:
    """300 power cuts: what was logged until then, and the time, give the same standing."""
    rng = np.random.default_rng(20)
    hands = Hands()
    moments: list[tuple[Moment, int, Standing]] = []
    hands.press()
    while hands.standing.state is not State.END and len(moments) < 2000:
        hands.wait(float(rng.uniform(0.5, 40.0)))
        moments.append((hands.now, len(hands.events), hands.standing))
        if rng.random() < 0.4:
            hands.events.extend(press(hands.standing, Act.MAIN, hands.now))
    assert {s.state for _, _, s in moments} >= {State.BITING, State.LIFT, State.STOP_OUT}
    for cut in rng.integers(0, len(moments), 300):
        now, logged, stood = moments[cut]
        kept = hands.events[:logged]
        again = session(hands.order, hands.facts, kept, now)
        assert (again.state, again.dips) == (stood.state, stood.dips)
        assert again.bitten_s == pytest.approx(stood.bitten_s, abs=WITHIN_S)
        restarted = Moment(30.0, now.utc_s + 60.0, "second")
        later = session(hands.order, hands.facts, kept, restarted)
        if stood.in_bath and later.in_bath:
            assert later.bitten_s == pytest.approx(stood.bitten_s + 60.0, abs=WITHIN_S)
