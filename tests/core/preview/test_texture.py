"""Grain seen from too far away to tell its particles."""

import numpy as np
import pytest
from numpy.typing import NDArray

from toneladder.optics import luminance
from toneladder.preview.texture import grain_field, shade_numbers, shades
from toneladder.preview.values import Texture

TONES = (90.0, 72.0, 55.0, 37.0, 20.0)
RADIUS_UM = 37.5
# integral of the covariance over r^2, coverage 0.5, equal discs: computed from the formulae of
# Chiu, Stoyan, Kendall & Mecke, Stochastic Geometry, ch. 3, apart from this program
HALF = Texture(0.5, 0.644134 / 0.25 * RADIUS_UM**2)


def windows(field: NDArray[np.floating], side: int) -> NDArray[np.float64]:
    rows, columns = (length // side for length in field.shape)
    cut = field[: rows * side, : columns * side].astype(np.float64)
    means: NDArray[np.float64] = cut.reshape(rows, side, columns, side).mean(axis=(1, 3))
    return means


@pytest.mark.parametrize("px_per_mm", [4.0, 8.0, 40.0])
@pytest.mark.parametrize("window_mm", [1.0, 2.0])
def test_windows_of_the_field_quieten_with_their_area(px_per_mm: float, window_mm: float) -> None:
    side = round(window_mm * px_per_mm)
    field = grain_field((side * 40, side * 40), px_per_mm, HALF.correlation_area_um2, seed=5)
    expected = HALF.correlation_area_um2 / (window_mm * 1000.0) ** 2
    assert windows(field, side).var() == pytest.approx(expected, rel=0.15)


def test_the_field_closes_on_itself_and_grains_larger_than_a_cell_spread_over_several() -> None:
    field = grain_field((300, 300), 40.0, HALF.correlation_area_um2, seed=2)
    beside = np.mean(field * np.roll(field, 1, axis=0)) / field.var()
    across_the_edge = np.mean(field[0] * field[-1]) / field.var()
    assert beside > 0.5
    assert across_the_edge > 0.3


@pytest.mark.parametrize("px_per_mm", [3.0, 8.0, 30.0])
def test_the_shades_of_a_tone_mean_the_tone(px_per_mm: float) -> None:
    texture = Texture(0.5, 4000.0)
    table = shades(TONES, texture, 0.011, px_per_mm)
    numbers = shade_numbers((1500, 1500), px_per_mm, texture, seed=1)
    frequency = np.bincount(numbers.ravel(), minlength=256) / numbers.size
    assert table @ frequency == pytest.approx(luminance(TONES), rel=0.005)
    assert (table >= 0).all()
    assert (np.diff(table, axis=1) >= 0).all()


def test_white_and_paper_have_no_grain() -> None:
    assert np.ptp(shades(TONES, HALF, 0.011, 8.0)[0]) == 0.0


def test_the_grain_is_loudest_in_the_middle_greys_and_quiet_in_the_blacks() -> None:
    spread = np.ptp(shades(TONES, HALF, 0.011, 4.0), axis=1)
    assert spread[2] > spread[3] > spread[4] > 0


def test_a_finer_grain_is_quieter() -> None:
    fine = Texture(0.5, HALF.correlation_area_um2 / 4.0)
    loud, quiet = (np.std(shades(TONES, t, 0.011, 3.0)[2]) for t in (HALF, fine))
    assert quiet == pytest.approx(loud / 2.0, rel=0.05)
