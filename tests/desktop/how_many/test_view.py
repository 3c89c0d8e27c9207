"""The sheet on which numbers of tones are compared, driven by keys and mouse, and looked at."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from toneladder.boxes import Box
from toneladder.plan.comparing import costed, enough, offer, plan_of
from toneladder.preview.colour import palette
from toneladder.tones.values import Brush
from toneladder_desktop.bench.background import Background
from toneladder_desktop.drawing.style import DARK, LIGHT, Colours, wear
from toneladder_desktop.how_many.content import Content
from toneladder_desktop.how_many.layout import Layout, Row
from toneladder_desktop.how_many.piece import Piece
from toneladder_desktop.how_many.view import HowMany

if TYPE_CHECKING:
    from tests.desktop.conftest import Worked

PLENTY_MS = 60_000
LEFT, PLAIN = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
MakeSheet = Callable[..., HowMany]

# the platform without a screen has no window frames to tell of sizes
pytestmark = pytest.mark.qt_log_ignore("propagateSizeHints")


def content(sheet: HowMany) -> Content:
    assert sheet._content is not None
    return sheet._content


def layout(sheet: HowMany) -> Layout:
    assert sheet.board._layout is not None
    return sheet.board._layout


def piece(sheet: HowMany) -> Piece:
    assert sheet.board.piece is not None
    return sheet.board.piece


def looked_at(sheet: HowMany) -> int:
    return content(sheet).counts[content(sheet).focus]


def worker(sheet: HowMany) -> Background:
    assert sheet._background is not None
    return sheet._background


def middle(area: Box) -> QPoint:
    return QPoint(round(area.centre), round(area.middle))


@pytest.fixture
def make_sheet(qtbot: QtBot, qapp: QApplication, worked: "Worked") -> Iterator[MakeSheet]:
    """Opens sheets of the photograph, 1,280 by 720 pixels, with all or no figures known."""
    sheets: list[HowMany] = []

    def make(*, colours: Colours = LIGHT, known: bool = True) -> HowMany:
        wear(qapp, colours)
        sheet = HowMany()
        qtbot.addWidget(sheet)
        sheet.resize(1280, 720)
        sheet.show_plate(worked.plate, worked.prepared, worked.curve)
        sheet.show()
        qtbot.waitExposed(sheet)
        sheets.append(sheet)
        if known:
            qtbot.waitUntil(lambda: not content(sheet).missing, timeout=PLENTY_MS)
        return sheet

    yield make
    for sheet in sheets:
        sheet.stop()
    wear(qapp, LIGHT)


@pytest.fixture
def sheet(make_sheet: MakeSheet) -> HowMany:
    return make_sheet()


def test_every_column_is_what_would_be_planned(sheet: HowMany, worked: "Worked") -> None:
    assert content(sheet).counts == tuple(range(2, 11))
    assert looked_at(sheet) == worked.plate.tones.count == 6
    expected = []
    for k, count in enumerate(content(sheet).counts):
        light = offer(worked.prepared, worked.plate, worked.curve, count)
        plan = plan_of(light, worked.prepared, worked.plate, worked.curve)
        expected.append(costed(light, plan))
        assert content(sheet).offer(k) == expected[-1]
    assert sheet.reason.text() == enough(expected).reason
    assert "The brush alone" in sheet.meaning.text()


def test_tones_come_first_and_costs_after_them(make_sheet: MakeSheet, qtbot: QtBot) -> None:
    sheet = make_sheet(known=False)
    came: list[tuple[int, bool]] = []

    def note(_request: object, answer: object) -> None:
        if hasattr(answer, "offer"):
            came.append((answer.offer.asked, answer.offer.costs is not None))

    worker(sheet).answered.connect(note)
    qtbot.waitUntil(lambda: not content(sheet).missing, timeout=PLENTY_MS)
    order = [6, 5, 7, 4, 8, 3, 9, 2, 10]
    light = [count for count, costs in came if not costs]
    assert light == order[len(order) - len(light) :]
    assert [count for count, costs in came if costs] == order
    assert [costs for _, costs in came] == sorted(costs for _, costs in came)


def test_keys_move_the_focus_and_the_act_follows(sheet: HowMany) -> None:
    QTest.keyClick(sheet.board, Qt.Key.Key_Right)
    assert (looked_at(sheet), sheet.take.text()) == (7, "Take 7 tones")
    QTest.keyClick(sheet.board, Qt.Key.Key_Home)
    QTest.keyClick(sheet.board, Qt.Key.Key_Left)
    assert looked_at(sheet) == 2
    QTest.keyClick(sheet.board, Qt.Key.Key_End)
    QTest.keyClick(sheet.board, Qt.Key.Key_Right)
    assert looked_at(sheet) == 10


def test_what_is_enough_follows_what_a_tone_must_bring(sheet: HowMany) -> None:
    before = content(sheet).enough
    wanted, taken = list[float](), list[int]()
    sheet.gain_wanted.connect(wanted.append)
    sheet.taken.connect(taken.append)
    sheet.gain.line.setFocus()
    sheet.gain.line.selectAll()
    QTest.keyClicks(sheet.gain.line, "0,9")
    QTest.keyClick(sheet.gain.line, Qt.Key.Key_Return)
    assert (wanted, taken) == ([0.9], [])
    now = content(sheet).enough
    assert before is not None
    assert now is not None
    assert now.asked < before.asked
    assert sheet.reason.text() == now.reason
    QTest.keyClicks(sheet.gain.line, "x")
    QTest.keyClick(sheet.gain.line, Qt.Key.Key_Return)
    assert sheet.gain.fault.text()
    assert wanted == [0.9]


def test_enter_in_the_field_takes_no_tones_even_in_a_window_without_the_keys(
    sheet: HowMany, qtbot: QtBot
) -> None:
    sheet.gain.line.selectAll()
    QTest.keyClicks(sheet.gain.line, "abc")
    with qtbot.assertNotEmitted(sheet.taken):
        QTest.keyClick(sheet.gain.line, Qt.Key.Key_Return)
    assert "abc" in sheet.gain.fault.text()


def test_eleven_and_twelve_come_by_the_plus_key_only(sheet: HowMany, qtbot: QtBot) -> None:
    for _ in range(3):
        QTest.keyClick(sheet.board, Qt.Key.Key_Plus)
    assert content(sheet).counts == tuple(range(2, 13))
    assert content(sheet).missing == (11, 12)
    qtbot.waitUntil(lambda: not content(sheet).missing, timeout=PLENTY_MS)
    for _ in range(3):
        QTest.keyClick(sheet.board, Qt.Key.Key_Minus)
    assert content(sheet).counts == tuple(range(2, 11))


def test_enter_takes_and_escape_leaves(sheet: HowMany, qtbot: QtBot) -> None:
    QTest.keyClick(sheet.board, Qt.Key.Key_Left)
    with qtbot.waitSignal(sheet.taken) as taken:
        QTest.keyClick(sheet.board, Qt.Key.Key_Return)
    assert taken.args == [5]
    with qtbot.waitSignal(sheet.left), qtbot.assertNotEmitted(sheet.taken):
        QTest.keyClick(sheet.board, Qt.Key.Key_Escape)


def test_enter_on_the_button_that_leaves_does_not_take(sheet: HowMany, qtbot: QtBot) -> None:
    sheet.leave.setFocus()
    with qtbot.waitSignal(sheet.left), qtbot.assertNotEmitted(sheet.taken):
        QTest.keyClick(sheet.leave, Qt.Key.Key_Return)
    with qtbot.waitSignal(sheet.taken) as taken:
        QTest.mouseClick(sheet.take, LEFT)
    assert taken.args == [6]


def test_a_click_looks_at_a_column(sheet: HowMany) -> None:
    for count in (3, 9):
        column = layout(sheet).columns[count - 2]
        QTest.mouseClick(sheet.board, LEFT, PLAIN, middle(column))
        assert looked_at(sheet) == count


def test_the_frame_is_dragged_and_stays_on_the_plate(sheet: HowMany) -> None:
    frame = middle(layout(sheet).frame(piece(sheet)))
    before = piece(sheet).middle
    QTest.mousePress(sheet.board, LEFT, PLAIN, frame)
    assert piece(sheet).middle == pytest.approx(before, abs=0.01)
    QTest.mouseMove(sheet.board, middle(layout(sheet).plate))
    assert piece(sheet).middle == pytest.approx((0.5, 0.5), abs=0.02)
    QTest.mouseMove(sheet.board, QPoint(1, 1))
    assert (piece(sheet).x, piece(sheet).y) == (0.0, 0.0)
    QTest.mouseRelease(sheet.board, LEFT, PLAIN, QPoint(1, 1))
    QTest.mouseMove(sheet.board, middle(layout(sheet).plate))
    assert (piece(sheet).x, piece(sheet).y) == (0.0, 0.0)


def test_shift_and_arrows_move_the_frame_by_a_quarter_of_itself(sheet: HowMany) -> None:
    sheet.board.look_at(0.5, 0.5)
    QTest.keyClick(sheet.board, Qt.Key.Key_Right, SHIFT)
    QTest.keyClick(sheet.board, Qt.Key.Key_Up, SHIFT)
    there = piece(sheet)
    assert there.middle == pytest.approx((0.5 + there.width / 4.0, 0.5 - there.height / 4.0))
    assert looked_at(sheet) == 6


def test_the_whole_print_is_painted_in_the_number_looked_at(
    sheet: HowMany, worked: "Worked"
) -> None:
    # the darkest cells print in the last tone's colour, whatever the number
    rows, columns = np.nonzero(worked.prepared.cleaned == worked.prepared.cleaned.min())
    height, width = worked.prepared.cleaned.shape
    inner = np.argmax([min(x, y) for x, y in zip(columns, rows, strict=True)])
    plate = layout(sheet).plate
    at = (
        round(plate.x + (columns[inner] + 0.5) / width * plate.width),
        round(plate.y + (rows[inner] + 0.5) / height * plate.height),
    )
    for key, k in ((Qt.Key.Key_Home, 0), (Qt.Key.Key_End, 8)):
        QTest.keyClick(sheet.board, key)
        found = content(sheet).offer(k)
        assert found is not None
        tones = found.chosen.ladder.tones
        last = palette([tones[-1].lightness], worked.plate.printing)[0]
        colour = sheet.board.grab().toImage().pixelColor(*at)
        assert (colour.red(), colour.green(), colour.blue()) == tuple(last)


def test_answers_about_another_plate_are_dropped(
    make_sheet: MakeSheet, qtbot: QtBot, worked: "Worked"
) -> None:
    sheet = make_sheet(known=False)
    even = worked.with_tones(count=4, gap_lightness=30.0)
    sheet.show_plate(even.plate, even.prepared, even.curve)
    qtbot.waitUntil(lambda: not content(sheet).missing, timeout=PLENTY_MS)
    expected = offer(even.prepared, even.plate, even.curve, 10)
    found = content(sheet).offer(8)
    assert found is not None
    assert found.chosen == expected.chosen
    assert found.count < 10


def test_a_sheet_put_away_works_nothing_out(make_sheet: MakeSheet) -> None:
    sheet = make_sheet(known=False)
    sheet.hide()
    assert not worker(sheet).busy


def test_places_under_a_smallest_area_are_left_out_of_the_columns(
    sheet: HowMany, qtbot: QtBot, worked: "Worked"
) -> None:
    plate = replace(worked.plate, brush=Brush(1.5, 2.0, smallest_area_mm2=30.0))
    sheet.show_plate(plate, worked.prepared, worked.curve)
    qtbot.waitUntil(lambda: not content(sheet).missing, timeout=PLENTY_MS)
    for known in content(sheet).offered:
        assert known is not None
        assert known.tones is not None
        own = plan_of(known.offer, worked.prepared, plate, worked.curve).tones
        assert np.array_equal(known.tones, own)


def test_the_figures_are_a_table_with_heads_for_a_screen_reader(sheet: HowMany) -> None:
    table = QAccessible.queryAccessibleInterface(sheet.board._table)
    assert table.role() == QAccessible.Role.Table
    wide = 1 + len(content(sheet).counts)
    inside = [table.child(k) for k in range(table.childCount())]
    names = [cell.text(QAccessible.Text.Name) for cell in inside]
    rows = [names[k : k + wide] for k in range(0, len(names), wide)]
    assert [cell.role() for cell in inside[wide::wide]] == [QAccessible.Role.RowHeader] * len(Row)
    assert [row[0] for row in rows[1:]] == [
        "steps",
        "painting",
        "places to stop out",
        "whole day, with drying",
        "distance from the picture, in darkness, on average",
        "one more tone: nearer by, and the day longer by",
    ]
    assert rows[0][1:] == [f"{count} tones" for count in range(2, 11)]
    found = content(sheet).offer(4)
    assert found is not None
    assert found.costs is not None
    assert rows[1 + Row.STEPS][1:] == [str(steps) for steps in range(1, 10)]
    assert rows[1 + Row.PLACES][5] == str(found.costs.places)
    assert rows[1 + Row.DISTANCE][5] == f"{found.distance:.2f}"
    assert rows[1 + Row.GAIN][5].endswith("min")


def test_the_table_lies_where_its_figures_are_seen(sheet: HowMany) -> None:
    table = sheet.board._table
    for row in Row:
        for k, column in enumerate(layout(sheet).columns):
            cell = table.visualRect(table.model().index(row, k))
            corner = table.viewport().mapTo(sheet.board, cell.center())
            assert abs(corner.x() - column.centre) < 6
            assert layout(sheet).rows[row].y < corner.y() < layout(sheet).rows[row].bottom


def test_the_column_looked_at_is_described_in_one_sentence(sheet: HowMany) -> None:
    QTest.keyClick(sheet.board, Qt.Key.Key_Right)
    board = QAccessible.queryAccessibleInterface(sheet.board)
    said = board.text(QAccessible.Text.Description)
    assert said.startswith("7 tones: 6 steps, painting ")
    assert " of darkness from the picture" in said


def luminance(rgb: np.ndarray) -> np.ndarray:
    code = rgb / 255.0  # sRGB to linear light, IEC 61966-2-1
    light = np.where(code <= 0.04045, code / 12.92, ((code + 0.055) / 1.055) ** 2.4)
    return np.asarray(light @ np.array([0.2126, 0.7152, 0.0722]))


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_figures_and_captions_stand_out(make_sheet: MakeSheet, colours: Colours) -> None:
    # WCAG 2.2, success criterion 1.4.3: 4.5 : 1 for text; measured on the pixels themselves
    sheet = make_sheet(colours=colours)
    image = sheet.board.grab().toImage()
    flat = np.frombuffer(image.constBits(), dtype=np.uint8)
    pixels = flat.reshape(image.height(), image.bytesPerLine())[:, : 4 * image.width()]
    rgb = pixels.reshape(image.height(), image.width(), 4)[:, :, 2::-1].astype(float)
    ratio = image.devicePixelRatio()
    places = [*layout(sheet).rows[:4], layout(sheet).tab, layout(sheet).caption]
    places += [*layout(sheet).numbers, layout(sheet).rows[Row.GAIN]]
    for area in places:
        left, top = round((area.x + 4) * ratio), round((area.y + 3) * ratio)
        right, bottom = round((area.right - 4) * ratio), round((area.bottom - 3) * ratio)
        light = luminance(rgb[top:bottom, left:right]).ravel()
        contrast = (light.max() + 0.05) / (light.min() + 0.05)
        assert contrast >= 4.5
