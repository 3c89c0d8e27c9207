"""Bites a hand can time, as the trade rounds them."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from toneladder.order.rounding import dips, hand_step, hand_timed, rounded, shortest_bite
from toneladder.picture.values import PlateSize

TOTALS = st.lists(st.floats(5.0, 3000.0), min_size=1, max_size=11).map(sorted)


@pytest.mark.parametrize(
    ("bite_s", "step_s"), [(20, 5), (60, 5), (61, 15), (300, 15), (301, 30), (600, 30), (601, 60)]
)
def test_the_step_of_the_clock_grows_with_the_bite(bite_s: float, step_s: float) -> None:
    assert hand_step(bite_s) == step_s


def test_on_a_tie_lights_go_down_and_darks_up() -> None:
    # "overbite darks, underbite lights": [Blaney1895], average bitings
    assert rounded(22.5, dark=False) == 20.0
    assert rounded(22.5, dark=True) == 25.0


@settings(max_examples=1000)
@given(TOTALS, st.sampled_from([15.0, 25.0, 50.0]))
def test_totals_rise_bites_add_up_and_none_is_shorter_than_the_hand(
    totals: list[float], shortest: float
) -> None:
    bites = hand_timed(totals, shortest, 3600.0)
    assert len(bites) == len(totals)
    assert all(bite >= shortest and bite % 5.0 == 0.0 for bite in bites)
    reached = 0.0
    for bite, total in zip(bites, totals, strict=True):
        before, reached = reached, reached + bite
        if total - before >= shortest:
            assert abs(reached - total) <= hand_step(total - before) / 2.0 + 1e-6


@settings(max_examples=1000)
@given(TOTALS)
def test_rounding_never_leads_past_what_was_tested(totals: list[float]) -> None:
    longest = totals[-1]
    bites = hand_timed(totals, 15.0, longest)
    reached = 0.0
    for bite in bites:
        reached += bite
        assert reached <= longest + 1e-6 or bite == 15.0


@settings(max_examples=1000)
@given(st.integers(3, 2000).map(lambda n: 5.0 * n))
def test_dips_add_up_to_the_bite_and_none_is_longer_than_five_minutes(bite_s: float) -> None:
    pieces = dips(bite_s)
    assert sum(pieces) == bite_s
    assert max(pieces) <= 300.0
    assert len(pieces) == 1 or bite_s > 300.0


def test_a_tall_plate_cannot_be_bitten_for_a_moment() -> None:
    assert shortest_bite(PlateSize(200.0, 150.0)) == 15.0
    assert shortest_bite(PlateSize(200.0, 600.0)) == 50.0
