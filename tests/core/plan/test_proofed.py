"""A proof is held against what the plate has had: with its second grain only once it has one."""

from dataclasses import replace

import pytest
from tests.core.plan.test_planning import planned

from toneladder.order.values import SecondGrain
from toneladder.plan.previewing import printed_after
from toneladder.plan.proofed import regrained, wanted_of


def test_the_first_proof_is_held_against_the_first_grain() -> None:
    done = planned("camera", second_grain=SecondGrain(1))
    tones = [tone.lightness for tone in done.order.tones]
    assert wanted_of(done) == tones
    given = (*(0.0 for _ in tones[1:]), 900.0)
    both = replace(done, plate=replace(done.plate, second_given_s=given))
    assert wanted_of(both) == pytest.approx(printed_after(done.order))
    assert wanted_of(both)[:-1] == tones[:-1]
    assert wanted_of(both)[-1] < tones[-1]
    assert regrained(both.plate) == {len(tones) - 1}
