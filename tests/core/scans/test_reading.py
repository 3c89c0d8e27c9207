"""Patches are read in even light, with an honest spread."""

from dataclasses import replace

import numpy as np
import pytest
from tests.core.scans.drawing import Look, Page, draw, even_row, grey_scale

from toneladder.errors import StripError
from toneladder.picture.opening import open_picture
from toneladder.scans.finding import find_strip, strip_between
from toneladder.scans.reading import read_patches
from toneladder.scans.values import GreyScale, Reading

TONES = (90.0, 83.0, 75.0, 65.0, 52.0, 40.0, 30.0, 24.0)
BITES = (0.0, 15.0, 30.0, 60.0, 120.0, 240.0, 480.0, 960.0)
PAGE = Page(210, 90, rows=(even_row(25, 15, 20, 24, TONES), grey_scale(25, 55, 7, 14)))
SCALE = GreyScale(tuple(float(d) for d in 0.05 + 0.15 * np.arange(21)))
PLAIN = Look(dpi=110, turn=4.0)


def read(
    look: Look = PLAIN,
    page: Page = PAGE,
    bites: tuple[float, ...] = BITES,
    *,
    scale: GreyScale | None = None,
    paper: float | None = None,
    photograph: bool = False,
) -> Reading:
    light = open_picture(draw(page, look, 3).data, name="scan").light
    found = find_strip(light, patches=8, scale=scale)
    return read_patches(light, found, bites, scale=scale, paper=paper, photograph=photograph)


def tones(reading: Reading) -> list[float]:
    return [patch.lightness for patch in reading.patches]


def test_uneven_light_is_evened_by_the_paper() -> None:
    dim = read(replace(PLAIN, gradient=0.15, gradient_towards=30.0))
    assert tones(dim) == pytest.approx(TONES, abs=0.6)


def test_lightness_is_absolute_and_paper_has_its_stated_lightness() -> None:
    ivory = replace(PAGE, paper=89.0, rows=(even_row(25, 15, 20, 24, (85.0, *TONES[1:])),))
    assert tones(read(page=ivory, paper=89.0)) == pytest.approx((85.0, *TONES[1:]), abs=0.6)
    assert tones(read(replace(PLAIN, gain=0.8))) == pytest.approx(TONES, abs=0.6)


def test_bites_named_from_the_dark_end_find_their_patches() -> None:
    there, back = read(), read(bites=BITES[::-1])
    assert back.patches == there.patches[::-1]


def test_a_longer_bite_that_prints_lighter_is_kept_as_it_is() -> None:
    swapped = (*TONES[:5], 30.0, 40.0, 24.0)
    page = replace(PAGE, rows=(even_row(25, 15, 20, 24, swapped),))
    assert tones(read(page=page)) == pytest.approx(swapped, abs=0.6)


def test_a_curve_between_the_steps_of_a_grey_scale_is_straightened() -> None:
    crooked = read(replace(PLAIN, gamma=1.6))
    straight = read(replace(PLAIN, gamma=1.6), scale=SCALE)
    assert np.abs(np.array(tones(crooked)) - TONES).max() > 5.0
    assert tones(straight) == pytest.approx(TONES, abs=1.0)


def test_a_grey_scale_of_known_differences_leans_on_the_paper() -> None:
    loose = GreyScale(tuple(float(d) for d in 0.15 * np.arange(21)), absolute=False)
    assert tones(read(replace(PLAIN, gamma=2.4), scale=loose)) == pytest.approx(TONES, abs=1.0)


def test_a_blotchy_patch_has_a_wider_spread() -> None:
    light = open_picture(draw(PAGE, PLAIN, 3).data, name="scan").light
    found = find_strip(light, patches=8)
    blotched = light.copy()
    y = round(float(np.mean(found.patches[4], axis=0)[1]))
    blotched[y:] = blotched[y:] // 5 * 4
    plain = read_patches(light, found, BITES)
    blotchy = read_patches(blotched, found, BITES)
    assert blotchy.patches[4].spread > 2.0 * plain.patches[4].spread


def test_a_photograph_has_a_wider_spread_and_asks_for_a_grey_scale() -> None:
    scan, photograph = read(), read(photograph=True)
    assert photograph.patches[3].spread > 1.5 * scan.patches[3].spread
    assert "grey scale" in " ".join(photograph.remarks)
    assert scan.remarks == ()


def test_a_dark_unbitten_patch_is_said() -> None:
    page = replace(PAGE, rows=(even_row(25, 15, 20, 24, (80.0, 72.0, 66.0, 59.0, *TONES[4:])),))
    assert "unbitten patch" in " ".join(read(page=page).remarks)


def test_other_numbers_of_bites_are_refused_with_both_numbers() -> None:
    laid = strip_between(((10, 10), (90, 10), (90, 40), (10, 40)), 4)
    with pytest.raises(StripError, match=r"4 patches were found and 3 bites"):
        read_patches(np.full((50, 100), 60000, np.uint16), laid, (0.0, 15.0, 30.0))


def test_a_scale_that_does_not_get_darker_is_refused() -> None:
    laid = strip_between(((10, 10), (90, 10), (90, 40), (10, 40)), 4)
    level = replace(laid, steps=strip_between(((0, 0), (90, 0), (90, 5), (0, 5)), 21).patches)
    with pytest.raises(StripError, match="do not get darker"):
        read_patches(np.full((50, 100), 60000, np.uint16), level, BITES[:4], scale=SCALE)
