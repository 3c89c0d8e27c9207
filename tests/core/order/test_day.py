"""The day, stretch by stretch."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from toneladder.order.day import Work, day, lifts, paint_minutes
from toneladder.order.values import Doing, Rates
from toneladder.tones.values import Painting

WORK = st.lists(
    st.builds(
        Work,
        paint_min=st.floats(0.0, 300.0),
        dry_min=st.floats(0.0, 60.0),
        dips_s=st.lists(st.floats(15.0, 300.0), min_size=1, max_size=4).map(tuple),
    ),
    min_size=1,
    max_size=11,
)


def test_painting_time_worked_by_hand() -> None:
    # 30 cm² at 3 cm² a minute, 60 cm of border at 6 cm a minute, 9 places of 20 s: 10 + 10 + 3
    work = Painting(area_cm2=30.0, places=9, border_cm=80.0, new_border_cm=60.0)
    assert paint_minutes(work, Rates()) == pytest.approx(23.0)
    assert paint_minutes(work, Rates(), edge_cm=36.0) == pytest.approx(29.0)


def test_a_short_day_worked_by_hand() -> None:
    # 5 min look, 20 min paint, 10 min dry, 1 min bite, twice
    work = [Work(20.0, 10.0, (60.0,)), Work(20.0, 10.0, (60.0,))]
    assert lifts(day(work, Rates())) == pytest.approx((36 * 60.0, 72 * 60.0))


@settings(max_examples=1000)
@given(WORK)
def test_the_day_has_no_holes_and_everything_gets_its_time(work: list[Work]) -> None:
    stretches = day(work, Rates())
    now = 0.0
    for stretch in stretches:
        assert stretch.start_s == pytest.approx(now)
        assert stretch.end_s > stretch.start_s
        now = stretch.end_s
    for step, load in enumerate(work, start=1):
        mine = [s for s in stretches if s.step == step]
        spent = {d: sum(s.end_s - s.start_s for s in mine if s.doing is d) for d in Doing}
        assert spent[Doing.PAINT] == pytest.approx(load.paint_min * 60.0, abs=1e-6)
        assert spent[Doing.BITE] == pytest.approx(sum(load.dips_s), abs=1e-6)


@settings(max_examples=500)
@given(WORK)
def test_nobody_paints_past_two_hours_without_a_rest(work: list[Work]) -> None:
    rested = 0.0
    for stretch in day(work, Rates()):
        if stretch.doing is Doing.REST:
            rested = stretch.end_s
        elif stretch.doing is Doing.PAINT:
            assert stretch.end_s - rested <= 2 * 3600.0 + 1e-6
