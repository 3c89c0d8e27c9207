"""Pushing apart keeps order and gaps, and moves no more than it must."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import isotonic_regression

from toneladder_desktop.drawing.pushing import pushed_apart

places = st.lists(st.floats(0.0, 500.0), min_size=1, max_size=12).map(sorted)
gap = st.floats(0.0, 40.0)


@given(places, gap)
def test_nothing_touches_nothing_overtakes_and_all_stay_inside(
    wanted: list[float], least: float
) -> None:
    found = pushed_apart(wanted, [least] * (len(wanted) - 1), 0.0, 500.0)
    assert all(b - a >= least - 1e-9 for a, b in pairwise(found))
    assert found[0] >= -1e-9
    assert found[-1] <= 500.0 + 1e-9


@given(places, gap)
def test_the_moves_are_the_least_by_squares(wanted: list[float], least: float) -> None:
    # scipy.optimize.isotonic_regression, an independent solver of the same problem
    steps = least * np.arange(len(wanted))
    best = np.clip(isotonic_regression(np.array(wanted) - steps).x, 0.0, 500.0 - steps[-1]) + steps
    found = pushed_apart(wanted, [least] * (len(wanted) - 1), 0.0, 500.0)
    assert found == pytest.approx(best, abs=1e-6)


@given(places)
def test_what_stands_well_apart_does_not_move(wanted: list[float]) -> None:
    apart = [40.0 * k + place / 500.0 for k, place in enumerate(wanted)]
    assert pushed_apart(apart, [30.0] * (len(apart) - 1), -10.0, 600.0) == pytest.approx(apart)


def test_with_too_little_room_all_gaps_shrink_alike() -> None:
    found = pushed_apart([5.0, 5.0, 5.0], [20.0, 40.0], 0.0, 30.0)
    assert found == pytest.approx([0.0, 10.0, 30.0])


def test_no_marks_are_no_places() -> None:
    assert pushed_apart([], [], 0.0, 1.0) == ()
