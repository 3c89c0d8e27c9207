"""What one check patch says about today's bath."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.bite.curve import lightness_at, starting_curve
from toneladder.bite.today import rate_today
from toneladder.bite.values import BiteCurve, Conditions, Standing
from toneladder.errors import StripError
from toneladder.strip.checking import (
    FAR_OFF,
    WIDEST_DOUBT,
    bath_today,
    checked_rate,
)
from toneladder.strip.values import CheckPatch, Evidence

CURVE = replace(starting_curve(Conditions()), standing=Standing.STRIP)


def printed(rate: float, bite_s: float, spread: float = 0.3, warmth: float = 20.0) -> CheckPatch:
    """A patch as a bath of that rate would print it."""
    return CheckPatch(bite_s, float(lightness_at(CURVE, bite_s * rate)), spread, warmth)


@given(st.floats(0.7, 1.4), st.floats(20.0, 90.0))
def test_a_patch_gives_back_the_rate_of_the_bath_that_bit_it(rate: float, bite_s: float) -> None:
    checked = checked_rate(printed(rate, bite_s), CURVE)
    assert checked.rate == pytest.approx(rate, rel=2e-3)
    assert checked.low < checked.rate < checked.high


def test_a_surer_reading_leaves_less_doubt() -> None:
    doubts = [checked_rate(printed(0.9, 60.0, spread), CURVE).doubt for spread in (2.0, 1.0, 0.4)]
    assert all(sure < unsure for unsure, sure in pairwise(doubts))


def test_the_doubt_is_the_reading_over_the_slope() -> None:
    """Small errors propagate linearly: sd of ln k = spread / |df / d ln m|."""
    bite, step = 60.0, 0.01
    here, there = lightness_at(CURVE, [bite, bite * math.exp(step)])
    slope = float(here - there) / step
    doubt = checked_rate(printed(1.0, bite, 0.3), CURVE).doubt
    assert doubt == pytest.approx(1.6449 * 0.3 / slope, rel=0.1)


@pytest.mark.parametrize(
    ("patch", "better"),
    [
        (CheckPatch(900.0, CURVE.lightness[-1] + 0.1), "shorter"),
        (CheckPatch(900.0, CURVE.lightness[-1] - 5.0), "shorter"),
        (CheckPatch(5.0, CURVE.lightness[0] - 0.2), "longer"),
        (CheckPatch(5.0, 99.0), "longer"),
        (CheckPatch(0.0, 60.0), "longer"),
    ],
)
def test_where_the_curve_is_flat_a_better_patch_is_asked_for(
    patch: CheckPatch, better: str
) -> None:
    with pytest.raises(StripError, match=f"Bite a {better} patch"):
        checked_rate(patch, CURVE)


@given(st.floats(1.0, 900.0), st.floats(0.0, 100.0), st.floats(0.1, 5.0))
def test_no_rate_is_given_that_is_more_in_doubt_than_it_says(
    bite_s: float, lightness: float, spread: float
) -> None:
    try:
        checked = checked_rate(CheckPatch(bite_s, lightness, spread), CURVE)
    except StripError:
        return
    assert 0.0 < checked.low <= checked.rate <= checked.high < math.inf
    assert checked.doubt <= WIDEST_DOUBT


def test_without_a_check_patch_the_temperature_tells() -> None:
    bath = bath_today(Evidence(q=2.0), 30.0, CURVE)
    assert bath.rate == pytest.approx(2.0)
    assert bath.said == ()


def test_a_check_patch_tells_instead_of_the_temperature() -> None:
    bath = bath_today(Evidence(check=printed(0.88, 60.0, warmth=17.0)), 17.0, CURVE)
    assert bath.rate == pytest.approx(0.88, rel=2e-3)
    assert "12\u00a0% slower than on the strip's day, by the check patch" in bath.said[0]
    assert len(bath.said) == 1


def test_a_check_patch_of_another_temperature_is_brought_to_the_bath() -> None:
    evidence = Evidence(check=printed(1.1, 60.0, warmth=22.0), q=1.5)
    bath = bath_today(evidence, 18.0, CURVE)
    assert bath.rate == pytest.approx(1.1 * rate_today(18.0, 22.0, q=1.5), rel=2e-3)
    assert "10\u00a0% faster" in bath.said[0]
    assert "22\u00a0°C" in bath.said[1]


def test_a_bath_as_it_was_is_said_to_be_so() -> None:
    said = bath_today(Evidence(check=printed(1.0, 60.0)), 20.0, CURVE).said
    assert "neither faster nor slower" in said[0]


def test_a_bath_far_off_asks_for_a_new_strip() -> None:
    said = bath_today(Evidence(check=printed(FAR_OFF * 1.2, 30.0)), 20.0, CURVE).said
    assert any("new strip" in sentence for sentence in said)


def test_against_starting_points_no_strip_is_spoken_of() -> None:
    curve: BiteCurve = replace(CURVE, standing=Standing.UNTESTED)
    said = bath_today(Evidence(check=printed(0.8, 60.0)), 20.0, curve).said
    assert "than the starting points say" in said[0]


def test_a_patch_that_tells_nothing_leaves_the_temperature_and_is_spoken_of() -> None:
    bath = bath_today(Evidence(check=CheckPatch(5.0, 99.0)), 30.0, CURVE)
    assert bath.rate == pytest.approx(1.5)
    assert "too flat" in bath.said[0]
