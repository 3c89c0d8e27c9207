"""The grain under the glass."""

from itertools import pairwise

import numpy as np
import pytest
from numpy.typing import NDArray

from toneladder.optics import lightness, linear_from_srgb
from toneladder.preview.loupe import loupe
from toneladder.preview.values import LoupeGrain

TONES = (90.0, 72.0, 55.0, 37.0, 20.0)
ROSIN = LoupeGrain(0.5, 75.0, 0.4)
EQUAL = LoupeGrain(0.5, 75.0, 0.0)


def glass(
    patch: NDArray[np.uint8],
    grain: LoupeGrain = ROSIN,
    *,
    um_per_px: float = 5.0,
    seed: int = 1,
    origin_mm: tuple[float, float] = (10.0, 20.0),
) -> NDArray[np.uint8]:
    return loupe(
        patch,
        TONES,
        grain,
        px_per_mm=8.0,
        um_per_px=um_per_px,
        seed=seed,
        origin_mm=origin_mm,
    )


def flat(tone: int, side_mm: float) -> NDArray[np.uint8]:
    side = round(side_mm * 8)
    return np.full((side, side), tone, dtype=np.uint8)


@pytest.mark.parametrize("undercut_um", [(), (0.0, 1.0, 4.0, 8.0, 15.0)])
@pytest.mark.parametrize("tone", range(5))
def test_the_discs_together_are_as_light_as_the_tone(
    tone: int, undercut_um: tuple[float, ...]
) -> None:
    grain = LoupeGrain(0.5, 75.0, 0.4, undercut_um)
    pieces = [glass(flat(tone, 5.0), grain, um_per_px=8.0, seed=s) for s in range(3)]
    found = float(lightness(linear_from_srgb(np.stack(pieces) / 255.0).mean()))
    assert found == pytest.approx(TONES[tone], abs=1.5)


def test_discs_cover_and_vary_as_a_boolean_model_does() -> None:
    side, window = 1600, 100  # 16 mm and 1 mm
    image = linear_from_srgb(glass(flat(1, 16.0), EQUAL, um_per_px=10.0) / 255.0)
    dark, light = np.quantile(image, [0.02, 0.98])
    land = (image - dark) / (light - dark)
    # equal discs, coverage 0.5: integral of the covariance 0.644134 r^2, Chiu, Stoyan, Kendall
    # & Mecke, Stochastic Geometry, ch. 3, computed apart from this program
    integral_mm2 = 0.644134 * 0.0375**2
    assert land.mean() == pytest.approx(0.5, abs=4.0 * np.sqrt(integral_mm2) / 16.0)
    cells = side // window
    means = land.reshape(cells, window, cells, window).mean(axis=(1, 3))
    chance = 3.0 * np.sqrt(2.0 / cells**2)  # three standard errors of a variance
    assert means.var() == pytest.approx(integral_mm2, rel=chance)


def test_the_same_place_shows_the_same_grain_wherever_the_glass_lies() -> None:
    here = glass(flat(3, 2.0), origin_mm=(10.0, 20.0))
    there = glass(flat(3, 2.0), origin_mm=(11.0, 19.5))
    # 1 mm is 200 pixels, half a millimetre 100; a rim of 100 um is left out, where the
    # paper's softness ends at the glass
    shared_here, shared_there = here[0:300, 200:400], there[100:400, 0:200]
    assert (shared_here[20:-20, 20:-20] == shared_there[20:-20, 20:-20]).all()


def test_another_plate_has_another_grain() -> None:
    assert (glass(flat(2, 1.0)) == glass(flat(2, 1.0))).all()
    assert (glass(flat(2, 1.0)) != glass(flat(2, 1.0), seed=2)).any()


def test_grain_that_stands_in_a_dark_tone_stood_in_every_lighter_one() -> None:
    pictures = [glass(flat(tone, 2.0)) for tone in (2, 3, 4)]
    lands = [p > (int(p.min()) + int(p.max())) / 2 for p in pictures]
    for light, dark in pairwise(lands):
        assert (dark & ~light).mean() < 0.001
        assert dark.sum() < light.sum()


def test_white_is_even_and_shows_no_grain() -> None:
    assert np.ptp(glass(flat(0, 1.0))) == 0


def test_a_border_is_drawn_by_a_brush_and_not_by_the_grid() -> None:
    patch = np.triu(np.ones((16, 16), dtype=np.uint8)) * np.uint8(4)
    dark = glass(patch) < 90
    edges = [int(np.argmax(row)) for row in dark[60:-60]]
    steps = np.abs(np.diff(edges))
    assert np.median(steps) <= 2
    assert glass(patch).shape == (400, 400)
