"""Remedies of soft passages in the order."""

import numpy as np
import pytest

from toneladder.borders.remedies import Passage
from toneladder.borders.values import Remedy
from toneladder.order.soft_remedies import MOST_AT_ONCE, with_remedies
from toneladder.order.values import Order, Step
from toneladder.tones.values import Painting


def step_of(number: int) -> Step:
    return Step(number, (number - 1,), 60.0, 60.0 * number, Painting(1.0, 1, 1.0), 1, 1, (60.0,), 0)


ORDER = Order(4, (), tuple(map(step_of, (1, 2, 3))), (), (), ("Wash it.",), (), ())


def passage(number: int, step: int, remedy: Remedy, *, by_hand: bool = True) -> Passage:
    return Passage(
        number,
        step,
        np.zeros((2, 2)),
        length_mm=50.0 - number,
        slope=1.0,
        lightness=60.0,
        suggested=Remedy.SPIT_BITE,
        remedy=remedy,
        share_xy=(0.5, 0.5),
        last=step == 3,
        by_hand=by_hand,
    )


def test_each_remedy_stands_at_its_moment() -> None:
    order = with_remedies(ORDER, [passage(1, 2, Remedy.CRAYON), passage(2, 3, Remedy.BURNISH)])
    assert [len(step.remedies) for step in order.steps] == [0, 1, 0]
    assert "crayon" in order.steps[1].remedies[0]
    assert order.after[0] == "Wash it."
    assert "burnish" in order.after[1]


@pytest.mark.parametrize(
    "silent",
    [passage(1, 1, Remedy.SPIT_BITE, by_hand=False), passage(1, 1, Remedy.NONE)],
    ids=["suggested", "left hard"],
)
def test_what_nobody_chose_says_nothing(silent: Passage) -> None:
    assert with_remedies(ORDER, [silent]) == ORDER


def test_many_remedies_at_one_step_are_counted_the_longest_told() -> None:
    many = [passage(number, 1, Remedy.SPIT_BITE) for number in range(9, 0, -1)]
    told = with_remedies(ORDER, many).steps[0].remedies
    assert len(told) == MOST_AT_ONCE + 1
    assert "passage 1 " in told[0]
    assert told[-1] == f"{9 - MOST_AT_ONCE} more soft passages are dotted on the map of step 1."
    assert with_remedies(ORDER, many).steps[1:] == ORDER.steps[1:]
