"""The lattice holds the picture's range, and the target follows the end stops."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.tones.lattice import lattice_of, on_lattice, target_lightness
from toneladder.tones.values import Range


def ramp(low: float, high: float) -> np.ndarray[tuple[int, int], np.dtype[np.uint16]]:
    return np.rint(np.linspace(low, high, 90_000).reshape(300, 300) * 655.35).astype(np.uint16)


@given(st.floats(0, 60), st.floats(15, 40))
def test_the_lattice_is_never_coarser_than_its_pitch(low: float, reach: float) -> None:
    lightness = ramp(low, low + reach)
    lattice = lattice_of(lightness)
    back = lattice.lightness()[on_lattice(lightness, lattice)]
    inside = slice(1, -1)
    error = np.abs(back - lightness / 655.35)[inside]
    assert np.quantile(error, 0.99) <= lattice.pitch / 2 + 0.01


def test_the_end_stops_become_paper_and_deepest() -> None:
    lattice = lattice_of(ramp(0.0, 100.0))
    target = target_lightness(lattice, Range(90.0, 20.0), 92.0, 18.0)
    at = lattice.lightness()
    assert np.all(target[at >= 90.0] == 92.0)
    assert np.all(target[at <= 20.0] == 18.0)
    assert np.interp(55.0, at, target) == pytest.approx(55.0, abs=0.2)


@given(st.floats(-1, 1))
def test_middle_greys_bend_without_moving_the_ends(middle: float) -> None:
    lattice = lattice_of(ramp(0.0, 100.0))
    target = target_lightness(lattice, Range(90.0, 20.0, middle), 92.0, 18.0)
    assert np.all(np.diff(target) >= 0)
    assert (target[0], target[-1]) == (18.0, 92.0)
    assert (np.interp(55.0, lattice.lightness(), target) > 55.1) == (middle > 0.02) or (
        abs(middle) < 0.05
    )


@pytest.mark.parametrize(("lightness", "printed"), [(100.0, 92.0), (0.0, 18.0)])
def test_one_single_grey_is_taken_as_it_stands(lightness: float, printed: float) -> None:
    lattice = lattice_of(ramp(lightness, lightness))
    assert lattice.flat
    target = target_lightness(lattice, Range(), 92.0, 18.0)
    step = on_lattice(ramp(lightness, lightness), lattice)[0, 0]
    assert target[step] == printed
