"""Curves that may turn out true: the model's own, tabulated."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import norm

from toneladder.bite.fitting.likely_curves import (
    CURVES,
    WHITE,
    _even_normals,
    likely_curves,
)
from toneladder.bite.print_model import printed_lightness
from toneladder.bite.starting_points import starting_point
from toneladder.bite.values import Conditions, Fineness, Metal, Mordant
from toneladder.errors import RefusedPairError


def test_even_draws_are_normal_in_every_kind_and_keep_apart() -> None:
    draws = _even_normals(500, 5)
    assert draws.shape == (500, 5)
    for kind in draws.T:
        shares = np.sort(norm.cdf(kind))
        assert np.abs(shares - (np.arange(500) + 0.5) / 500).max() < 0.01
    by_chance = 3.0 / np.sqrt(500)  # three standard deviations, were they drawn at random
    assert np.abs(np.corrcoef(draws.T) - np.eye(5)).max() < by_chance


def test_rate_is_only_a_shift_of_the_tabulated_curve() -> None:
    curves = likely_curves(Conditions())
    middle = starting_point(Conditions()).model
    bites = np.array([5.0, 20.0, 90.0, 400.0])
    for faster in (0.5, 1.0, 3.0):
        model = replace(middle, rate_um_per_min=float(middle.rate_um_per_min) * faster)
        depths = np.log(bites / 60.0 * float(model.rate_um_per_min))
        printed, _ = curves.at(np.arange(CURVES), np.tile(depths, (CURVES, 1)))
        nearest = np.abs(printed - printed_lightness(bites, model)).max(axis=1).min()
        assert nearest < 4.0
        low, high = printed.min(axis=0), printed.max(axis=0)
        assert np.all(
            (low < printed_lightness(bites, model)) & (printed_lightness(bites, model) < high)
        )


def test_slopes_are_those_of_the_curve_and_no_bite_prints_white() -> None:
    curves = likely_curves(Conditions())
    which = np.arange(40)
    at = np.full((40, 1), 1.23)
    ahead, behind = (curves.at(which, at + step)[0] for step in (0.02, -0.02))
    assert curves.at(which, at)[1] == pytest.approx((ahead - behind) / 0.04, rel=1e-6)
    nothing = curves.at(which, np.full((40, 1), -np.inf))
    assert np.all(nothing[0] == WHITE)


def test_three_curves_in_four_stay_level_past_black() -> None:
    rises = np.any(np.diff(likely_curves(Conditions()).table, axis=1) > 1e-9, axis=1)
    assert 0.15 < rises.mean() <= 0.25


def test_another_ground_has_another_table_and_the_same_ground_the_same_one() -> None:
    medium, again = (likely_curves(Conditions()).table for _ in range(2))
    fine = likely_curves(Conditions(fineness=Fineness.FINE)).table
    assert medium is again
    assert not np.allclose(medium, fine)


def test_a_pair_without_published_times_leaves_the_rate_wide_open() -> None:
    known = likely_curves(Conditions())
    unknown = likely_curves(Conditions(metal=Metal.STEEL, mordant=Mordant.FERRIC_CHLORIDE))
    assert np.ptp(unknown.log_rates) > 1.4 * np.ptp(known.log_rates)
    with pytest.raises(RefusedPairError):
        likely_curves(Conditions(metal=Metal.ALUMINIUM, mordant=Mordant.FERRIC_CITRIC))
