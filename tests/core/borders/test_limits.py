"""Bounds of the decisions about soft passages."""

from dataclasses import replace

import pytest

from toneladder.borders.limits import soft_faults
from toneladder.borders.values import Remedied, Remedy, Soft

GOOD = Soft(remedies=(Remedied(0.5, 0.5, 3, Remedy.CRAYON),))


def test_what_is_usual_has_no_fault() -> None:
    assert list(soft_faults(GOOD)) == []


@pytest.mark.parametrize(
    "bad",
    [
        replace(GOOD, steepest=0.0),
        replace(GOOD, steepest=float("nan")),
        replace(GOOD, shortest_mm=0.0),
        replace(GOOD, remedies=(Remedied(0.5, 0.5, 0, Remedy.NONE),)),
        replace(GOOD, remedies=(Remedied(float("inf"), 0.5, 1, Remedy.NONE),)),
    ],
)
def test_each_fault_is_a_sentence(bad: Soft) -> None:
    (sentence,) = soft_faults(bad)
    assert sentence.endswith(".")
