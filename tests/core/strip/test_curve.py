"""From kept strips to the curve a plan stands on."""

from dataclasses import replace

import numpy as np
import pytest

from toneladder.bite.fitting import fit
from toneladder.bite.values import Conditions, Metal, Mordant, Standing
from toneladder.errors import StripError
from toneladder.strip.curve import fit_strips, session_of
from toneladder.strip.values import Dryness, Patch, Session, Strip

BITES = (0.0, 15.0, 30.0, 60.0, 120.0, 240.0, 480.0)
TONES = (91.0, 83.0, 75.0, 63.0, 50.0, 35.0, 21.0)
STRIP = Strip(
    Conditions(temperature_c=21.0),
    tuple(Patch(bite, tone) for bite, tone in zip(BITES, TONES, strict=True)),
    bitten_on="2026-03-15",
)


def test_one_strip_is_fitted_as_one_session_of_its_own_temperature() -> None:
    found = fit_strips([STRIP])
    assert found == fit([session_of(STRIP)], STRIP.conditions)
    assert found.curve.temperature_c == 21.0
    assert found.curve.standing is Standing.STRIP
    assert "7 patches" in found.curve.source


def test_strips_and_proofs_are_fitted_together_and_called_by_their_days() -> None:
    light = tuple(replace(patch, lightness=patch.lightness + 1.0) for patch in STRIP.patches)
    reversed_once = (*light[:4], replace(light[4], lightness=72.0), *light[5:])
    second = replace(STRIP, patches=reversed_once, bitten_on="2026-03-20")
    proof = Session((Patch(0.0, 91.0), Patch(60.0, 65.0), Patch(240.0, 37.0)), 21.0, proof=True)
    found = fit_strips([STRIP, second], [proof])
    assert len(found.rates) == 3
    assert len(found.residuals) == 17
    assert any(text.startswith("strip of 2026-03-20: ") for text in found.remarks)
    assert found.scatter.learnt_from == 3


def test_a_wet_strip_is_labelled_and_never_mixed_with_dry_ones() -> None:
    wet = replace(STRIP, dryness=Dryness.WET)
    found = fit_strips([wet])
    assert "read wet" in found.remarks[0]
    assert found.curve.source.endswith("read wet")
    assert np.array_equal(found.curve.lightness, fit_strips([STRIP]).curve.lightness)
    with pytest.raises(StripError, match="cannot be fitted together"):
        fit_strips([wet, STRIP])


def test_strips_of_two_metals_are_refused() -> None:
    zinc = replace(STRIP, conditions=Conditions(metal=Metal.ZINC, mordant=Mordant.NITRIC_ACID))
    with pytest.raises(StripError, match="tells nothing about copper"):
        fit_strips([zinc, STRIP])


def test_no_strip_is_refused() -> None:
    with pytest.raises(StripError, match="No strip"):
        fit_strips([])
