"""A strip is found at any angle, or it is said that there is none."""

import numpy as np
import pytest
from skimage import data
from tests.core.scans.drawing import Look, Page, Row, Scan, draw, even_row, grey_scale

from toneladder.errors import StripError
from toneladder.picture.light import Light
from toneladder.picture.opening import open_picture
from toneladder.scans.finding import find_strip, strip_between
from toneladder.scans.values import FoundStrip, GreyScale

TONES = (90.0, 83.0, 75.0, 65.0, 52.0, 40.0, 30.0, 24.0)
PAGE = Page(210, 90, rows=(even_row(25, 32, 20, 24, TONES),))
SCALE = GreyScale(tuple(float(d) for d in 0.05 + 0.15 * np.arange(21)))


def light_of(scan: Scan) -> Light:
    return open_picture(scan.data, name="scan").light


def middles(found: FoundStrip) -> np.ndarray:
    return np.array([np.mean(quad, axis=0) for quad in found.patches])


@pytest.mark.parametrize("turn", [-10.0, 0.0, 10.0, 175.0, 264.0])
def test_a_strip_is_found_at_any_angle_the_light_end_first(turn: float) -> None:
    scan = draw(PAGE, Look(dpi=110, turn=turn))
    found = find_strip(light_of(scan), patches=8)
    assert middles(found) == pytest.approx(np.array(scan.middles), abs=scan.patch_px / 10)
    assert found.confidence > 0.8
    assert found.notes == ()


def test_corners_lie_round_the_patches_in_pixels_of_the_scan() -> None:
    scan = draw(PAGE, Look(dpi=300, mark=0.0))
    found = find_strip(light_of(scan), patches=8)
    truth = np.array([(25, 32), (185, 32), (185, 56), (25, 56)]) * 300 / 25.4
    assert np.array(found.corners) == pytest.approx(truth, abs=8.0)  # two thirds of a millimetre


@pytest.mark.parametrize("given", [4, 7, 9, 16])
def test_another_number_of_bites_is_refused_with_both_numbers(given: int) -> None:
    light = light_of(draw(PAGE, Look(dpi=110, turn=2.0)))
    with pytest.raises(StripError, match=rf"8 patches and {given} bites"):
        find_strip(light, patches=given)


def test_an_unbitten_patch_as_light_as_the_paper_is_found_by_the_width_of_the_others() -> None:
    row = even_row(25, 32, 20, 24, (94.0, *TONES[1:]))
    scan = draw(Page(210, 90, rows=(row,)), Look(dpi=110, turn=-3.0, mark=0.0))
    found = find_strip(light_of(scan), patches=8)
    assert middles(found) == pytest.approx(np.array(scan.middles), abs=scan.patch_px / 8)
    assert "as light as the paper" in " ".join(found.notes)


def test_patches_that_all_print_black_are_parted_by_the_width_of_the_others() -> None:
    row = even_row(25, 32, 20, 24, (90.0, 70.0, 50.0, 33.0, 24.0, 23.8, 23.8, 23.8))
    scan = draw(Page(210, 90, rows=(row,)), Look(dpi=110, turn=5.0))
    found = find_strip(light_of(scan), patches=8)
    assert middles(found) == pytest.approx(np.array(scan.middles), abs=scan.patch_px / 8)


def test_borders_that_are_seen_part_patches_of_unequal_width() -> None:
    widths = (18.0, 22.0, 20.0, 23.0, 17.0, 21.0, 19.0, 20.0)
    scan = draw(Page(210, 90, rows=(Row(25, 32, widths, 24, TONES),)), Look(dpi=110))
    found = find_strip(light_of(scan), patches=8)
    assert middles(found) == pytest.approx(np.array(scan.middles), abs=1.5 * 110 / 25.4)


def test_of_two_strips_the_one_with_that_many_patches_is_taken() -> None:
    rows = (even_row(25, 15, 24, 20, TONES[2:7]), even_row(25, 50, 20, 24, TONES))
    scan = draw(Page(210, 90, rows=rows), Look(dpi=110, turn=1.0))
    five, eight = (find_strip(light_of(scan), patches=n) for n in (5, 8))
    assert middles(five) == pytest.approx(np.array(scan.rows[0]), abs=10)
    assert middles(eight) == pytest.approx(np.array(scan.rows[1]), abs=10)


def test_of_two_alike_the_larger_is_taken_and_said() -> None:
    rows = (even_row(25, 15, 14, 18, TONES), even_row(25, 50, 20, 24, TONES))
    scan = draw(Page(210, 90, rows=rows), Look(dpi=110))
    found = find_strip(light_of(scan), patches=8)
    assert middles(found) == pytest.approx(np.array(scan.rows[1]), abs=10)
    assert "2 strips of 8 patches" in " ".join(found.notes)


def test_a_grey_scale_is_found_beside_the_strip() -> None:
    rows = (even_row(25, 15, 20, 24, TONES), grey_scale(25, 55, 7, 14))
    scan = draw(Page(210, 90, rows=rows), Look(dpi=110, turn=183.0))
    found = find_strip(light_of(scan), patches=8, scale=SCALE)
    steps = np.array([np.mean(quad, axis=0) for quad in found.steps])
    assert middles(found) == pytest.approx(np.array(scan.rows[0]), abs=10)
    assert steps == pytest.approx(np.array(scan.rows[1]), abs=10)


def test_a_grey_scale_that_is_not_there_is_said() -> None:
    with pytest.raises(StripError, match="grey scale of 21 steps was not found"):
        find_strip(light_of(draw(PAGE, Look(dpi=110))), patches=8, scale=SCALE)


@pytest.mark.parametrize("name", ["camera", "coins", "page", "text", "brick", "grass", "moon"])
def test_where_no_strip_is_none_is_guessed(name: str) -> None:
    picture = getattr(data, name)().astype(float) / 255.0
    with pytest.raises(StripError, match=r"No strip was found|shows"):
        find_strip(np.round(picture**2.2 * 65535).astype(np.uint16), patches=8)


@pytest.mark.parametrize("level", [0, 300, 65535])
def test_an_empty_scan_has_no_strip(level: int) -> None:
    with pytest.raises(StripError, match="No strip"):
        find_strip(np.full((400, 600), level, np.uint16), patches=8)


@pytest.mark.parametrize("shape", [(1, 1), (3, 500), (40, 40)])
def test_a_tiny_scan_has_no_strip(shape: tuple[int, int]) -> None:
    noise = np.random.default_rng(1).integers(0, 65536, shape).astype(np.uint16)
    with pytest.raises(StripError, match="No strip"):
        find_strip(noise, patches=8)


def test_a_soft_ramp_is_no_strip() -> None:
    ramp = even_row(25, 32, 1.0, 24, tuple(np.linspace(90, 24, 160)))
    with pytest.raises(StripError, match="No strip"):
        find_strip(light_of(draw(Page(210, 90, rows=(ramp,)), Look(dpi=110))), patches=8)


def test_even_grey_is_no_strip() -> None:
    grey = even_row(25, 32, 160, 24, (40.0,))
    with pytest.raises(StripError, match="No strip"):
        find_strip(light_of(draw(Page(210, 90, rows=(grey,)), Look(dpi=110))), patches=8)


@pytest.mark.parametrize("patches", [0, 1, 25, -3])
def test_a_number_that_no_scan_can_show_is_refused(patches: int) -> None:
    with pytest.raises(StripError, match="between 2 and 24"):
        find_strip(light_of(draw(PAGE, Look(dpi=100))), patches=patches)


def test_a_strip_can_be_laid_by_hand() -> None:
    laid = strip_between(((0, 0), (80, 0), (80, 30), (0, 30)), 4)
    assert laid.patches[1] == ((20.0, 0.0), (40.0, 0.0), (40.0, 30.0), (20.0, 30.0))
    assert middles(laid)[:, 0] == pytest.approx([10, 30, 50, 70])
