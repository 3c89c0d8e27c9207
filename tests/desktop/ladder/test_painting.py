"""The ladder looked at: exact on the pixels of every screen, legible in light and in dark."""

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from toneladder.optics import linear_from_srgb
from toneladder_desktop.drawing.style import DARK, LIGHT, SURROUND, Colours, palette_of
from toneladder_desktop.ladder.content import Peg, Side
from toneladder_desktop.ladder.layout import Layout
from toneladder_desktop.ladder.view import LadderView

if TYPE_CHECKING:
    from tests.desktop.conftest import Worked

every_look = pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
every_scale = pytest.mark.parametrize("scale", [1.0, 1.25, 1.5, 2.0])


def shown(qtbot: QtBot, worked: "Worked", colours: Colours) -> LadderView:
    view = LadderView()
    qtbot.addWidget(view)
    view.setPalette(palette_of(colours))
    view.resize(312, 640)
    worked.show_on(view)
    return view


def drawn(view: LadderView, scale: float) -> QImage:
    image = QImage(
        round(view.width() * scale), round(view.height() * scale), QImage.Format.Format_RGB32
    )
    image.setDevicePixelRatio(scale)
    painter = QPainter(image)
    view.render(painter, QPoint())
    painter.end()
    return image


def layout_of(view: LadderView) -> Layout:
    assert view._layout is not None
    return view._layout


def colour_at(image: QImage, x: float, y: float) -> str:
    scale = image.devicePixelRatio()
    return QColor(image.pixel(int(x * scale), int(y * scale))).name().upper()


def contrast(one: str, other: str) -> float:
    """Contrast of two colours: WCAG 2.2, relative luminance and contrast ratio."""
    lights = [
        sum(
            weight * float(linear_from_srgb(byte / 255.0))
            for weight, byte in zip(
                (0.2126, 0.7152, 0.0722), bytes.fromhex(colour.removeprefix("#")), strict=True
            )
        )
        for colour in (one, other)
    ]
    return (max(lights) + 0.05) / (min(lights) + 0.05)


@every_look
@every_scale
def test_rails_are_pure_ink_without_a_blurred_edge(
    qtbot: QtBot, worked: "Worked", colours: Colours, scale: float
) -> None:
    view = shown(qtbot, worked, colours)
    image, layout = drawn(view, scale), layout_of(view)
    y = int((layout.darkness.bottom - 6.0) * scale)
    for rail in (layout.columns.rail_left, layout.columns.rail_right):
        if rail == layout.columns.rail_right:
            y = int((layout.bites.top + 8.0) * scale)
        middle = round(rail * scale)
        row = {QColor(image.pixel(x, y)).name().upper() for x in range(middle - 4, middle + 5)}
        assert colours.ink in row
        assert row <= {colours.ink, colours.ground}


@every_look
def test_the_strip_is_the_same_neutral_grey_in_light_and_dark(
    qtbot: QtBot, worked: "Worked", colours: Colours
) -> None:
    view = shown(qtbot, worked, colours)
    strip = layout_of(view).strip
    assert colour_at(drawn(view, 1.0), strip.x + 2.0, strip.bottom - 2.0) == SURROUND


@every_look
@every_scale
def test_swatches_show_the_printed_tone_itself(
    qtbot: QtBot, worked: "Worked", colours: Colours, scale: float
) -> None:
    view = shown(qtbot, worked, colours)
    image = drawn(view, scale)
    assert view._content is not None
    for rung, colour in zip(layout_of(view).rungs, view._content.swatches, strict=True):
        assert colour_at(image, rung.swatch.x + 3.0, rung.swatch.y + 3.0) == colour.upper()


@every_look
def test_a_held_peg_is_solid_with_a_notch_and_a_following_one_hollow(
    qtbot: QtBot, worked: "Worked", colours: Colours
) -> None:
    held = worked.with_tones(held_bites=((3, 200.0),))
    view = shown(qtbot, held, colours)
    image, layout = drawn(view, 2.0), layout_of(view)
    for step, outer, inner in ((2, colours.sheet, colours.sheet), (3, colours.ink, colours.sheet)):
        body = layout.place(Peg(Side.BITE, step)).body
        assert colour_at(image, body.x + 3.0, body.y + 3.0) == outer
        assert colour_at(image, body.x + 9.0, body.middle) == inner
        assert colour_at(image, body.x + 0.4, body.middle + 3.0) == colours.ink


@every_look
def test_marks_that_mean_something_stand_out_three_to_one_and_words_more(
    qtbot: QtBot, worked: "Worked", colours: Colours
) -> None:
    # WCAG 2.2, 1.4.11 and 1.4.3; the colours are read from the drawing
    view = shown(qtbot, worked, colours)
    image, layout = drawn(view, 2.0), layout_of(view)
    ground = colour_at(image, 150.0, 4.0)
    body = layout.place(Peg(Side.PARTING, 2)).body
    assert contrast(colour_at(image, body.x + 0.4, body.middle), ground) >= 3.0
    words = {
        QColor(image.pixel(x, y)).name()
        for x in range(4, 300)
        for y in range(int(2.0 * 28.0), int(2.0 * 42.0))
    }
    assert max(contrast(word, ground) for word in words) >= 4.5


@pytest.mark.parametrize("chosen", range(6))
def test_the_ring_of_the_chosen_rung_is_white_in_ink(
    qtbot: QtBot, worked: "Worked", chosen: int
) -> None:
    view = shown(qtbot, worked, LIGHT)
    view.choose_tone(chosen)
    swatch = layout_of(view).rungs[chosen].swatch
    image = drawn(view, 2.0)
    assert colour_at(image, swatch.x - 2.0, swatch.middle) == "#1B1E22"
    assert colour_at(image, swatch.x, swatch.middle) == "#FFFFFF"


@every_look
def test_words_and_ladders_of_every_size_are_drawn_without_complaint(
    qtbot: QtBot, worked: "Worked", colours: Colours
) -> None:
    view = shown(qtbot, worked, colours)
    for count in range(2, 13):
        worked.with_tones(count=count, gap_lightness=2.3).show_on(view)
        for height in (500, 720, 1000):
            view.resize(312, height)
            for tone in (0, count // 2):
                view.choose_tone(min(tone, layout_of(view).rungs.__len__() - 1))
                drawn(view, 1.0)


def test_while_a_peg_moves_its_read_out_stands_inside_the_ladder(
    qtbot: QtBot, worked: "Worked"
) -> None:
    view = shown(qtbot, worked, LIGHT)
    assert view._content is not None
    for peg in view._content.pegs():
        place = layout_of(view).place(peg)
        view._hand.take(peg, place.body.middle)
        before, image = LIGHT.sheet, drawn(view, 1.0)
        assert any(
            colour_at(image, x, y) == before
            for x in (60.0, 100.0, 200.0)
            for y in range(80, 560, 4)
        )
        view._hand.leave()


def test_the_palette_may_change_while_the_ladder_is_shown(qtbot: QtBot, worked: "Worked") -> None:
    view = shown(qtbot, worked, LIGHT)
    view.setPalette(palette_of(DARK))
    QApplication.sendPostedEvents()
    assert colour_at(drawn(view, 1.0), 150.0, 4.0) == DARK.ground
    assert view.layoutDirection() is Qt.LayoutDirection.LeftToRight
