"""The plate is laid on the picture."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from toneladder.errors import PlanError
from toneladder.picture.laying import Laid, grid_for, lay, plate_size_for
from toneladder.picture.opening import Picture, open_picture
from toneladder.picture.values import MOST_CELLS, Crop, Grid, Laying, PictureRef, PlateSize

Encoded = Callable[..., bytes]


def picture_of(light: np.ndarray) -> Picture:
    light = np.asarray(light, np.uint16)
    return Picture(PictureRef("0" * 64, "x", light.shape[1], light.shape[0], 16), light, ())


def laid(light: np.ndarray, laying: Laying, size: PlateSize, px_per_mm: float) -> Laid:
    grid = Grid(round(size.width_mm * px_per_mm), round(size.height_mm * px_per_mm), px_per_mm)
    return lay(picture_of(light), laying, size, grid)


@pytest.mark.parametrize(
    ("width", "height", "laying", "size"),
    [
        (3000, 2000, Laying(), (200.0, 133.3)),
        (1000, 2000, Laying(), (100.0, 200.0)),
        (3000, 2000, Laying(turn_deg=90), (133.3, 200.0)),
        (3000, 2000, Laying(turn_deg=-92), (133.3, 200.0)),
        (3000, 2000, Laying(turn_deg=3), (200.0, 133.3)),
        (3000, 2000, Laying(crop=Crop(0.1, 0.2, 0.5, 0.75)), (200.0, 200.0)),
        (1, 1, Laying(), (200.0, 200.0)),
        (30_000, 2, Laying(), (200.0, 5.0)),
    ],
)
def test_a_plate_has_the_proportions_of_what_is_seen(
    width: int, height: int, laying: Laying, size: tuple[float, float]
) -> None:
    assert plate_size_for(width, height, laying) == PlateSize(*size)


def test_the_usual_grid_has_eight_cells_to_the_millimetre() -> None:
    assert grid_for(PlateSize(200, 150), 1.5, 2.0) == (Grid(1600, 1200, 8.0), ())
    # 8 x 6 inches
    assert grid_for(PlateSize(203.2, 152.4), 1.5, 2.0) == (Grid(1626, 1219, 8.0), ())


@given(st.floats(5, 3000), st.floats(5, 3000))
def test_a_large_plate_is_coarser_and_says_so(width: float, height: float) -> None:
    grid, warnings = grid_for(PlateSize(width, height), 4.0, 4.0)
    assert grid.width * grid.height <= MOST_CELLS * 1.001
    assert (grid.px_per_mm < 8.0) == (len(warnings) == 1) == (width * height * 64 > MOST_CELLS)
    assert grid.width == pytest.approx(width * grid.px_per_mm, abs=0.5)


def test_a_brush_under_three_cells_is_refused_with_the_finest_that_is_not() -> None:
    grid_for(PlateSize(200, 150), 0.375, 2.0)
    with pytest.raises(PlanError, match=r"0\.3\smm is too fine .* the finest is 0\.38\smm"):
        grid_for(PlateSize(200, 150), 2.0, 0.3)


def test_a_picture_of_other_proportions_is_cut_and_the_share_is_named() -> None:
    light = np.zeros((200, 300))
    light[:, :25] = light[:, -25:] = 65535
    found = laid(light, Laying(), PlateSize(100, 80), 1.0)
    assert found.light.max() == 0.0
    assert found.notes == (
        "The picture is 3:2 and the plate 5:4: 17\xa0% of its width is left out.",
    )
    found = laid(light.T, Laying(), PlateSize(80, 100), 1.0)
    assert found.light.max() == 0.0
    assert found.notes == (
        "The picture is 2:3 and the plate 4:5: 17\xa0% of its height is left out.",
    )


def test_nothing_is_said_where_nothing_is_left_out() -> None:
    assert not laid(np.zeros((200, 300)), Laying(), PlateSize(200, 133.3), 1.0).notes


@pytest.mark.parametrize("shape", [(1, 1), (2, 30_000), (30_000, 2), (1, 7)])
def test_any_picture_fills_the_plate(shape: tuple[int, int]) -> None:
    found = laid(np.full(shape, 32768), Laying(), PlateSize(200, 150), 8.0)
    assert found.light.shape == (1200, 1600)
    assert found.light == pytest.approx(32768 / 65535, abs=1e-6)


@pytest.mark.parametrize("turn", [0, 90, 180, 270, 360, -90, 450])
@pytest.mark.parametrize("mirrored", [False, True])
def test_quarter_turns_are_exact(turn: int, *, mirrored: bool) -> None:
    light = np.random.default_rng(turn + 500).integers(0, 65536, (30, 40), dtype=np.uint16)
    seen = np.rot90(light, -turn // 90)
    seen = seen[:, ::-1] if mirrored else seen
    height, width = seen.shape
    found = laid(light, Laying(turn_deg=turn, mirrored=mirrored), PlateSize(width, height), 1.0)
    assert found.light == pytest.approx(seen / 65535.0, abs=1e-6)
    assert found.light.flags.c_contiguous
    assert not found.notes


def test_a_crop_is_a_share_of_the_whole_picture() -> None:
    light = np.random.default_rng(6).integers(0, 65536, (40, 60), dtype=np.uint16)
    laying = Laying(crop=Crop(0.5, 0.25, 0.25, 0.5))
    found = laid(light, laying, PlateSize(15, 20), 1.0)
    assert found.light == pytest.approx(light[10:30, 30:45] / 65535.0, abs=1e-6)
    turned = laid(light, Laying(crop=laying.crop, turn_deg=90), PlateSize(20, 15), 1.0)
    assert turned.light == pytest.approx(np.rot90(light[10:30, 30:45], -1) / 65535.0, abs=1e-6)


def test_the_grid_may_reach_past_the_plate_but_its_pitch_is_kept() -> None:
    light = np.tile(np.arange(0, 6000, 10), (10, 1))
    size = PlateSize(20.3, 20.3 / 60)
    found = laid(light, Laying(), size, 8.0)  # 162.4 cells, 162 of them
    middles = (np.arange(162) + 0.5) / 8.0 / 20.3 * 600
    assert found.light[0] * 65535 == pytest.approx(middles * 10 - 5, abs=0.4)
    mirrored = laid(light, Laying(mirrored=True), size, 8.0)
    assert mirrored.light[0] * 65535 == pytest.approx((600 - middles) * 10 - 5, abs=0.4)


@settings(max_examples=40, deadline=None)
@given(
    laying=st.builds(
        Laying, st.just(Crop(0.3, 0.3, 0.4, 0.4)), st.floats(-180, 180), st.booleans()
    ),
    px_per_mm=st.floats(0.5, 6.0),
)
def test_a_slope_of_light_turns_with_the_picture(laying: Laying, px_per_mm: float) -> None:
    x, y = np.meshgrid(np.arange(240) + 0.5, np.arange(240) + 0.5)
    light = 30000 + 60 * (x - 120) + 20 * (y - 120)
    found = laid(light, laying, PlateSize(24, 24), px_per_mm)
    cells = found.light.shape[0]
    across = (np.arange(cells) + 0.5) / px_per_mm - 12
    u, v = np.meshgrid(-across if laying.mirrored else across, across)
    angle = np.radians(laying.turn_deg)  # clockwise as seen, with y downwards
    px = 96 / 24
    sx, sy = u * np.cos(angle) + v * np.sin(angle), -u * np.sin(angle) + v * np.cos(angle)
    expected = 30000 + 60 * px * sx + 20 * px * sy
    assert found.light * 65535 == pytest.approx(expected, abs=12)
    assert not found.notes


def test_corners_without_picture_are_paper_and_named() -> None:
    found = laid(np.zeros((100, 100)), Laying(turn_deg=45), PlateSize(100, 100), 2.0)
    # a square turned by 45 degrees keeps 2(√2 − 1) of itself inside
    assert found.light.mean() == pytest.approx(1 - 2 * (2**0.5 - 1), abs=0.005)
    assert found.light[0, 0] == 1.0
    assert found.light[100, 100] == 0.0
    assert found.notes == (
        "Turned, the picture does not reach all corners: 17\xa0% of the plate is left paper white.",
    )


def test_a_turned_photograph_is_the_photograph(
    photograph: Callable[[str], str], encoded: Encoded
) -> None:
    image = Image.open(photograph("camera.png")).resize((400, 400))
    upright = open_picture(encoded(image, "PNG"), name="upright")
    crop, size, grid = Crop(0.3, 0.3, 0.4, 0.4), PlateSize(50, 50), Grid(100, 100, 2.0)
    turned = Image.fromarray(upright.light.astype(np.float32)).rotate(-20, Image.Resampling.BICUBIC)
    askew = picture_of(np.clip(np.asarray(turned), 0, 65535))
    found = lay(upright, Laying(crop, 20.0), size, grid).light
    expected = lay(askew, Laying(crop), size, grid).light
    assert np.abs(found - expected).mean() < 0.004
    assert np.corrcoef(found.ravel(), expected.ravel())[0, 1] > 0.995


def test_a_turned_picture_of_one_pixel_works() -> None:
    found = laid(np.array([[9000]]), Laying(turn_deg=10), PlateSize(20, 15), 8.0)
    assert found.light[60, 80] == pytest.approx(9000 / 65535)
