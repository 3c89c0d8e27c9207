"""Totals a hand can keep, and the tones they really print."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from toneladder.bite.curve import lightness_at, starting_curve
from toneladder.bite.values import BiteCurve, Conditions, Metal, Mordant
from toneladder.order.ladder import Wanted, make_ladder
from toneladder.picture.values import PlateSize

SIZE = PlateSize(200.0, 150.0)
CURVES = {
    "copper": starting_curve(Conditions()),
    "zinc": starting_curve(Conditions(Metal.ZINC, Mordant.NITRIC_ACID)),
    "aluminium": starting_curve(Conditions(Metal.ALUMINIUM, Mordant.COPPER_SULPHATE_SALT)),
}


def even(curve: BiteCurve, count: int) -> Wanted:
    deepest = float(lightness_at(curve, curve.deepest_useful_s))
    levels = np.linspace(curve.lightness[0], deepest, count)
    return Wanted(tuple(map(float, levels)), (1.0 / count,) * count, (None,) * count)


@settings(max_examples=1000, deadline=None)
@given(st.sampled_from(sorted(CURVES)), st.integers(2, 12), st.floats(0.6, 1.6))
def test_totals_rise_bites_add_up_and_a_longer_bite_is_never_lighter(
    metal: str, count: int, rate: float
) -> None:
    ladder = make_ladder(even(CURVES[metal], count), CURVES[metal], rate, SIZE)
    totals = [tone.total_bite_s for tone in ladder.tones]
    assert totals[0] == 0.0
    assert np.all(np.diff(totals) > 0)
    assert np.cumsum(ladder.bites_s) == pytest.approx(totals[1:])
    assert all(
        a.lightness >= b.lightness for a, b in zip(ladder.tones, ladder.tones[1:], strict=False)
    )
    assert all(t.lightness_low <= t.lightness <= t.lightness_high for t in ladder.tones)
    assert all(t.shortest_s <= t.total_bite_s <= t.longest_s for t in ladder.tones)


def test_what_is_printed_is_worked_out_after_rounding() -> None:
    curve = CURVES["copper"]
    for tone in make_ladder(even(curve, 6), curve, 1.2, SIZE).tones:
        assert tone.lightness == pytest.approx(float(lightness_at(curve, tone.total_bite_s * 1.2)))


def test_a_held_bite_stays_to_the_second() -> None:
    curve = CURVES["copper"]
    wanted = even(curve, 5)
    held = Wanted(wanted.lightness, wanted.shares, (None, None, 247.0, None, None))
    ladder = make_ladder(held, curve, 1.0, SIZE)
    assert ladder.tones[2].total_bite_s == 247.0


def test_a_bite_too_short_for_a_hand_is_made_longer_and_said() -> None:
    curve = CURVES["aluminium"]
    ladder = make_ladder(even(curve, 12), curve, 1.0, SIZE)
    assert min(ladder.bites_s) >= 15.0
    assert any("than a hand can time" in warning for warning in ladder.warnings)


def test_without_a_strip_it_is_said_once_that_neighbours_may_print_alike() -> None:
    curve = CURVES["copper"]
    said = make_ladder(even(curve, 8), curve, 1.0, SIZE).warnings
    assert sum("until a strip is read" in warning for warning in said) == 1
