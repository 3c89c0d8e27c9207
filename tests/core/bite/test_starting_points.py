"""Starting points against the times that test logs and studios report."""

from itertools import product

import pytest

from toneladder.bite.curve import lightness_at, starting_curve
from toneladder.bite.starting_points import Mark, require_safe_pair, starting_point
from toneladder.bite.values import Conditions, Fineness, GrainKind, Metal, Mordant, Movement
from toneladder.errors import RefusedPairError
from toneladder.optics import density, luminance

COPPER = Conditions()
CITRIC = Conditions(mordant=Mordant.FERRIC_CITRIC)
ZINC = Conditions(metal=Metal.ZINC, mordant=Mordant.COPPER_SULPHATE_SALT)
ZINC_NITRIC = Conditions(metal=Metal.ZINC, mordant=Mordant.NITRIC_ACID)
ALUMINIUM = Conditions(metal=Metal.ALUMINIUM, mordant=Mordant.COPPER_SULPHATE_SALT)

KNOWN = [COPPER, CITRIC, ZINC, ZINC_NITRIC, ALUMINIUM]

WHITE = 90.0  # paper plus plate tone: common practice, no source

# What a viewer can tell on two swatches: Mahy, Van Eycken and Oosterlinck 1994
TELLS_APART = 2.3

# Etching ink on cotton: density 1.3 at least where it is black, from memory
BLACK = 26.8

# Published test logs of an aluminium plate, 12 steps from 5 s to 15 min: tone already at 5 s.
# Zinc in nitric acid: lightest greys take "only seconds" (published, no number); 10 s and 15 s
# for zinc in copper sulphate and for copper are common practice, from memory.
FIRST_TONES = [(ALUMINIUM, 5.0), (ZINC_NITRIC, 5.0), (ZINC, 10.0), (COPPER, 15.0), (CITRIC, 15.0)]

# Black: aluminium at 8 min (published test logs), copper at 15 min (published: the first grain
# of a black plate), zinc at 5 to 8 min in copper sulphate, 3 to 6 in nitric acid (from memory)
BLACKS = [(ALUMINIUM, 480.0), (COPPER, 900.0), (ZINC, 400.0), (ZINC_NITRIC, 300.0)]


def _printed(conditions: Conditions, seconds: float) -> float:
    return float(lightness_at(starting_curve(conditions), seconds))


@pytest.mark.parametrize(("conditions", "seconds"), FIRST_TONES)
def test_a_first_tone_shows_after_the_reported_time(conditions: Conditions, seconds: float) -> None:
    assert WHITE - 20.0 < _printed(conditions, seconds) < WHITE - TELLS_APART


@pytest.mark.parametrize(("conditions", "seconds"), BLACKS)
def test_black_comes_after_the_reported_time(conditions: Conditions, seconds: float) -> None:
    assert _printed(conditions, seconds) < BLACK
    assert _printed(conditions, seconds / 5.0) > BLACK + 10.0


def test_aluminium_has_its_darker_middle_tones_at_two_to_three_minutes() -> None:
    # published test logs name darker mids at 2 to 3 min; read as 52 to 67 % of the full density
    # by a saturating curve through the same logs
    paper, black = density(luminance(WHITE)), density(luminance(_printed(ALUMINIUM, 720.0)))
    for seconds, share in ((120.0, 0.52), (180.0, 0.67)):
        tone = density(luminance(_printed(ALUMINIUM, seconds)))
        assert (tone - paper) / (black - paper) == pytest.approx(share, abs=0.1)


def test_the_reported_long_bites_of_aluminium_are_all_black() -> None:
    # published test logs: 5 to 17 min all about equally black
    assert _printed(ALUMINIUM, 300.0) < BLACK


@pytest.mark.parametrize(
    ("conditions", "longest_s", "mark"),
    [
        (COPPER, 900.0, Mark.PUBLISHED),  # black plate, published
        (CITRIC, 900.0, Mark.ASSUMED),
        (ZINC, 360.0, Mark.PRACTICE),  # from memory
        (ZINC_NITRIC, 300.0, Mark.PRACTICE),  # from memory
        (ALUMINIUM, 1020.0, Mark.PUBLISHED),  # 17 min, published test log
    ],
)
def test_the_longest_tested_bite_is_the_reported_one(
    conditions: Conditions, longest_s: float, mark: Mark
) -> None:
    start = starting_point(conditions)
    assert (start.longest_tested_s, start.longest_mark) == (longest_s, mark)


@pytest.mark.parametrize("conditions", KNOWN)
def test_a_starting_point_says_what_it_rests_on(conditions: Conditions) -> None:
    source = starting_point(conditions).source
    assert any(word in source for word in ("published", "from memory", "assumption"))


@pytest.mark.parametrize(
    "changed",
    [
        Conditions(grain=GrainKind.SPRAY),
        Conditions(fineness=Fineness.COARSE),
        Conditions(movement=Movement.MOVING),
    ],
)
def test_what_another_grain_or_movement_changes_is_marked_as_an_assumption(
    changed: Conditions,
) -> None:
    assert "assumption" in starting_point(changed).source
    assert "assumption" not in starting_point(COPPER).source


def test_fine_grain_gives_way_first_and_a_moving_bath_is_faster() -> None:
    # a published encyclopaedia: fine grains come off first, coarse ones stand a deeper bite
    fine, coarse = Conditions(fineness=Fineness.FINE), Conditions(fineness=Fineness.COARSE)
    assert _printed(fine, 600.0) < _printed(COPPER, 600.0) < _printed(coarse, 600.0)
    assert _printed(Conditions(movement=Movement.MOVING), 60.0) < _printed(COPPER, 60.0)


def test_strength_and_temperature_are_labels_here() -> None:
    # Sharpe and Garn 1959: weaker ferric chloride bites copper faster, so strength is no multiplier
    labelled = Conditions(strength="42 °Bé", temperature_c=25.0)
    assert _printed(labelled, 60.0) == _printed(COPPER, 60.0)


@pytest.mark.parametrize("mordant", [Mordant.FERRIC_CHLORIDE, Mordant.FERRIC_CITRIC])
@pytest.mark.parametrize("metal", [Metal.ZINC, Metal.ALUMINIUM])
def test_ferric_chloride_refuses_zinc_and_aluminium_with_the_reason(
    metal: Metal, mordant: Mordant
) -> None:
    with pytest.raises(RefusedPairError, match=r"hydrogen and\s+hydrochloric vapour"):
        require_safe_pair(metal, mordant)
    with pytest.raises(RefusedPairError, match="Nothing was planned"):
        starting_point(Conditions(metal=metal, mordant=mordant))


@pytest.mark.parametrize("mordant", Mordant)
def test_steel_needs_a_strip_and_may_have_one(mordant: Mordant) -> None:
    require_safe_pair(Metal.STEEL, mordant)
    with pytest.raises(RefusedPairError, match="test strip of this steel"):
        starting_point(Conditions(metal=Metal.STEEL, mordant=mordant))


@pytest.mark.parametrize(("metal", "mordant"), list(product(Metal, Mordant)))
def test_every_other_pair_gets_a_sentence(metal: Metal, mordant: Mordant) -> None:
    if (metal, mordant) in {(known.metal, known.mordant) for known in KNOWN}:
        return
    with pytest.raises(RefusedPairError, match=r"Nothing was planned\. (Bite|Choose)"):
        starting_point(Conditions(metal=metal, mordant=mordant))


def test_a_pair_nobody_timed_is_named() -> None:
    with pytest.raises(RefusedPairError, match="copper in nitric acid"):
        starting_point(Conditions(mordant=Mordant.NITRIC_ACID))
