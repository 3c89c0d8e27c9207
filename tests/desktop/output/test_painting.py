"""The one painter puts marks where the sheet says, at any scale."""

import numpy as np
import pytest
from PySide6.QtGui import QImage, QPainter

from toneladder.boxes import Box
from toneladder.lettering import Face
from toneladder.sheets.marks import (
    A4,
    Anchor,
    Ink,
    Mark,
    Path,
    Sheet,
    Text,
    filled,
    frame,
    line,
    picture,
)
from toneladder_desktop.output.painting import letters, paint

pytestmark = pytest.mark.usefixtures("qapp")

PX_PER_MM = 10.0


def painted(*marks: Mark, px_per_mm: float = PX_PER_MM, side_mm: float = 60.0) -> np.ndarray:
    """Grey values, 0 black to 255, of the sheet's top left corner."""
    side = round(side_mm * px_per_mm)
    image = QImage(side, side, QImage.Format.Format_Grayscale8)
    image.fill(0xFFFFFFFF)
    painter = QPainter(image)
    paint(Sheet(A4, marks, "", 1, 1), painter, px_per_mm)
    painter.end()
    flat = np.frombuffer(image.constBits(), dtype=np.uint8)
    return flat.reshape(side, image.bytesPerLine())[:, :side].copy()


def black_box(grey: np.ndarray) -> tuple[int, int, int, int]:
    rows, columns = np.nonzero((grey < 128).any(axis=1))[0], np.nonzero((grey < 128).any(axis=0))[0]
    return int(columns[0]), int(rows[0]), int(columns[-1]) + 1, int(rows[-1]) + 1


@pytest.mark.parametrize("px_per_mm", [4.0, 10.0, 23.6])
def test_a_line_lies_where_the_sheet_says(px_per_mm: float) -> None:
    grey = painted(line((10.0, 20.0), (50.0, 20.0), 1.0), px_per_mm=px_per_mm)
    expected = [edge * px_per_mm for edge in (10.0, 19.5, 50.0, 20.5)]
    assert black_box(grey) == pytest.approx(expected, abs=1.0)


def test_crossing_areas_are_filled_once() -> None:
    cross = Path(
        (Box(10, 20, 30, 10).corners, Box(20, 10, 10, 30).corners), closed=True, fill=Ink.BLACK
    )
    grey = painted(cross)
    assert (grey[205:295, 205:295] == 0).all()
    assert (grey < 128).mean() == pytest.approx(500 / 3600, abs=0.002)


def test_white_covers_black() -> None:
    grey = painted(
        filled([Box(10, 10, 30, 30).corners]), frame(Box(15, 15, 10, 10), 0.0, Ink.WHITE)
    )
    assert (grey[155:245, 155:245] == 255).all()
    assert (grey[105:145, 105:395] == 0).all()


def test_nothing_of_a_path_is_drawn_outside_its_window() -> None:
    within = Box(20.0, 10.0, 15.0, 30.0)
    ground = Path((Box(10, 20, 40, 10).corners,), closed=True, fill=Ink.BLACK, within=within)
    grey = painted(ground, line((40.0, 50.0), (50.0, 50.0), 1.0))
    assert black_box(grey[:400]) == pytest.approx((200, 200, 350, 300), abs=1)
    assert (grey[500, 405:495] == 0).all()


def test_painting_a_picture_leaves_its_dots_as_they_were() -> None:
    mark = picture(Box(10.0, 10.0, 40.0, 20.0), np.eye(16, dtype=np.bool_))
    before = bytes(bytearray(mark.packed))
    painted(mark)
    assert mark.packed == before


def test_dashes_are_as_long_as_asked() -> None:
    grey = painted(Path((((10.0, 20.0), (50.0, 20.0)),), stroke_mm=1.0, dash_mm=(3.0, 2.0)))
    row = grey[200, 100:500] < 128
    assert row.mean() == pytest.approx(0.6, abs=0.01)
    assert row[:29].all()
    assert not row[31:49].any()


@pytest.mark.parametrize(
    ("anchor", "left", "right"),
    [(Anchor.LEFT, 30.0, None), (Anchor.RIGHT, None, 30.0), (Anchor.MIDDLE, None, None)],
)
def test_texts_stand_at_their_anchor(
    anchor: Anchor, left: float | None, right: float | None
) -> None:
    text = Text(30.0, 30.0, "HHH", Face.SANS_BOLD, 8.0, anchor)
    box = black_box(painted(text))
    side_bearing = 0.1 * text.size_mm * PX_PER_MM
    if left is not None:
        assert box[0] == pytest.approx(left * PX_PER_MM, abs=side_bearing)
    elif right is not None:
        assert box[2] == pytest.approx(right * PX_PER_MM, abs=side_bearing)
    else:
        assert (box[0] + box[2]) / 2 == pytest.approx(30.0 * PX_PER_MM, abs=1.0)
    assert box[2] - box[0] == pytest.approx(text.width * PX_PER_MM, abs=2 * side_bearing)


def test_letters_stand_on_their_baseline_at_their_size() -> None:
    _, top, _, foot = black_box(painted(Text(10.0, 40.0, "H", Face.SANS_BOLD, 20.0)))
    assert foot == pytest.approx(400, abs=1)
    assert foot - top == pytest.approx(0.644 * 200, abs=1.5)  # capitals as the font file has them


def test_white_letters_are_knocked_out_of_black() -> None:
    ground = filled([Box(5, 5, 50, 50).corners])
    grey = painted(ground, Text(30, 40, "4", Face.SANS_BOLD, 20.0, Anchor.MIDDLE, Ink.WHITE))
    assert (grey[60:540, 60:540] > 128).mean() > 0.02


def test_a_picture_lies_in_its_box_the_right_way_round() -> None:
    black = np.zeros((40, 80), dtype=np.bool_)
    black[:10, :20] = True
    grey = painted(picture(Box(10.0, 10.0, 40.0, 20.0), black))
    assert black_box(grey) == pytest.approx((100, 100, 200, 150), abs=1)


def test_every_row_of_a_picture_begins_at_the_left() -> None:
    black = np.zeros((37, 13), dtype=np.bool_)  # neither a multiple of 8 nor of 32 dots wide
    black[:, 0] = True
    grey = painted(picture(Box(10.0, 10.0, 13.0, 37.0), black))
    assert black_box(grey) == pytest.approx((100, 100, 110, 470), abs=1)


def test_the_painter_is_left_as_it_was() -> None:
    image = QImage(100, 100, QImage.Format.Format_Grayscale8)
    painter = QPainter(image)
    before = painter.transform(), painter.renderHints(), painter.pen()
    paint(Sheet(A4, (Text(1, 5, "x", Face.SANS, 4.0),), "", 1, 1), painter, 3.0)
    after = painter.transform(), painter.renderHints(), painter.pen()
    painter.end()
    assert before == after


@pytest.mark.parametrize("face", list(Face))
def test_each_face_is_its_own_letters(face: Face) -> None:
    assert letters(face).family() == face.family
    others = [
        painted(Text(5, 30, "Rag 4", other, 12.0)).tobytes() for other in Face if other is not face
    ]
    assert painted(Text(5, 30, "Rag 4", face, 12.0)).tobytes() not in others
