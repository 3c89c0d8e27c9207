"""The whole order, its sentences and its cautions."""

from functools import cache
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from toneladder.bite.curve import lightness_at, starting_curve
from toneladder.bite.values import BiteCurve, Conditions, GrainKind, Metal, Mordant, Varnish
from toneladder.order.ladder import Wanted, make_ladder
from toneladder.order.making import Job, make_order
from toneladder.order.temperatures import bites_by_temperature
from toneladder.order.values import Doing, Order, Rates
from toneladder.picture.values import PlateSize
from toneladder.tones.places import paintings
from toneladder.tones.values import Painting

SIZE = PlateSize(200.0, 150.0)
WORK = Painting(area_cm2=40.0, places=12, border_cm=90.0, new_border_cm=60.0)


def order(conditions: Conditions, count: int = 5, work: Painting = WORK) -> Order:
    curve = starting_curve(conditions)
    deepest = float(lightness_at(curve, curve.deepest_useful_s))
    levels = tuple(float(level) for level in np.linspace(curve.lightness[0], deepest, count))
    wanted = Wanted(levels, (1.0 / count,) * count, (None,) * count)
    ladder = make_ladder(wanted, curve, 1.0, SIZE)
    return make_order(Job(count, SIZE, conditions, Rates()), ladder, [work] * (count - 1))


def test_step_n_stops_out_the_tone_before_and_makes_tone_n() -> None:
    done = order(Conditions())
    assert [step.step for step in done.steps] == [1, 2, 3, 4]
    assert [step.stop_out for step in done.steps] == [(0,), (1,), (2,), (3,)]
    for step in done.steps:
        assert step.total_bite_s == done.tones[step.step].total_bite_s
        assert sum(step.dips_s) == pytest.approx(step.bite_s)
    assert all(a.lift_after_s < b.lift_after_s for a, b in pairwise(done.steps))


@cache
def curve_of(metal: Metal, mordant: Mordant) -> BiteCurve:
    return starting_curve(Conditions(metal, mordant))


PAIRS = (
    (Metal.COPPER, Mordant.FERRIC_CHLORIDE),
    (Metal.ZINC, Mordant.NITRIC_ACID),
    (Metal.ALUMINIUM, Mordant.COPPER_SULPHATE_SALT),
)


@settings(max_examples=1000)
@given(st.sampled_from(PAIRS), st.integers(2, 12), st.integers(0, 2**32 - 1), st.floats(0.5, 2.0))
def test_covers_are_nested_and_every_cell_gets_its_tones_total(
    pair: tuple[Metal, Mordant], count: int, seed: int, rate: float
) -> None:
    tones = np.random.default_rng(seed).integers(0, count, (12, 9)).astype(np.uint8)
    curve = curve_of(*pair)
    deepest = float(lightness_at(curve, curve.deepest_useful_s))
    levels = tuple(float(level) for level in np.linspace(curve.lightness[0], deepest, count))
    shares = tuple(float(np.mean(tones == k)) for k in range(count))
    ladder = make_ladder(Wanted(levels, shares, (None,) * count), curve, rate, SIZE)
    job = Job(count, SIZE, Conditions(*pair), Rates())
    done = make_order(job, ladder, paintings(tones, count, 8.0))
    bitten = np.zeros(tones.shape)
    covered = np.zeros(tones.shape, dtype=bool)
    for step in done.steps:
        now = covered | np.isin(tones, step.stop_out)
        assert np.all(now >= covered)
        covered = now
        bitten[~covered] += step.bite_s
    totals = np.array([tone.total_bite_s for tone in done.tones])
    assert np.allclose(bitten, totals[tones])
    assert not bitten[tones == 0].any()
    assert not covered[tones == count - 1].any()


def test_the_first_step_paints_the_bevel_even_without_whites() -> None:
    nothing = Painting(area_cm2=0.0, places=0, border_cm=0.0)
    first, second, *_ = order(Conditions(), work=nothing).steps
    assert first.paint_min == pytest.approx(70.0 / 6.0)  # 70 cm of edge at 6 cm a minute
    assert second.paint_min == 0.0


@pytest.mark.parametrize(
    ("varnish", "minutes"),
    # common practice, from memory: no source
    [(Varnish.SPIRIT, 10.0), (Varnish.ACRYLIC, 20.0), (Varnish.ASPHALTUM, 40.0)],
)
def test_the_varnish_sets_the_drying(varnish: Varnish, minutes: float) -> None:
    done = order(Conditions(varnish=varnish))
    assert {step.dry_min for step in done.steps} == {minutes}


def test_the_day_lifts_when_the_steps_say() -> None:
    done = order(Conditions(), 6)
    ends = [s.end_s for s in done.day if s.doing is Doing.BITE]
    assert {step.lift_after_s for step in done.steps} <= set(ends)


def test_cautions_are_those_of_the_pair_and_end_with_the_rules() -> None:
    copper = order(Conditions()).cautions
    nitric = order(Conditions(Metal.ZINC, Mordant.NITRIC_ACID, GrainKind.SPRAY)).cautions
    assert not any("Nitric" in caution for caution in copper)
    assert any("into water" in caution for caution in nitric)
    assert any("Rosin" in caution for caution in copper)
    assert not any("Rosin" in caution for caution in nitric)
    for said in (copper, nitric):
        assert "waste authority" in said[-1]


def test_many_places_small_darks_and_a_long_day_are_said() -> None:
    busy = Painting(area_cm2=90.0, places=400, border_cm=900.0, new_border_cm=700.0, small_darks=60)
    said = " ".join(order(Conditions(), 8, busy).warnings)
    for words in ("400 places", "60 small darks", "two days"):
        assert words in said


def test_a_cooler_bath_bites_longer_and_the_planned_one_as_planned() -> None:
    done = order(Conditions())
    bites = bites_by_temperature(done.steps, 20.0)
    assert sorted(bites) == [18.0, 20.0, 22.0]
    assert bites[20.0] == tuple(step.bite_s for step in done.steps)
    assert all(a >= b >= c for a, b, c in zip(bites[18.0], bites[20.0], bites[22.0], strict=True))
