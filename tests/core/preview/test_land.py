"""What a tone is made of."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.optics import luminance
from toneladder.preview.land import inking

falling = st.lists(st.floats(12.0, 90.0), min_size=2, max_size=12).map(
    lambda ls: tuple(sorted(ls, reverse=True))
)


@given(falling, st.floats(0.2, 0.8))
def test_land_and_openings_together_print_the_tone(
    tone_lightness: tuple[float, ...], coverage: float
) -> None:
    made = inking(tone_lightness, coverage, ink_light=0.011)
    seen = made.opening + made.land * (made.paper - made.opening)
    assert np.allclose(seen * made.around, luminance(tone_lightness), rtol=1e-9)
    assert ((made.land >= 0) & (made.land <= 1)).all()
    assert (made.opening[1:] <= made.paper[1:] + 1e-12).all()


@pytest.mark.parametrize(
    ("inked", "scatter", "lightness"),
    [
        # Murray-Davies and Yule-Nielsen with paper 1 and solid density 1.6, computed apart from
        # this program; Yule & Nielsen, TAGA 1951
        (0.10, 1.0, 96.101),
        (0.50, 1.0, 76.834),
        (0.90, 1.0, 41.627),
        (0.10, 1.7, 94.063),
        (0.25, 1.7, 84.665),
        (0.50, 1.7, 67.283),
        (0.75, 1.7, 46.512),
        (0.90, 1.7, 31.001),
        (0.25, 2.0, 83.099),
        (0.75, 2.0, 43.663),
    ],
)
def test_ink_of_density_1_6_is_found_again_in_the_openings(
    inked: float, scatter: float, lightness: float
) -> None:
    made = inking((100.0, lightness), 1.0 - inked, ink_light=1e-4, scatter=scatter)
    assert made.land[1] == pytest.approx(1.0 - inked)
    printed = (made.land[1] + inked * 10 ** (-1.6 / scatter)) ** scatter
    assert luminance(lightness) == pytest.approx(printed, rel=5e-5)
    assert -np.log10(made.opening[1] ** scatter) == pytest.approx(1.6, abs=2e-2)


def test_the_land_gives_way_only_when_the_ink_cannot_be_blacker() -> None:
    made = inking((90.0, 75.0, 50.0, 20.0), 0.5, ink_light=0.011)
    assert made.land[1] == pytest.approx(0.5)
    assert made.land[1] > made.land[2] > made.land[3] > 0
    assert made.opening[2] == pytest.approx(made.opening[3])


def test_white_is_all_land() -> None:
    made = inking((90.0, 20.0), 0.5, ink_light=0.011)
    assert made.land[0] == 1.0
    assert made.paper[0] * made.around[0] == pytest.approx(float(luminance(90.0)))
