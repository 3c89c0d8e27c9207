"""The bite curve: laws, the band for the next plate, and there and back."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.bite.curve import (
    band_at,
    bite_for,
    bite_range_for,
    deepest_useful,
    lightness_at,
    starting_curve,
)
from toneladder.bite.values import (
    BiteCurve,
    Conditions,
    Fineness,
    GrainKind,
    Metal,
    Mordant,
    Movement,
    Standing,
)
from toneladder.errors import RefusedPairError

PAIRS = [
    (Metal.COPPER, Mordant.FERRIC_CHLORIDE),
    (Metal.COPPER, Mordant.FERRIC_CITRIC),
    (Metal.ZINC, Mordant.COPPER_SULPHATE_SALT),
    (Metal.ZINC, Mordant.NITRIC_ACID),
    (Metal.ALUMINIUM, Mordant.COPPER_SULPHATE_SALT),
]

CURVES = {pair: starting_curve(Conditions(metal=pair[0], mordant=pair[1])) for pair in PAIRS}
COPPER = CURVES[PAIRS[0]]

SOME_CURVE = st.sampled_from(list(CURVES.values()))
BITES = st.floats(0.0, 1200.0)
LIGHTNESS = st.floats(0.0, 100.0)


@st.composite
def _flat_and_falling(draw: st.DrawFn) -> BiteCurve:
    """A line that stands still and falls by turns, as a strip's may."""
    steps = draw(st.lists(st.sampled_from([0.0, 0.5, 4.0, 12.0]), min_size=3, max_size=8))
    line = tuple((95.0 - np.cumsum([0.0, *steps])).tolist())
    bites = tuple(10.0 * i for i in range(len(line)))
    return replace(
        COPPER,
        bites_s=bites,
        lightness=line,
        low=line,
        high=line,
        longest_tested_s=bites[-1],
        deepest_useful_s=deepest_useful(bites, line),
    )


@pytest.mark.parametrize(
    "conditions",
    [
        Conditions(),
        Conditions(metal=Metal.ZINC, mordant=Mordant.NITRIC_ACID, movement=Movement.MOVING),
        Conditions(fineness=Fineness.FINE, grain=GrainKind.SPRAY),
        Conditions(
            metal=Metal.ALUMINIUM,
            mordant=Mordant.COPPER_SULPHATE_SALT,
            fineness=Fineness.COARSE,
        ),
    ],
)
def test_a_longer_bite_is_never_lighter_and_lies_in_its_band(conditions: Conditions) -> None:
    curve = starting_curve(conditions)
    bites, line, low, high = map(np.array, (curve.bites_s, curve.lightness, curve.low, curve.high))
    assert bites[0] == 0.0
    assert bites[-1] == pytest.approx(curve.longest_tested_s)
    assert np.all(np.diff(bites) > 0.0)
    for falling in (line, low, high):
        assert np.all(np.diff(falling) <= 0.0)
        assert 0.0 <= falling[-1] <= falling[0] <= 100.0
    assert np.all((low <= line) & (line <= high))


@pytest.mark.parametrize("curve", CURVES.values(), ids=str)
def test_a_curve_before_any_strip_says_so(curve: BiteCurve) -> None:
    assert curve.standing is Standing.UNTESTED
    assert curve.temperature_c == 20.0
    assert curve.source


def test_white_prints_as_wiped_metal() -> None:
    # about 90 on paper of about 94: common practice, no source
    assert lightness_at(COPPER, 0.0) == pytest.approx(90.0, abs=1e-9)


def test_an_even_ladder_on_copper_takes_the_times_of_a_class() -> None:
    # common practice, no source: first tone of 5 to 7 after 15 to 40 s, darks in 12 to 16 min
    for count in (5, 6, 7):
        darkest = float(lightness_at(COPPER, COPPER.deepest_useful_s))
        ladder = [bite_for(COPPER, tone) for tone in np.linspace(90.0, darkest, count)]
        assert 15.0 <= ladder[1] <= 40.0
        assert 720.0 <= ladder[-1] <= 960.0
        assert np.all(np.diff(ladder) > 0.0)


def test_the_same_conditions_give_the_same_curve() -> None:
    assert starting_curve(Conditions()) == COPPER
    assert starting_curve(Conditions(), seed=1).lightness == COPPER.lightness


def test_the_band_hardly_depends_on_the_draw() -> None:
    other = starting_curve(Conditions(), seed=1)
    assert np.abs(np.subtract(other.low, COPPER.low)).max() < 3.0
    assert np.abs(np.subtract(other.high, COPPER.high)).max() < 3.0


def test_white_is_only_as_doubtful_as_wiping() -> None:
    # 3 L* either way from pull to pull, 90 %: from memory
    low, high = band_at(COPPER, 0.0)
    assert low == pytest.approx(87.0, abs=0.4)
    assert high == pytest.approx(93.0, abs=0.4)


def test_the_band_is_wide_as_long_as_nothing_was_tested() -> None:
    # a bath twice as fast or half as fast as thought is no surprise: scatter between the studios'
    # reported times; 90 %, assumption
    for bite in (15.0, 60.0, 240.0):
        low, high = band_at(COPPER, bite)
        assert low < lightness_at(COPPER, 2.0 * bite)
        assert high > lightness_at(COPPER, bite / 2.0)


@given(SOME_CURVE, BITES, BITES)
def test_reading_the_curve_keeps_the_order_of_bites(
    curve: BiteCurve, one: float, other: float
) -> None:
    shorter, longer = sorted((one, other))
    assert lightness_at(curve, longer) <= lightness_at(curve, shorter)


@given(SOME_CURVE, LIGHTNESS)
def test_a_wanted_tone_is_met_by_its_bite(curve: BiteCurve, wanted: float) -> None:
    bite = bite_for(curve, wanted)
    assert 0.0 <= bite <= curve.deepest_useful_s
    if 0.0 < bite < curve.deepest_useful_s:
        assert lightness_at(curve, bite) == pytest.approx(wanted, abs=1e-9)


@given(_flat_and_falling(), st.floats(40.0, 96.0))
def test_the_shortest_bite_is_taken_where_the_line_stands_still(
    curve: BiteCurve, wanted: float
) -> None:
    bite = bite_for(curve, wanted)
    assert lightness_at(curve, bite) <= max(wanted, curve.lightness[-1] + 1.0) + 1e-9
    if bite > 0.0:
        assert lightness_at(curve, bite * (1.0 - 1e-6)) >= min(wanted, 95.0) - 1e-6


@given(SOME_CURVE, LIGHTNESS)
def test_the_band_in_minutes_holds_the_bite(curve: BiteCurve, wanted: float) -> None:
    shortest, longest = bite_range_for(curve, wanted)
    assert shortest <= longest
    if wanted >= lightness_at(curve, curve.deepest_useful_s):
        assert shortest <= bite_for(curve, wanted) <= longest
        assert band_at(curve, shortest)[0] <= wanted + 1e-9
    if math.isfinite(longest) and longest > 0.0:
        assert band_at(curve, longest)[1] == pytest.approx(wanted, abs=1e-9)


def test_a_tone_the_tested_range_may_not_reach_has_no_longest_bite() -> None:
    assert bite_range_for(COPPER, 25.0)[1] == math.inf
    assert bite_range_for(COPPER, 1.0) == (math.inf, math.inf)


@pytest.mark.parametrize("curve", CURVES.values(), ids=str)
def test_the_deepest_useful_bite_is_the_first_near_the_darkest(curve: BiteCurve) -> None:
    assert curve.deepest_useful_s <= curve.longest_tested_s
    assert lightness_at(curve, curve.deepest_useful_s) == pytest.approx(
        min(curve.lightness) + 1.0, abs=1e-9
    )


def test_past_the_longest_tested_bite_nothing_new_is_claimed() -> None:
    assert lightness_at(COPPER, 5000.0) == COPPER.lightness[-1]


def test_many_bites_are_read_at_once() -> None:
    assert lightness_at(COPPER, [[0.0, 60.0], [120.0, 240.0]]).shape == (2, 2)


def test_a_refused_pair_has_no_curve() -> None:
    with pytest.raises(RefusedPairError):
        starting_curve(Conditions(metal=Metal.ZINC))
