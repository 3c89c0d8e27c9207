"""Words are cut where there is no room; edges fall on the pixels of any screen."""

import pytest
from PySide6.QtGui import QColor, QImage, QPainter

from toneladder_desktop.drawing.ruling import Ruling, Set, fitted, width_of
from toneladder_desktop.drawing.style import Type


def test_words_that_fit_are_left_alone() -> None:
    assert fitted("six tones", Type.TEXT, 500.0) == "six tones"


@pytest.mark.parametrize("room", [20.0, 60.0, 120.0])
def test_words_that_do_not_fit_end_in_dots_and_fit(room: float) -> None:
    cut = fitted("following the picture, eleven of twelve held", Type.TEXT, room)
    assert cut.endswith("…")
    assert width_of(cut, Type.TEXT) <= room


def test_with_no_room_at_all_there_are_only_dots() -> None:
    assert fitted("tones", Type.TEXT, 0.5) == "…"


def drawn(scale: float, at: float) -> set[str]:
    image = QImage(100, 100, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(scale)
    image.fill("#ffffff")
    painter = QPainter(image)
    ruling = Ruling(painter)
    ruling.frame(at, at, 13.3, 11.7, "#000000")
    ruling.upright(at + 20.0, at, at + 17.0, "#000000", 1.5)
    ruling.dotted(at + 24.0, at, at + 17.0, "#000000")
    ruling.fill(at + 27.0, at, 3.3, 3.3, "#000000")
    painter.end()
    return {QColor(image.pixel(x, y)).name() for x in range(100) for y in range(100)}


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("scale", [1.0, 1.25, 1.5, 1.75, 2.0])
@pytest.mark.parametrize("at", [3.0, 3.5, 3.37])
def test_straight_edges_have_no_half_tones(scale: float, at: float) -> None:
    assert drawn(scale, at) == {"#000000", "#ffffff"}


@pytest.mark.usefixtures("qapp")
def test_words_stand_with_the_end_that_was_asked_for() -> None:
    image = QImage(200, 40, QImage.Format.Format_RGB32)
    image.fill("#ffffff")
    painter = QPainter(image)
    Ruling(painter).words(190.0, 20.0, "tone", Type.TEXT, "#000000", Set.RIGHT)
    painter.end()
    inked = [
        x for x in range(200) for y in range(40) if QColor(image.pixel(x, y)).lightness() < 128
    ]
    assert 180 <= max(inked) <= 190
    assert min(inked) >= 190 - width_of("tone", Type.TEXT) - 1
