"""Starting points of line bites against what studios and etchers have published."""

import pytest

from toneladder.bite.starting_points import Mark
from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.lines.bites import line_bites, line_start, stays
from toneladder.lines.values import Lines

SALT = Mordant.COPPER_SULPHATE_SALT


@pytest.mark.parametrize(
    ("metal", "mordant", "shortest_min", "longest_min"),
    [
        # City College of San Francisco, Ferric Chloride Etching Solution: 60 to 90 min routine
        (Metal.COPPER, Mordant.FERRIC_CHLORIDE, 60.0, 90.0),
        # annawagner.com/Etch, soft ground, 25 degrees Baumé: 25 to 30 min pencil, 45 charcoal
        (Metal.COPPER, Mordant.FERRIC_CITRIC, 25.0, 45.0),
        # thefancifullobster, Etching adventures part 2: about 12 min
        (Metal.ZINC, Mordant.NITRIC_ACID, 11.0, 13.0),
        # jofrize2, Something new: 20 min; spiderink, January 2010: 10 min, then 15 more
        (Metal.ZINC, SALT, 20.0, 25.0),
    ],
)
def test_the_heaviest_lines_start_where_others_have_bitten_them(
    metal: Metal, mordant: Mordant, shortest_min: float, longest_min: float
) -> None:
    conditions = Conditions(metal, mordant)
    start = line_start(conditions)
    assert start is not None
    assert start.mark is Mark.PUBLISHED
    (total,) = line_bites(Lines(), conditions)
    assert shortest_min * 60.0 <= total <= longest_min * 60.0


def test_what_nobody_has_published_is_marked_or_left_out() -> None:
    aluminium = line_start(Conditions(Metal.ALUMINIUM, SALT))
    assert aluminium is not None
    assert aluminium.mark is Mark.ASSUMED
    for metal in (Metal.STEEL, Metal.OTHER):
        assert line_start(Conditions(metal, Mordant.NITRIC_ACID)) is None
        assert line_bites(Lines(depths=3), Conditions(metal, Mordant.NITRIC_ACID)) == ()


def test_each_finer_depth_bites_half_as_long() -> None:
    # 60 min: 30 and 15 before it
    assert line_bites(Lines(depths=3), Conditions()) == (900.0, 1800.0, 3600.0)
    assert stays((900.0, 1800.0, 3600.0)) == (900.0, 900.0, 1800.0)


def test_a_warmer_bath_bites_lines_for_less_time() -> None:
    # the usual rule, 1.5 over 10 degrees: 60 min at 20 °C are 40 min at 30 °C
    assert line_bites(Lines(), Conditions(temperature_c=30.0)) == (2400.0,)


def test_the_etchers_own_bites_stand() -> None:
    own = Lines(depths=2, bites_s=(333.0, 777.0))
    assert line_bites(own, Conditions(temperature_c=30.0)) == (333.0, 777.0)
