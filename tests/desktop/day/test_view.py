"""The day driven: steps chosen by click and key, times told with and without a start."""

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from toneladder.quantities import write_minutes
from toneladder_desktop.day.view import DayView
from toneladder_desktop.day.words import clock, day_words, heads_of, start_minutes
from toneladder_desktop.drawing.style import DARK, LIGHT, Colours, palette_of

if TYPE_CHECKING:
    from tests.desktop.conftest import Worked


@pytest.fixture
def view(qtbot: QtBot, worked: "Worked") -> DayView:
    day = DayView()
    qtbot.addWidget(day)
    day.setPalette(palette_of(LIGHT))
    day.resize(740, 128)
    worked.show_on(day)
    return day


def drawn(view: DayView, scale: float) -> QImage:
    image = QImage(
        round(view.width() * scale), round(view.height() * scale), QImage.Format.Format_RGB32
    )
    image.setDevicePixelRatio(scale)
    image.fill(view.palette().window().color())
    painter = QPainter(image)
    view.render(painter, QPoint())
    painter.end()
    return image


def test_a_clicked_step_is_chosen(view: DayView) -> None:
    seen: list[int] = []
    view.step_chosen.connect(seen.append)
    assert view._layout is not None
    left, right = view._layout.spans[2]
    QTest.mouseClick(view, Qt.MouseButton.LeftButton, pos=QPoint(round((left + right) / 2), 60))
    assert seen == [3]


def test_keys_go_from_step_to_step_and_stop_at_the_ends(view: DayView) -> None:
    seen: list[int] = []
    view.step_chosen.connect(seen.append)
    for key in ("Right", "Right", "Left", "Left", "End", "Right", "Home"):
        QTest.keyClick(view, getattr(Qt.Key, f"Key_{key}"))
    assert seen == [1, 2, 1, 5, 1]


def test_a_step_chosen_elsewhere_is_framed_and_not_told_again(view: DayView) -> None:
    seen: list[int] = []
    view.step_chosen.connect(seen.append)
    plain = drawn(view, 1.0)
    view.choose_step(4)
    assert drawn(view, 1.0) != plain
    assert seen == []


def test_while_a_plan_is_worked_out_the_last_day_stays_in_pencil(
    view: DayView, worked: "Worked"
) -> None:
    worked.show_on(view, whole=False)
    ink = QColor(LIGHT.ink).rgb()
    image = drawn(view, 1.0)
    assert not any(image.pixel(x, y) == ink for x in range(740) for y in range(40, 128))
    assert view.accessibleDescription() == ""


def test_the_whole_day_can_be_read_aloud(view: DayView, worked: "Worked") -> None:
    said = view.accessibleDescription()
    for step in worked.plan.order.steps:
        assert f"Step {step.step}: stop out tone {step.stop_out[0]}" in said
    assert said == day_words(worked.plan.order, "09:30")


def test_a_short_bite_is_three_pixels_of_ink_in_the_bath(
    view: DayView,
) -> None:
    assert view._layout is not None
    first = next(b.box for b in view._layout.blocks if b.doing.value == "bite")
    image, ink = drawn(view, 1.0), QColor(LIGHT.ink).rgb()
    inked = sum(image.pixel(x, int(first.middle)) == ink for x in range(740) if x < first.right + 2)
    assert 3 <= inked <= 4


@pytest.mark.parametrize("colours", [LIGHT, DARK])
@pytest.mark.parametrize("scale", [1.0, 1.5, 2.0])
def test_boxes_have_sharp_edges_on_every_screen(
    view: DayView, colours: Colours, scale: float
) -> None:
    view.setPalette(palette_of(colours))
    assert view._layout is not None
    dry = next(b.box for b in view._layout.blocks if b.doing.value.startswith("let"))
    image = drawn(view, scale)
    row = round((dry.y + dry.height / 2.0) * scale)
    inside = range(round((dry.x + 2.0) * scale), round((dry.right + 4.0) * scale))
    seen = {QColor(image.pixel(x, row)).name().upper() for x in inside}
    assert seen <= {colours.ink, colours.sheet, colours.ground}


def test_a_folded_day_is_its_head_alone(view: DayView) -> None:
    view.resize(740, 30)
    drawn(view, 1.0)
    QTest.mouseClick(view, Qt.MouseButton.LeftButton, pos=QPoint(300, 20))
    assert view._chosen is None


def test_an_empty_bench_has_no_day(view: DayView) -> None:
    view.clear()
    drawn(view, 1.0)
    QTest.keyClick(view, Qt.Key.Key_Right)
    assert view._chosen is None


def test_heads_get_shorter_and_the_last_lift_stays(worked: "Worked") -> None:
    heads = heads_of(worked.plan.order, "09:30")
    assert [len(a) > len(b) for a, b in pairwise(heads)] == [True] * 3
    assert all("last lift" in head for head in heads)
    assert heads[0].startswith("begin 09:30 · last lift ")


def test_a_day_past_midnight_says_so(worked: "Worked") -> None:
    assert "the next day" in heads_of(worked.plan.order, "23:40")[0]
    order = worked.plan.order
    late = replace(order.steps[-1], lift_after_s=49.0 * 3600.0)
    days = replace(order, steps=(*order.steps[:-1], late))
    assert "2 days later" in heads_of(days, "09:30")[0]


def test_without_a_start_times_count_from_the_beginning(worked: "Worked") -> None:
    assert heads_of(worked.plan.order, None)[0].startswith("begin at any time · last lift after ")
    assert clock(None, 80.0).split() == ["+", "1", "h", "20", "min"]
    assert start_minutes("00:05") == 5
    assert (write_minutes(0.2).split(), write_minutes(120.0).split()) == (["0", "min"], ["2", "h"])
