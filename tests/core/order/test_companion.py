"""The strip of the day before."""

import pytest

from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.errors import RefusedPairError
from toneladder.order.companion import companion_of, how_to_step
from toneladder.strip.planning import LIFT_MIN


def test_the_companion_is_the_ladder_taught_everywhere() -> None:
    """15 s, 30 s, 1, 2, 4, 8, 16 min: a typical class ladder (common practice, no source)."""
    companion = companion_of(Conditions())
    assert companion.bites_s == (0.0, 15.0, 30.0, 60.0, 120.0, 240.0, 480.0, 960.0)
    assert sum(companion.stays_s) == 960.0


def test_its_day_grains_bites_pulls_and_leaves_the_night() -> None:
    companion = companion_of(Conditions())
    words = " ".join(task.doing for task in companion.tasks)
    order = [words.index(word) for word in ("Grain", "Cover", "Bite", "pull", "overnight")]
    assert order == sorted(order)
    assert companion.tasks[-1].minutes == 0.0
    assert companion.work_min == pytest.approx(60.0 + 15.0 + 16.0 + 7 * LIFT_MIN + 45.0)


def test_stepping_asks_for_the_lifts_and_rinses_of_the_plate() -> None:
    assert any("same lifts and rinses as the plate" in line for line in how_to_step())


def test_what_must_not_meet_has_no_companion() -> None:
    with pytest.raises(RefusedPairError):
        companion_of(Conditions(metal=Metal.ZINC, mordant=Mordant.FERRIC_CHLORIDE))
