"""From the plate to the picture and back; laying the plate anew keeps what is under the hand."""

from math import atan2, degrees

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from toneladder.picture.laying import grid_for, lay
from toneladder.picture.opening import Picture
from toneladder.picture.placing import (
    Placing,
    bare_corners,
    filled,
    laying_of,
    moved,
    placing_of,
    scaled,
    share_taken,
    straightened,
    turned,
    whole,
)
from toneladder.picture.values import Crop, Laying, PictureRef, PlateSize

PICTURE = (400, 300)
SIZE = PlateSize(80.0, 50.0)

sides = st.floats(5.0, 400.0)
sizes = st.builds(PlateSize, sides, sides)
pictures = st.tuples(st.integers(20, 5000), st.integers(20, 5000))


@st.composite
def layings(draw: st.DrawFn) -> Laying:
    width, height = draw(st.floats(0.05, 1.0)), draw(st.floats(0.05, 1.0))
    x, y = draw(st.floats(0.0, 1.0 - width)), draw(st.floats(0.0, 1.0 - height))
    turn = draw(st.one_of(st.sampled_from([0.0, 90.0, -90.0, 180.0]), st.floats(-360.0, 360.0)))
    return Laying(Crop(x, y, width, height), turn, draw(st.booleans()))


def inside(laying: Laying) -> bool:
    crop = laying.crop
    return (
        min(crop.x, crop.y) >= 0.0
        and min(crop.width, crop.height) > 0.0
        and max(crop.x + crop.width, crop.y + crop.height) <= 1.0 + 1e-9
    )


@given(layings(), sizes, pictures, st.lists(st.tuples(sides, sides), min_size=1, max_size=4))
def test_there_and_back_is_where_one_began(
    laying: Laying, size: PlateSize, picture: tuple[int, int], points: list[tuple[float, float]]
) -> None:
    here = placing_of(laying, size, picture)
    assert here.to_plate(here.to_picture(points)) == pytest.approx(np.array(points), abs=1e-7)


@given(layings(), sizes, pictures)
def test_a_laying_made_from_a_placing_lays_the_plate_so(
    laying: Laying, size: PlateSize, picture: tuple[int, int]
) -> None:
    here = placing_of(laying, size, picture)
    again = placing_of(laying_of(here), size, picture)
    assert again.middle == pytest.approx(here.middle, abs=1e-6)
    assert again.px_per_mm == pytest.approx(here.px_per_mm)
    assert inside(laying_of(here))


def ramps(width: int, height: int) -> tuple[Picture, Picture]:
    """Two pictures whose light is the share across, and the share down, of each pixel's middle."""
    across, down = (np.arange(width) + 0.5) / width, (np.arange(height) + 0.5) / height
    light = np.meshgrid(across, down)
    ref = PictureRef("0" * 64, "ramp", width, height, 16)
    one, other = (Picture(ref, np.rint(part * 65535).astype(np.uint16), ()) for part in light)
    return one, other


@pytest.mark.parametrize("turn", [0.0, 90.0, 180.0, -90.0, 7.0, -50.0, 135.0, 200.0])
@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("crop", [Crop(), Crop(0.2, 0.3, 0.5, 0.6), Crop(0.1, 0.1, 0.2, 0.8)])
def test_the_way_to_the_picture_is_the_way_the_picture_was_laid(
    turn: float, crop: Crop, *, mirrored: bool
) -> None:
    # a picture of its own coordinates, laid on the plate, says where every cell came from
    laying = Laying(crop, turn, mirrored)
    grid, _ = grid_for(PlateSize(20.0, 14.0), 1.5, 2.0)
    size = PlateSize(20.0, 14.0)
    one, other = ramps(*PICTURE)
    found = np.stack([lay(p, laying, size, grid).light for p in (one, other)], axis=-1)
    rows, columns = np.mgrid[0 : grid.height, 0 : grid.width]
    middles = (np.stack([columns, rows], axis=-1).reshape(-1, 2) + 0.5) / grid.px_per_mm
    expected = placing_of(laying, size, PICTURE).to_picture(middles)
    well_inside = np.all((expected > 0.01) & (expected < 0.99), axis=1)
    assert well_inside.mean() > 0.3
    apart = np.abs(found.reshape(-1, 2)[well_inside] - expected[well_inside])
    assert apart.max() < 1e-3  # of the picture's sides: under half a pixel


@given(layings(), sizes, pictures, st.floats(-90, 90), st.floats(-90, 90))
def test_however_it_is_moved_scaled_and_turned_the_crop_stays_inside_the_picture(
    laying: Laying, size: PlateSize, picture: tuple[int, int], dx: float, dy: float
) -> None:
    for laid in (
        moved(laying, size, picture, dx, dy),
        scaled(laying, size, picture, 2.0 ** (dx / 20.0), (dx, dy)),
        turned(laying, size, picture, 4.0 * dx),
        straightened(laying, size, picture, (0.0, 0.0), (dx, dy)),
        filled(laying, size, picture),
        whole(laying),
    ):
        assert inside(laid)
        assert abs(laid.turn_deg) <= 360.0
        assert laid.mirrored == laying.mirrored


def well_inside(turn: float, *, mirrored: bool) -> Laying:
    """A small piece in the middle of the picture, with room on every side."""
    return laying_of(Placing(SIZE, PICTURE, (200.0, 150.0), 1.0, turn, mirrored))


turns = st.floats(-180.0, 180.0)


@given(turns, st.booleans(), st.floats(-40.0, 40.0), st.floats(-40.0, 40.0))
def test_the_picture_moves_with_the_hand(turn: float, mirror: bool, dx: float, dy: float) -> None:
    laying = well_inside(turn, mirrored=mirror)
    taken = placing_of(laying, SIZE, PICTURE).to_picture([(40.0, 25.0)])
    after = placing_of(moved(laying, SIZE, PICTURE, dx, dy), SIZE, PICTURE)
    assert after.to_plate(taken)[0] == pytest.approx((40.0 + dx, 25.0 + dy), abs=1e-6)


@given(turns, st.booleans(), st.floats(0.8, 3.0), st.floats(0.0, 80.0), st.floats(0.0, 50.0))
def test_what_is_under_the_hand_stays_there_while_the_picture_grows(
    turn: float,
    mirror: bool,
    factor: float,
    x: float,
    y: float,
) -> None:
    laying = well_inside(turn, mirrored=mirror)
    before = placing_of(laying, SIZE, PICTURE)
    after = placing_of(scaled(laying, SIZE, PICTURE, factor, (x, y)), SIZE, PICTURE)
    assert after.px_per_mm == pytest.approx(before.px_per_mm / factor)
    assert after.to_plate(before.to_picture([(x, y)]))[0] == pytest.approx((x, y), abs=1e-6)


@given(turns, st.booleans(), st.floats(-170.0, 170.0))
def test_the_picture_turns_clockwise_as_it_is_seen_about_the_middle(
    turn: float,
    mirror: bool,
    by: float,
) -> None:
    laying = well_inside(turn, mirrored=mirror)
    before = placing_of(laying, SIZE, PICTURE)
    after = placing_of(turned(laying, SIZE, PICTURE, by), SIZE, PICTURE)
    middle, right = after.to_plate(before.to_picture([(40.0, 25.0), (60.0, 25.0)]))
    assert middle == pytest.approx((40.0, 25.0), abs=1e-6)
    seen = degrees(atan2(right[1] - middle[1], right[0] - middle[0]))  # down is clockwise
    assert (seen - by + 180.0) % 360.0 - 180.0 == pytest.approx(0.0, abs=1e-6)
    assert after.px_per_mm == pytest.approx(before.px_per_mm)


@given(turns, st.booleans(), st.tuples(*[st.floats(5.0, 45.0)] * 4))
def test_two_points_of_one_level_or_upright_thing_set_it_straight(
    turn: float,
    mirror: bool,
    ends: tuple[float, float, float, float],
) -> None:
    p, q = ends[:2], ends[2:]
    assume(np.hypot(p[0] - q[0], p[1] - q[1]) > 1.0)
    assume(abs(abs(p[0] - q[0]) - abs(p[1] - q[1])) > 0.01)
    laying = well_inside(turn, mirrored=mirror)
    before = placing_of(laying, SIZE, PICTURE)
    after = placing_of(straightened(laying, SIZE, PICTURE, p, q), SIZE, PICTURE)
    dx, dy = np.diff(after.to_plate(before.to_picture([p, q])), axis=0)[0]
    assert min(abs(dx), abs(dy)) == pytest.approx(0.0, abs=1e-6)
    level = abs(q[0] - p[0]) > abs(q[1] - p[1])
    assert (abs(dx) > abs(dy)) == level


@given(layings(), sizes, pictures)
def test_a_filled_plate_has_no_bare_corner_and_could_be_no_larger(
    laying: Laying, size: PlateSize, picture: tuple[int, int]
) -> None:
    full = filled(laying, size, picture)
    assert bare_corners(full, size, picture) == 0
    here = placing_of(full, size, picture)
    sides = [
        side for box in (here.reach_px(), here.box_px()) for side in zip(box, picture, strict=True)
    ]
    assert max(side / length for side, length in sides) == pytest.approx(1.0)


def test_a_picture_that_is_too_large_shrinks_until_it_just_fills_the_plate() -> None:
    close = laying_of(Placing(SIZE, PICTURE, (200.0, 150.0), 2.0, 0.0, False))
    full = filled(close, SIZE, PICTURE)
    # 400 px for 80 mm are 5 to the millimetre; 50 mm then take 250 of the 300 px down
    assert placing_of(full, SIZE, PICTURE).px_per_mm == pytest.approx(5.0)
    assert share_taken(full, SIZE, PICTURE) == pytest.approx(250 / 300)


def test_the_share_of_the_picture_that_a_plate_takes() -> None:
    square = PlateSize(100.0, 100.0)
    assert share_taken(Laying(), square, (300, 300)) == pytest.approx(1.0)
    assert share_taken(Laying(), square, (300, 200)) == pytest.approx(2 / 3)
    assert share_taken(Laying(Crop(0.25, 0.25, 0.5, 0.5)), square, (300, 300)) == pytest.approx(
        1 / 4
    )
    # a square turned by an eighth over its like: the octagon common to both, 2 (sqrt 2 - 1)
    turned_square = share_taken(Laying(turn_deg=45.0), square, (300, 300))
    assert turned_square == pytest.approx(2.0 * (2.0**0.5 - 1.0))


@given(layings(), sizes, pictures)
def test_a_plate_takes_no_more_of_the_picture_than_there_is_or_than_it_is_large(
    laying: Laying, size: PlateSize, picture: tuple[int, int]
) -> None:
    here = placing_of(laying, size, picture)
    plate_px = size.width_mm * size.height_mm * here.px_per_mm**2
    taken = share_taken(laying, size, picture)
    assert 0.0 < taken <= min(1.0, plate_px / (picture[0] * picture[1])) * (1 + 1e-9)


@given(layings(), sizes, pictures, st.floats(-500, 500), st.floats(-500, 500))
def test_where_the_picture_is_large_enough_no_move_bares_a_corner(
    laying: Laying, size: PlateSize, picture: tuple[int, int], dx: float, dy: float
) -> None:
    full = filled(laying, size, picture)
    assert bare_corners(moved(full, size, picture, dx, dy), size, picture) == 0


def test_an_upright_plate_has_no_bare_corner_and_a_turned_whole_picture_has_four() -> None:
    square = PlateSize(100.0, 100.0)
    assert bare_corners(Laying(), square, (300, 300)) == 0
    assert bare_corners(Laying(turn_deg=45.0), square, (300, 300)) == 4
    assert bare_corners(Laying(turn_deg=90.0), square, (300, 300)) == 0


def test_growing_ends_before_the_plate_is_a_dot_and_shrinking_at_the_whole_picture() -> None:
    small = scaled(Laying(), SIZE, PICTURE, 1e9, (10.0, 10.0))
    assert max(placing_of(small, SIZE, PICTURE).box_px()) == pytest.approx(16.0)
    large = scaled(small, SIZE, PICTURE, 1e-9, (10.0, 10.0))
    assert placing_of(large, SIZE, PICTURE) == placing_of(Laying(), SIZE, PICTURE)
