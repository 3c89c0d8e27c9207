"""The preview of a whole plan."""

import numpy as np
import pytest
from PIL import Image
from skimage import data
from skimage.color import rgb2lab

from toneladder.bite.values import Conditions, Fineness, Metal, Mordant
from toneladder.picture.opening import open_picture
from toneladder.picture.values import PlateSize
from toneladder.plan.planning import Plan, plan
from toneladder.plan.previewing import loupe_grain_of, preview_of, texture_of
from toneladder.plate.values import Plate

FINENESS = (Fineness.COARSE, Fineness.MEDIUM)


@pytest.fixture(scope="module")
def coins(tmp_path_factory: pytest.TempPathFactory) -> Plan:
    path = tmp_path_factory.mktemp("picture") / "coins.png"
    Image.fromarray(data.coins()).save(path)
    picture = open_picture(path, name="coins.png")
    return plan(picture, Plate("Coins", picture.ref, PlateSize(100.0, 80.0)))


def test_the_preview_has_the_size_of_plate_and_margins(coins: Plan) -> None:
    assert preview_of(coins, px_per_mm=2.0, margins=False).shape == (160, 200, 3)
    assert preview_of(coins, px_per_mm=2.0).shape == (360, 400, 3)


def test_each_step_shows_what_is_open_as_dark_as_its_bite_made_it(coins: Plan) -> None:
    for step in range(len(coins.order.steps) + 1):
        image = preview_of(coins, step=step, px_per_mm=8.0, margins=False)
        shown = rgb2lab(image)[..., 0]
        for tone in coins.order.tones:
            expected = coins.order.tones[min(tone.tone, step)].lightness
            assert np.median(shown[coins.tones == tone.tone]) == pytest.approx(expected, abs=1.5)


def test_at_arms_length_the_grain_is_silent(coins: Plan) -> None:
    # 3 px to the millimetre is a plate fitted to a window; 2.3 L* is what an eye tells apart
    shown = rgb2lab(preview_of(coins, px_per_mm=3.0, margins=False))[..., 0]
    flat = np.asarray(Image.fromarray(coins.tones).resize(shown.shape[::-1], 0))
    inside = np.ones_like(flat, dtype=bool)
    for axis in (0, 1):
        for by in (-2, 2):
            inside &= np.roll(flat, by, axis) == flat
    for tone in range(coins.chosen.count):
        cells = shown[inside & (flat == tone)]
        if cells.size > 500:
            assert cells.std() < 2.3


def test_a_metal_without_starting_point_has_a_texture_too() -> None:
    assert texture_of(Conditions(Metal.STEEL, Mordant.OTHER)).correlation_area_um2 > 0


def test_under_the_loupe_is_the_ground_of_the_conditions_eaten_the_longer_the_more() -> None:
    coarse, medium = (loupe_grain_of(Conditions(fineness=f), (0.0, 60.0, 900.0)) for f in FINENESS)
    assert coarse.diameter_um > medium.diameter_um
    assert medium.undercut_um[0] == 0.0
    # at one rate the undercut is as 1 to 15
    assert medium.undercut_um[2] == pytest.approx(15.0 * medium.undercut_um[1])
    assert loupe_grain_of(Conditions(Metal.STEEL, Mordant.OTHER)).coverage > 0
