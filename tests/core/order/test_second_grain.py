"""The second grain: its steps, and what two grains print together."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.bite.curve import lightness_at, starting_curve
from toneladder.bite.print_model import printed_lightness
from toneladder.bite.starting_points import starting_point
from toneladder.bite.values import Conditions, Fineness, GrainKind, Metal, Mordant
from toneladder.optics import lightness, luminance, yule_nielsen
from toneladder.order.ladder import Wanted, make_ladder
from toneladder.order.making import Job, make_order
from toneladder.order.second_grain import overlaid, second_cautions, with_second_grain
from toneladder.order.stages import SecondStage
from toneladder.order.values import Order, Rates, SecondGrain
from toneladder.picture.values import PlateSize
from toneladder.tones.values import Painting

COPPER = Conditions()
SIZE = PlateSize(200.0, 150.0)
WORKS = [Painting(10.0 * k, k, 12.0 * k, 12.0 * k) for k in range(1, 5)]
INK = 0.022


def order(conditions: Conditions = COPPER) -> Order:
    curve = starting_curve(conditions)
    deepest = float(lightness_at(curve, curve.deepest_useful_s))
    levels = tuple(float(level) for level in np.linspace(curve.lightness[0], deepest, 5))
    ladder = make_ladder(Wanted(levels, (0.2,) * 5, (None,) * 5), curve, 1.0, SIZE)
    return make_order(Job(5, SIZE, conditions, Rates()), ladder, WORKS)


def stage(wish: SecondGrain, conditions: Conditions = COPPER) -> SecondStage:
    done = with_second_grain(order(conditions), wish, conditions, Rates()).second_grain
    assert done is not None
    return done


def test_a_worked_example_with_two_bites() -> None:
    # Tones 0..4, the two darkest open: tones 3 and 4, bitten 5 and 15 min in all, so 5 and 10
    # min. The first step paints over tones 0, 1 and 2: 10 + 20 + 30 = 60 cm² at 3 cm² a minute,
    # 36 cm of border at 6 a minute, 3 places of 20 s: 20 + 6 + 1 = 27 min. The second paints
    # tone 3: 40 cm², 48 cm, 4 places: 13 1/3 + 8 + 1 1/3 = 22 2/3 min.
    made = stage(SecondGrain(darkest=2, bites_s=(300.0, 900.0)))
    one, two = made.steps
    assert (one.stop_out, one.makes, one.bite_s, one.total_bite_s) == ((0, 1, 2), 3, 300.0, 300.0)
    assert (two.stop_out, two.makes, two.bite_s, two.total_bite_s) == ((3,), 4, 600.0, 900.0)
    assert two.dips_s == (300.0, 300.0)
    assert one.paint_min == pytest.approx(27.0)
    assert two.paint_min == pytest.approx(22.0 + 2.0 / 3.0)
    # an hour for the grain, 15 min of biting, twice 10 to dry and twice 5 between
    assert made.work_min == pytest.approx(60.0 + 15.0 + 27.0 + 22.0 + 2.0 / 3.0 + 20.0 + 10.0)
    assert [tone.tone for tone in made.tones] == [3, 4]


def test_without_bites_the_published_one_is_repeated_in_one_step() -> None:
    # Acrylic Maniere Noire Experiment 1: 15 min on copper, then a second grain and again
    made = stage(SecondGrain(darkest=2))
    assert [(s.step, s.stop_out, s.makes, s.bite_s) for s in made.steps] == [
        (1, (0, 1, 2), 3, 900.0)
    ]


def test_tones_that_the_second_grain_makes_alike_are_told() -> None:
    # both bitten 15 min in a fine grain: nothing of the first grain's difference is left
    for wish, told in ((SecondGrain(darkest=2), True), (SecondGrain(darkest=1), False)):
        done = with_second_grain(order(), wish, COPPER, Rates())
        assert any("tones 3 and 4 are too close" in said for said in done.warnings) is told


def test_white_is_never_opened() -> None:
    assert [tone.tone for tone in stage(SecondGrain(darkest=11)).tones] == [1, 2, 3, 4]


def test_the_first_grain_stays_as_it_was() -> None:
    alone = order()
    done = with_second_grain(alone, SecondGrain(), COPPER, Rates())
    assert (done.tones, done.steps, done.day) == (alone.tones, alone.steps, alone.day)
    assert set(alone.cautions) < set(done.cautions)
    assert done.cautions[-1] == alone.cautions[-1]


def test_another_grain_brings_its_own_cautions() -> None:
    spray = replace(COPPER, grain=GrainKind.SPRAY)
    assert any("Rosin" in said for said in second_cautions(SecondGrain(), spray))
    assert not any("Rosin" in said for said in second_cautions(SecondGrain(), COPPER))
    assert any("first grain off" in said for said in second_cautions(SecondGrain(), COPPER))


@given(first=st.floats(17.0, 90.0), second=st.floats(17.0, 90.0), white=st.floats(90.0, 95.0))
def test_two_grains_never_print_lighter_than_one(first: float, second: float, white: float) -> None:
    both = overlaid(first, second, white, INK)
    assert both <= min(first, second) + 1e-6
    assert both == pytest.approx(overlaid(second, first, white, INK))
    # a grain that has not been bitten changes nothing
    assert overlaid(first, white, white, INK) == pytest.approx(first, abs=1e-6)


def test_the_formula_is_that_of_two_screens_thrown_at_random() -> None:
    # Two random screens of full ink, thrown on one sheet and counted: half and 0.7 covered
    chance = np.random.default_rng(5)
    one, two = chance.random((2, 1000, 1000)) < np.array([0.5, 0.7])[:, None, None]
    white = float(luminance(90.0))
    printed = [
        float(lightness(yule_nielsen(float(share), INK, white, 1.6)))
        for share in (one.mean(), two.mean(), (one | two).mean())
    ]
    assert overlaid(printed[0], printed[1], 90.0, INK) == pytest.approx(printed[2], abs=0.1)


def test_the_estimate_is_darker_where_the_first_grain_was_not_black() -> None:
    short = SecondGrain(darkest=2, bites_s=(30.0, 60.0))
    before = order().tones
    for tone in stage(short).tones:
        assert tone.lightness < before[tone.tone].lightness
    # by hand for tone 3: the second grain alone, then both together
    fine = starting_point(replace(COPPER, fineness=Fineness.FINE)).model
    alone = float(printed_lightness(30.0, fine))
    both = overlaid(before[3].lightness, alone, before[0].lightness, INK)
    assert stage(short).tones[0].lightness == pytest.approx(both, abs=0.05)


def test_a_metal_without_a_starting_point_promises_nothing() -> None:
    steel = replace(COPPER, metal=Metal.STEEL, mordant=Mordant.NITRIC_ACID)
    done = with_second_grain(order(), SecondGrain(), steel, Rates()).second_grain
    assert done is not None
    assert done.tones[0].lightness == order().tones[-1].lightness
    assert done.steps[0].bite_s == order().tones[-1].total_bite_s
