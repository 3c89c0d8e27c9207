"""Which bites a strip gets."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from toneladder.bite.curve import starting_curve
from toneladder.bite.fitting.beforehand import covariance_beforehand
from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.errors import RefusedPairError, StripError
from toneladder.strip.planning import (
    FEWEST_PATCHES,
    LIFT_MIN,
    MOST_PATCHES,
    StripPlan,
    doubling_strip,
    telling_strip,
)

COPPER = Conditions()
BATHS = [
    COPPER,
    Conditions(metal=Metal.ZINC, mordant=Mordant.NITRIC_ACID),
    Conditions(metal=Metal.ALUMINIUM, mordant=Mordant.COPPER_SULPHATE_SALT),
    Conditions(metal=Metal.STEEL, mordant=Mordant.FERRIC_CHLORIDE),
]


def test_eight_patches_on_copper_are_the_ladder_taught_everywhere() -> None:
    """15 s, 30 s, 1, 2, 4, 8, 16 min: a typical class ladder (common practice, no source)."""
    assert doubling_strip(COPPER).bites_s == (0.0, 15.0, 30.0, 60.0, 120.0, 240.0, 480.0, 960.0)


@pytest.mark.parametrize("conditions", BATHS)
@pytest.mark.parametrize("patches", range(FEWEST_PATCHES, MOST_PATCHES + 1))
def test_every_ladder_has_an_unbitten_patch_and_one_past_the_deepest(
    conditions: Conditions, patches: int
) -> None:
    bites = doubling_strip(conditions, patches).bites_s
    assert len(bites) == len(set(bites)) == patches
    assert bites == tuple(sorted(bites))
    assert bites[0] == 0.0
    assert all(bite % 5.0 in {0.0, 2.5} for bite in bites)
    if conditions.metal is not Metal.STEEL:
        assert bites[-1] > starting_curve(conditions).deepest_useful_s


@settings(max_examples=10)
@given(st.sampled_from(BATHS), st.integers(FEWEST_PATCHES, 8))
def test_the_telling_patches_leave_less_doubt_than_as_many_doublings(
    conditions: Conditions, patches: int
) -> None:
    wanted = [20.0, 45.0, 100.0, 190.0]
    telling = telling_strip(conditions, patches, wanted_s=wanted).bites_s
    doubling = doubling_strip(conditions, patches).bites_s
    assert len(telling) == patches
    assert (telling[0], telling[-1]) == (doubling[0], doubling[-1])
    assert doubt(conditions, telling, wanted) <= doubt(conditions, doubling, wanted) + 1e-9


def doubt(conditions: Conditions, bites: tuple[float, ...], wanted: list[float]) -> float:
    """Variance left, by conditioning a normal law in one go, in a slow, usual and fast bath."""
    return sum(
        share * doubt_in(conditions, bites, wanted, faster)
        for faster, share in ((-0.8, 0.25), (0.0, 0.5), (0.8, 0.25))
    )


def doubt_in(
    conditions: Conditions, bites: tuple[float, ...], wanted: list[float], faster: float
) -> float:
    there = [min(bite * np.exp(-faster), bites[-1]) for bite in wanted]
    every = np.array([*bites, *there])
    joint = covariance_beforehand(conditions, every, faster=faster, known=0.4)
    count = len(bites)
    read = joint[:count, :count] + 0.36 * np.eye(count)
    across = joint[count:, :count]
    return float(np.trace(joint[count:, count:] - across @ np.linalg.inv(read) @ across.T))


def test_patches_read_before_are_not_asked_for_again() -> None:
    fresh = telling_strip(COPPER, 5).bites_s
    after = telling_strip(COPPER, 5, already_s=fresh[1:-1]).bites_s
    assert len(after) == 5
    assert set(after[1:-1]) != set(fresh[1:-1])


def test_the_strip_is_stepped_by_tape_and_its_longest_patch_is_the_time_in_the_bath() -> None:
    plan = StripPlan((0.0, 15.0, 30.0, 60.0))
    assert plan.stays_s == (15.0, 15.0, 30.0)
    assert plan.bath_s == 60.0
    assert plan.work_min == 1.0 + 3.0 * LIFT_MIN


def test_what_is_likely_beforehand_is_a_covariance_and_near_bites_tell_most() -> None:
    joint = covariance_beforehand(COPPER, np.array([0.0, 60.0, 75.0, 900.0]))
    assert joint == pytest.approx(joint.T)
    assert np.linalg.eigvalsh(joint).min() > -1e-9
    deviations = np.sqrt(np.diag(joint))
    likeness = joint / np.outer(deviations, deviations)
    assert likeness[1, 2] > 0.95 > likeness[1, 3]
    assert deviations[0] < deviations[1]


def test_a_metal_without_published_times_gets_a_wide_ladder_and_a_word() -> None:
    plan = doubling_strip(BATHS[-1])
    assert "stop when it is black" in plan.remarks[0]
    assert plan.bites_s[-1] == 960.0


def test_impossible_strips_are_refused_with_a_sentence() -> None:
    for patches in (FEWEST_PATCHES - 1, MOST_PATCHES + 1, -1):
        with pytest.raises(StripError, match="Nothing was changed"):
            doubling_strip(COPPER, patches)
        with pytest.raises(StripError, match="Nothing was changed"):
            telling_strip(COPPER, patches)
    zinc = Conditions(metal=Metal.ZINC, mordant=Mordant.FERRIC_CHLORIDE)
    with pytest.raises(RefusedPairError):
        doubling_strip(zinc)
