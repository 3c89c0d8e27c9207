"""The paper: a colour table painted at once, seen nearer, pushed, mirrored, by hand and keys."""

import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QColor, QImage, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from toneladder.picture.values import PlateSize
from toneladder.preview.values import InkAndPaper
from toneladder_desktop.drawing.style import SURROUND
from toneladder_desktop.paper.paper import Paper

pytestmark = pytest.mark.qt_log_ignore("propagateSizeHints")

SIZE = PlateSize(40.0, 30.0)
PX_PER_MM = 8.0


@pytest.fixture
def cells() -> NDArray[np.uint8]:
    return np.random.default_rng(3).integers(0, 256, (240, 320), dtype=np.uint8)


@pytest.fixture
def paper(qtbot: QtBot, cells: NDArray[np.uint8]) -> Paper:
    paper = Paper()
    qtbot.addWidget(paper)
    paper.resize(600, 500)
    paper.lay(SIZE, InkAndPaper())
    paper.show_cells(cells)
    paper.colour(greys())
    paper.show()
    qtbot.waitExposed(paper)
    return paper


def greys() -> NDArray[np.uint8]:
    return np.repeat(np.arange(256, dtype=np.uint8)[:, None], 3, axis=1)


def seen(paper: Paper) -> NDArray[np.uint8]:
    image = paper.grab().toImage().convertToFormat(QImage.Format.Format_RGB888)
    rows = np.frombuffer(bytes(image.constBits()), np.uint8).reshape(image.height(), -1)
    return rows[:, : 3 * image.width()].reshape(image.height(), image.width(), 3)


def plate_pixels(paper: Paper) -> NDArray[np.uint8]:
    """The plate alone, at one cell a pixel."""
    left = round(paper.width() / 2 - paper._framing.x_mm * PX_PER_MM)  # type: ignore[union-attr]
    top = round(paper.height() / 2 - paper._framing.y_mm * PX_PER_MM)  # type: ignore[union-attr]
    return seen(paper)[top : top + 240, left : left + 320]


def test_a_colour_table_paints_what_painting_every_cell_would(
    paper: Paper, cells: NDArray[np.uint8]
) -> None:
    paper.scale_to(PX_PER_MM)
    table = np.random.default_rng(5).integers(0, 256, (256, 3), dtype=np.uint8)
    paper.colour(table)
    assert np.array_equal(plate_pixels(paper), table[cells])


def test_mirrored_it_is_the_same_left_to_right(paper: Paper, cells: NDArray[np.uint8]) -> None:
    paper.scale_to(PX_PER_MM)
    paper.mirror(True)
    assert np.array_equal(plate_pixels(paper)[:, :, 0], cells[:, ::-1])


def test_zoomed_out_every_pixel_shows_a_cell_and_no_mixture(
    paper: Paper, cells: NDArray[np.uint8]
) -> None:
    two = np.zeros((256, 3), dtype=np.uint8)
    two[128:] = 255
    paper.colour(two)
    sheet = paper.sheet().center()
    around = seen(paper)[sheet.y() - 60 : sheet.y() + 60, sheet.x() - 60 : sheet.x() + 60]
    assert set(np.unique(around)) == {0, 255}
    assert cells.shape == (240, 320)


def test_a_finer_picture_is_shown_until_something_changes(paper: Paper) -> None:
    paper.scale_to(PX_PER_MM)
    red = np.zeros((240, 320, 3), dtype=np.uint8)
    red[:, :, 0] = 200
    paper.show_fine(red)
    assert paper.fine
    assert np.array_equal(plate_pixels(paper), red)
    paper.colour(greys()[::-1])
    assert not paper.fine


def test_before_a_picture_is_there_the_plate_is_a_plain_sheet(qtbot: QtBot) -> None:
    paper = Paper()
    qtbot.addWidget(paper)
    paper.resize(600, 500)
    empty = seen(paper)
    assert (empty[:100, :, 0] == QColor(SURROUND).red()).all()
    assert empty[100:400].min() < 0x30  # words that say what to drop here
    paper.lay(SIZE, InkAndPaper())
    middle = paper.sheet().center()
    colours = seen(paper)
    assert colours[middle.y(), middle.x(), 0] < QColor(InkAndPaper().paper).red()
    assert colours[2, 2, 0] == QColor(SURROUND).red()


def test_the_wheel_goes_nearer_about_the_pointer(paper: Paper) -> None:
    at = QPointF(200.0, 150.0)
    assert paper._framing is not None
    before = paper._framing.place((600.0, 500.0), at.x(), at.y())
    event = QWheelEvent(
        at,
        at,
        QPoint(),
        QPoint(0, 120),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    scale = paper.px_per_mm
    QApplication.sendEvent(paper, event)
    assert paper.px_per_mm > scale
    assert paper._framing.place((600.0, 500.0), at.x(), at.y()) == pytest.approx(before)


def test_a_hand_pushes_the_paper(paper: Paper) -> None:
    assert paper._framing is not None
    before = paper._framing
    QTest.mousePress(paper, Qt.MouseButton.LeftButton, pos=QPoint(300, 200))
    QTest.mouseMove(paper, QPoint(320, 190))
    QTest.mouseRelease(paper, Qt.MouseButton.LeftButton, pos=QPoint(320, 190))
    assert paper._framing.x_mm == pytest.approx(before.x_mm - 20 / before.px_per_mm)
    assert paper._framing.y_mm == pytest.approx(before.y_mm + 10 / before.px_per_mm)


def test_keys_push_it_go_nearer_and_fit_it_again(paper: Paper) -> None:
    fitted = paper._framing
    assert fitted is not None
    QTest.keyClick(paper, Qt.Key.Key_Plus)
    assert paper.px_per_mm == pytest.approx(1.25 * fitted.px_per_mm)
    QTest.keyClick(paper, Qt.Key.Key_Left)
    assert paper._framing is not None
    assert paper._framing.x_mm < fitted.x_mm
    QTest.keyClick(paper, Qt.Key.Key_Home)
    assert paper._framing == fitted


def test_a_fitted_print_is_fitted_again_when_the_window_grows(paper: Paper, qtbot: QtBot) -> None:
    scale = paper.px_per_mm
    paper.resize(900, 800)
    qtbot.waitUntil(lambda: paper.px_per_mm > scale)
    paper.scale_to(3.0)
    paper.resize(600, 500)
    assert paper.px_per_mm == pytest.approx(3.0)


def test_what_lies_under_the_pointer_is_told_as_it_prints(paper: Paper) -> None:
    told: list[tuple[float, float]] = []
    paper.pointed.connect(lambda x, y: told.append((x, y)))
    assert paper._framing is not None
    plate = paper._framing.plate((600.0, 500.0), SIZE)
    at = QPoint(round(plate.left + plate.width / 4), round(plate.top + plate.height / 2))
    QTest.mouseMove(paper, at - QPoint(5, 5))  # a pointer that is there already does not move
    QTest.mouseMove(paper, at)
    assert told[-1] == pytest.approx((0.25, 0.5), abs=0.01)
    paper.mirror(True)
    QTest.mouseMove(paper, at + QPoint(1, 0))
    assert told[-1] == pytest.approx((0.75, 0.5), abs=0.01)


def test_a_ring_is_white_outside_and_black_inside(paper: Paper) -> None:
    half = np.zeros((240, 320), dtype=np.uint8)
    half[:, 160:] = 1
    paper.show_cells(half)
    table = np.full((2, 3), 128, dtype=np.uint8)
    paper.colour(table)
    paper.scale_to(PX_PER_MM)
    mask = np.zeros(256, dtype=np.uint8)
    mask[1] = 1
    paper.outline(mask)
    row = plate_pixels(paper)[120, 150:170, 0]
    assert row.tolist() == [128] * 9 + [255, 0] + [128] * 9
