"""A grey scale as typed, and what it makes of a scanner's curve."""

import numpy as np
import pytest

from toneladder.errors import QuantityError, StripError
from toneladder.scans.greys import read_grey_scale, straightening

DENSITIES = 0.05 + 0.15 * np.arange(21)
TRUE = np.asarray(10.0**-DENSITIES, dtype=np.float64)


@pytest.mark.parametrize("text", ["21x0.15", "21×0.15", "21 x 0,15"])
def test_a_scale_may_be_typed_as_steps(text: str) -> None:
    scale = read_grey_scale(text)
    assert scale.densities == pytest.approx(0.15 * np.arange(21))
    assert not scale.absolute


@pytest.mark.parametrize("text", ["0.05, 0.2, 0.35, 0.5, 0.7", "0.05 0.20 0.35 0.50 0.70"])
def test_a_scale_may_be_typed_as_densities(text: str) -> None:
    scale = read_grey_scale(text)
    assert scale.densities == (0.05, 0.2, 0.35, 0.5, 0.7)
    assert scale.absolute


@pytest.mark.parametrize(
    "text",
    ["", "grey", "1,2", "0.5 0.4 0.3 0.2 0.1", "0 1 2 3 9", "-1 0 1 2 3", "90x0.01", "21x0", "nan"],
)
def test_what_is_no_scale_is_refused(text: str) -> None:
    with pytest.raises(QuantityError, match="is no grey scale"):
        read_grey_scale(text)


@pytest.mark.parametrize("gamma", [0.6, 1.0, 1.7])
def test_a_power_is_undone_between_the_steps_and_a_little_beyond(gamma: float) -> None:
    curve = straightening(np.asarray(TRUE**gamma, dtype=np.float64), TRUE)
    between = np.array([0.95, 0.7, 0.31, 0.1, 0.033, 0.004])
    assert curve((between**gamma).astype(np.float32)) == pytest.approx(between, rel=2e-3)


def test_flare_in_the_dark_is_undone_as_far_as_steps_differ() -> None:
    curve = straightening(0.9 * TRUE + 0.01, TRUE)
    assert curve(np.array([0.9 * 0.05 + 0.01], np.float32)) == pytest.approx([0.05], rel=0.02)


def test_steps_that_do_not_fall_are_no_scale() -> None:
    with pytest.raises(StripError, match="do not get darker"):
        straightening(np.full(21, 0.5), TRUE)
