"""A plate's times stand on its strips, the proofs since, and on nothing of the day."""

from dataclasses import replace

import pytest

from toneladder.bite.curve import lightness_at, starting_curve
from toneladder.bite.fitting import Patch, Session
from toneladder.bite.values import Conditions, Fineness, Metal, Mordant, Standing, Varnish
from toneladder.picture.values import PictureRef, PlateSize
from toneladder.plan.memory import Memory
from toneladder.plan.standing import curve_of, doubts_of, fit_of, footing_of
from toneladder.plate.values import Plate
from toneladder.strip.curve import fit_strips
from toneladder.strip.values import CheckPatch, Evidence, Strip

# invented readings of an invented bath
LIGHTNESS = {0: 90.1, 15: 83.0, 30: 76.5, 60: 66.8, 120: 55.1, 240: 44.0, 480: 33.2, 960: 24.5}
STRIP = Strip(
    Conditions(),
    tuple(Patch(float(bite), tone) for bite, tone in LIGHTNESS.items()),
    grained_on="2026-03-15",
)
BARE = Plate("plate", PictureRef("0" * 64, "none.png", 10, 10, 8), PlateSize(100.0, 80.0))
PLATE = replace(BARE, evidence=Evidence((STRIP,)), grained_on="2026-03-15")


def bathed(plate: Plate, **changes: object) -> Plate:
    return replace(plate, conditions=replace(plate.conditions, **changes))  # type: ignore[arg-type]  # any condition


def test_without_a_strip_the_times_are_starting_points() -> None:
    assert curve_of(BARE) == starting_curve(Conditions())
    assert fit_of(BARE) is None
    assert doubts_of(BARE) == ()


def test_with_a_strip_they_are_the_strip_s() -> None:
    curve, found = curve_of(PLATE), fit_strips([STRIP])
    assert curve.standing is Standing.STRIP
    assert (curve.bites_s, curve.lightness) == (found.curve.bites_s, found.curve.lightness)
    assert curve.remarks == found.remarks
    assert doubts_of(PLATE) == ()


def test_a_proof_since_moves_the_curve_towards_itself() -> None:
    """The plate bit slower than its strip: every reading lighter, at five bites."""
    bites = (20.0, 60.0, 150.0, 400.0, 900.0)
    curve = curve_of(PLATE)
    slower = tuple(Patch(bite, float(lightness_at(curve, 0.8 * bite))) for bite in bites)
    proofed = replace(STRIP, proofs=(Session(slower, proof=True),))
    moved = curve_of(replace(PLATE, evidence=Evidence((proofed,))))
    assert float(lightness_at(moved, 60.0)) > float(lightness_at(curve, 60.0)) + 0.5


def test_the_day_s_temperature_makes_no_new_fit_and_says_what_it_does() -> None:
    memory = Memory()
    cold = bathed(PLATE, temperature_c=17.5)
    assert fit_of(PLATE, memory) is fit_of(cold, memory)
    assert footing_of(PLATE) == footing_of(cold)
    assert "bites slower" in doubts_of(cold)[0]
    assert "check patch" in doubts_of(cold)[1]


def test_a_check_patch_answers_for_the_temperature() -> None:
    evidence = replace(PLATE.evidence, check=CheckPatch(60.0, 66.8, temperature_c=15.0))
    assert doubts_of(bathed(replace(PLATE, evidence=evidence), temperature_c=15.0)) == ()


def test_a_plate_grained_another_day_is_doubted_first_of_all() -> None:
    other = replace(bathed(PLATE, temperature_c=25.0), grained_on="2026-03-20")
    assert "2026-03-20" in doubts_of(other)[0]


@pytest.mark.parametrize(
    "change",
    [{"temperature_c": 25.0}, {"strength": "42 °Bé"}, {"varnish": Varnish.ACRYLIC}],
    ids=str,
)
def test_what_changes_no_curve_changes_no_footing(change: dict[str, object]) -> None:
    assert footing_of(bathed(BARE, **change)) == footing_of(BARE)


def test_another_ground_is_another_starting_point() -> None:
    assert footing_of(bathed(BARE, fineness=Fineness.FINE)) != footing_of(BARE)


def test_a_strip_of_another_metal_does_not_count_and_that_is_said() -> None:
    zinc = bathed(PLATE, metal=Metal.ZINC, mordant=Mordant.NITRIC_ACID)
    assert curve_of(zinc).standing is Standing.UNTESTED
    assert any("tells nothing about it" in doubt for doubt in doubts_of(zinc))


def test_two_strips_are_fitted_together() -> None:
    darker = replace(
        STRIP, patches=tuple(replace(p, lightness=p.lightness - 2.0) for p in STRIP.patches)
    )
    both = curve_of(replace(PLATE, evidence=Evidence((STRIP, darker))))
    alone = [float(lightness_at(curve_of(PLATE), 120.0)), 55.1 - 2.0]
    assert min(alone) < float(lightness_at(both, 120.0)) < max(alone)
    assert "2 sessions" in both.source
