"""The small picture shows what to paint now, on the plate as it lies in the hand."""

import numpy as np
import pytest

from toneladder.boxes import Box
from toneladder.sheets.marks import Path, Picture
from toneladder.sheets.step_picture import plate_in, step_picture

BOX = Box(0.0, 0.0, 40.0, 30.0)
THIRDS = np.repeat(np.array([[0, 1, 2]], dtype=np.uint8), 40, axis=1).repeat(90, axis=0)


def dots(picture: Picture) -> np.ndarray:
    packed = np.frombuffer(picture.packed, dtype=np.uint8).reshape(picture.rows, -1)
    return np.unpackbits(packed, axis=1)[:, : picture.columns].astype(bool)


def thirds(step: int) -> list[np.ndarray]:
    """The picture's left, middle and right third, without their edges."""
    picture, _ = step_picture(THIRDS, step, BOX)
    assert isinstance(picture, Picture)
    black = dots(picture)
    third = picture.columns // 3
    return [black[40:-40, at * third + 20 : (at + 1) * third - 20] for at in range(3)]


def test_the_picture_is_mirrored_left_to_right() -> None:
    left, middle, right = thirds(1)
    assert right.mean() > 0.3
    assert not left.any()
    assert not middle.any()


def test_paint_now_is_close_and_covered_is_wide() -> None:
    left, middle, right = thirds(2)
    assert middle.mean() == pytest.approx(0.2 / 0.5, abs=0.05)
    assert 0.03 < right.mean() < 0.12  # covered areas take 12 % of ink at the most
    assert not left.any()


def test_new_and_old_varnish_are_told_apart_by_direction() -> None:
    _, now, covered = thirds(2)

    def rising(area: np.ndarray) -> float:
        return float((area[:-4, 4:] & area[4:, :-4]).sum() / max(area.sum(), 1))

    def falling(area: np.ndarray) -> float:
        return float((area[4:, 4:] & area[:-4, :-4]).sum() / max(area.sum(), 1))

    assert rising(now) > 2 * falling(now)
    assert falling(covered) > 2 * rising(covered)


def test_head_and_foot_stay_where_they_are() -> None:
    tones = np.ones((60, 80), dtype=np.uint8)
    tones[:20] = 0
    picture, _ = step_picture(tones, 1, BOX)
    assert isinstance(picture, Picture)
    black = dots(picture)
    assert black[: picture.rows // 3 - 5].any()
    assert not black[picture.rows // 3 + 5 :].any()


def test_a_dot_of_varnish_as_small_as_a_brush_is_seen() -> None:
    tones = np.ones((1200, 1600), dtype=np.uint8)  # 200 by 150 mm at 8 cells to the millimetre
    tones[600:612, 800:812] = 0  # 1.5 mm
    picture, _ = step_picture(tones, 1, BOX)
    assert isinstance(picture, Picture)
    assert dots(picture).sum() >= 16


def test_an_empty_tone_leaves_the_metal_bare() -> None:
    picture, outline = step_picture(np.full((9, 9), 3, dtype=np.uint8), 1, BOX)
    assert isinstance(picture, Picture)
    assert isinstance(outline, Path)
    assert not dots(picture).any()


@pytest.mark.parametrize(("width", "height"), [(200, 150), (60, 400), (400, 60), (100, 100)])
def test_the_plate_keeps_its_proportions(width: float, height: float) -> None:
    room = Box(5.0, 7.0, 37.0, 28.0)
    box = plate_in(room, width, height)
    assert box.width / box.height == pytest.approx(width / height)
    assert box.x >= room.x
    assert box.right <= room.right + 1e-9
    assert box.y >= room.y
    assert box.bottom <= room.bottom + 1e-9


def test_a_plate_like_a_thread_still_shows() -> None:
    tones = np.zeros((1, 4000), dtype=np.uint8)
    box = plate_in(Box(0, 0, 37, 28), 3000.0, 0.2)
    picture, _ = step_picture(tones, 1, box)
    assert isinstance(picture, Picture)
    assert picture.rows > 10
    assert dots(picture).any()
