"""Why a strip may no longer stand."""

from dataclasses import replace
from typing import Any

import pytest

from toneladder.bite.values import Conditions, Fineness, GrainKind, Metal, Mordant, Movement
from toneladder.strip.staleness import MANY_PLATES, Today, why_stale
from toneladder.strip.values import Dryness, Patch, Strip

DAY = "2026-03-15"
STRIP = Strip(Conditions(strength="38 °Bé"), (Patch(60.0, 60.0),), grained_on=DAY, plates_before=10)
TODAY = Today(Conditions(strength="38 °Bé"), grained_on=DAY, plates_before=11)


def with_bath(**changes: Any) -> Today:
    return replace(TODAY, conditions=replace(TODAY.conditions, **changes))


def test_a_companion_strip_in_the_same_bath_stands() -> None:
    assert why_stale(STRIP, TODAY) == ()


@pytest.mark.parametrize(
    ("strip", "today", "words"),
    [
        (replace(STRIP, grained_on="2026-03-01"), TODAY, "2026-03-01, the plate on 2026-03-15"),
        (replace(STRIP, grained_on=""), TODAY, "not noted that strip and plate were grained"),
        (STRIP, replace(TODAY, grained_on=""), "not noted that strip and plate were grained"),
        (STRIP, with_bath(fineness=Fineness.FINE), "medium rosin ground"),
        (STRIP, with_bath(grain=GrainKind.SPRAY), "medium spray one"),
        (STRIP, with_bath(temperature_c=21.5), "bites faster"),
        (STRIP, with_bath(temperature_c=17.5), "check patch"),
        (STRIP, with_bath(temperature_c=16.0), "bite a new strip"),
        (STRIP, replace(TODAY, plates_before=10 + MANY_PLATES), "bitten 5 plates since"),
        (STRIP, replace(TODAY, plates_before=None, used_since=0.2), "20\u00a0% of its strength"),
        (STRIP, with_bath(metal=Metal.ZINC, mordant=Mordant.OTHER), "tells nothing"),
        (STRIP, with_bath(strength="42 °Bé"), "now at 42 °Bé"),
        (STRIP, with_bath(movement=Movement.MOVING), "moving liquid"),
        (replace(STRIP, dryness=Dryness.WET), TODAY, "read wet"),
    ],
)
def test_each_reason_is_said(strip: Strip, today: Today, words: str) -> None:
    assert any(words in sentence for sentence in why_stale(strip, today))


def test_a_degree_is_nothing_and_the_grain_comes_first() -> None:
    warm = replace(TODAY, conditions=replace(TODAY.conditions, temperature_c=21.0))
    assert why_stale(STRIP, warm) == ()
    hot = replace(warm, conditions=replace(TODAY.conditions, temperature_c=24.0), grained_on="")
    assert "grained" in why_stale(STRIP, hot)[0]
