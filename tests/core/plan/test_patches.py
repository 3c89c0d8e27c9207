"""Tones copied from a strip's own patches."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations, pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.core.plan.test_planning import picture
from tests.core.plan.test_standing import BARE, LIGHTNESS, PLATE, STRIP

from toneladder.bite.fitting import Patch
from toneladder.bite.today import rate_today
from toneladder.optics import FloatArray
from toneladder.plan.patches import Pointed, copied_tones, pointed_at
from toneladder.plan.planning import Plan, plan
from toneladder.plan.standing import curve_of
from toneladder.plate.values import Plate
from toneladder.strip.values import Evidence, Strip
from toneladder.tones.values import Brush, Choice, ToneChoice

TARGETS = np.linspace(24.0, 91.0, 256)


def copying(count: int = 5, **more: object) -> ToneChoice:
    return replace(ToneChoice(count, Choice.STRIP), **more)  # type: ignore[arg-type]  # any decision


def planned(tones: ToneChoice, plate: Plate = PLATE) -> Plan:
    found = picture("coffee")
    return plan(found, replace(plate, picture=found.ref, tones=tones, brush=Brush(1.0, 1.3)))


def error(levels: Sequence[float], weights: FloatArray) -> float:
    """Of every step at the nearest level."""
    away = np.abs(TARGETS[:, None] - np.array(levels)[None, :]).min(axis=1)
    return float(weights @ away**2)


@given(
    st.lists(st.floats(20.0, 85.0), min_size=2, max_size=8),
    st.integers(2, 6),
    st.sampled_from([0.0, 4.0, 9.0]),
    st.booleans(),
    st.integers(0, 2**32 - 1),
)
def test_the_best_patches_are_the_best_of_all_choices(
    read: list[float], count: int, gap: float, darkest: bool, seed: int
) -> None:
    """Against every choice of rising bites and falling lightness, tried one by one."""
    weights = np.random.default_rng(seed).random(256)
    patches = tuple(Patch(10.0 * k, tone) for k, tone in enumerate([90.0, *read]))
    tones = copying(count, gap_lightness=gap, darkest_kept=darkest)
    copied = copied_tones(Pointed(patches, 1.0), tones, TARGETS, weights, 1.0)
    allowed = [
        [patch.lightness for patch in (patches[0], *rest)]
        for n in range(1, count)
        for rest in combinations(patches[1:], n)
    ]
    allowed = [
        levels
        for levels in allowed
        if all(a > b and a - b >= gap - 1e-9 for a, b in pairwise(levels))
        and (not darkest or levels[-1] == min(read))
    ]
    if not allowed:
        assert copied.levels.levels == (90.0, min(read))
        return
    most = max(map(len, allowed))
    best = min(error(levels, weights) for levels in allowed if len(levels) == most)
    assert copied.levels.count == most
    assert error(copied.levels.levels, weights) == pytest.approx(best)
    assert copied.levels.error == pytest.approx(best)


def test_bites_are_copied_and_tones_print_what_their_patch_read() -> None:
    done = planned(copying(5))
    assert len(done.order.tones) == 5
    for tone in done.order.tones:
        assert tone.lightness == tone.target_lightness == LIGHTNESS[round(tone.total_bite_s)]
        assert tone.lightness_low < tone.lightness < tone.lightness_high


def test_exactly_those_pointed_at_become_tones() -> None:
    done = planned(copying(4, patches_s=(15.0, 60.0, 240.0)))
    assert [tone.total_bite_s for tone in done.order.tones] == [0.0, 15.0, 60.0, 240.0]
    assert done.order.tones[-1].lightness == 44.0


def test_a_wider_reading_widens_the_band_of_its_tone() -> None:
    unsure = tuple(replace(p, spread=3.0) if p.total_bite_s == 60.0 else p for p in STRIP.patches)
    plate = replace(PLATE, evidence=Evidence((replace(STRIP, patches=unsure),)))
    tones = copying(4, patches_s=(15.0, 60.0, 240.0))
    wide, sure = (planned(tones, one).order.tones[2] for one in (plate, PLATE))
    assert wide.lightness_high - wide.lightness_low > sure.lightness_high - sure.lightness_low
    assert wide.lightness_high - wide.lightness >= 1.64 * 3.0


def test_more_tones_than_patches_gives_as_many_as_there_are() -> None:
    done = planned(copying(12, gap_lightness=0.0))
    assert done.chosen.count == len(LIGHTNESS)
    assert any("12 tones were asked for" in line for line in done.order.warnings)


def test_without_a_strip_the_tones_are_even_and_that_is_said() -> None:
    done = planned(copying(4), BARE)
    targets = [tone.target_lightness for tone in done.order.tones]
    assert np.allclose(np.diff(targets), np.diff(targets)[0])
    assert any("no strip of this bath" in line for line in done.order.warnings)


def test_a_colder_bath_takes_the_copied_bites_longer_to_the_second() -> None:
    cold = replace(PLATE, conditions=replace(PLATE.conditions, temperature_c=16.0))
    done = planned(copying(4, patches_s=(15.0, 60.0, 240.0)), cold)
    rate = rate_today(16.0, 20.0)
    bites = [tone.total_bite_s for tone in done.order.tones[1:]]
    assert bites == [round(bite / rate) for bite in (15.0, 60.0, 240.0)]
    assert [tone.lightness for tone in done.order.tones[1:]] == [83.0, 66.8, 44.0]


@pytest.mark.parametrize(
    ("tones", "word"),
    [
        (copying(3, patches_s=(15.0, 90.0)), "no patch of 1\u00a0min\u00a030\u00a0s"),
        (copying(4, held_bites=((1, 40.0),)), "held rest"),
    ],
)
def test_what_cannot_be_done_is_said(tones: ToneChoice, word: str) -> None:
    assert any(word in line for line in planned(tones).order.warnings)


def test_a_reversed_patch_can_be_no_tone() -> None:
    """3 min darker than 4 min has been seen on a published strip."""
    patches = (*STRIP.patches, Patch(300.0, 45.5))
    plate = replace(PLATE, evidence=Evidence((replace(STRIP, patches=patches),)))
    done = planned(copying(4, patches_s=(60.0, 240.0, 300.0)), plate)
    assert [tone.total_bite_s for tone in done.order.tones] == [0.0, 60.0, 240.0]
    assert any("The patch of 5\u00a0min prints no darker" in line for line in done.order.warnings)


def test_repeated_bites_are_one_patch_read_more_surely() -> None:
    twice = Strip(STRIP.conditions, (*STRIP.patches, Patch(60.0, 68.8)))
    plate = replace(PLATE, tones=copying(), evidence=Evidence((twice,)))
    pointed = pointed_at(plate, curve_of(plate))
    assert pointed is not None
    (minute,) = (patch for patch in pointed.patches if patch.total_bite_s == 60.0)
    assert minute.lightness == pytest.approx(67.8)
    assert minute.spread == pytest.approx(0.6 / np.sqrt(2.0))


def test_held_partings_stay_where_they_were_put() -> None:
    done = planned(copying(4, patches_s=(15.0, 60.0, 240.0), held_partings=(72.0,)))
    assert 72.0 in done.chosen.parted.partings


def test_only_a_plate_that_no_strip_stands_for_has_a_companion_strip() -> None:
    bare, stood = (planned(ToneChoice(3), plate).order for plate in (BARE, PLATE))
    assert stood.companion is None
    assert bare.companion is not None
    assert "overnight" in bare.companion.tasks[-1].doing
