"""Contrast as it is painted: read from the pixels of a driven window, in light and in dark.

Ratios and least values are those of WCAG 2.1 (1.4.3: text 4.5, 1.4.11: graphics 3). The window is
drawn at three times its size, so that the strokes of letters reach their full colour.
"""

from collections.abc import Callable, Iterator
from itertools import groupby
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtCore import QPoint, QRect, QSize
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel, QLineEdit, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from toneladder_desktop.bench.bench import Lying
from toneladder_desktop.drawing.style import DARK, LIGHT, Colours, wear
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")

TEXT, GRAPHICS = 4.5, 3.0
SCALE = 3
PLENTY_MS = 60_000
Pixels = NDArray[np.uint8]


@pytest.fixture(params=[LIGHT, DARK], ids=["light", "dark"])
def dressed(
    request: pytest.FixtureRequest,
    make_window: Callable[[], BenchWindow],
    lying: Lying,
    qapp: QApplication,
    qtbot: QtBot,
) -> Iterator[BenchWindow]:
    """A worked-out plate in one dress, with the decision about tones open."""
    colours: Colours = request.param
    window = make_window()
    wear(qapp, colours)
    window.bench.lay(lying)
    qtbot.waitUntil(
        lambda: window.workings.plan is not None and window.top.paper.fine, timeout=PLENTY_MS
    )
    window.top.card.open(window.top.tones)
    window.top.paper.setFocus()
    yield window
    wear(qapp, LIGHT)


def luminance(pixels: Pixels) -> NDArray[np.float64]:
    """Relative luminance, as WCAG 2.1 defines it."""
    part = pixels[..., :3].astype(float) / 255.0
    light = np.where(part <= 0.04045, part / 12.92, ((part + 0.055) / 1.055) ** 2.4)
    found: NDArray[np.float64] = light @ np.array([0.2126, 0.7152, 0.0722])
    return found


def ratios(pixels: Pixels, ground: Pixels) -> NDArray[np.float64]:
    """Contrast of every pixel with the ground: 1 to 21."""
    one, other = luminance(pixels) + 0.05, luminance(ground) + 0.05
    return np.maximum(one, other) / np.minimum(one, other)


def test_the_ratio_of_two_greys_is_the_published_one() -> None:
    """#767676 on white is 4.54: WCAG's Understanding 1.4.3 names it (from memory)."""
    grey, white = np.full((1, 3), 0x76, np.uint8), np.full(3, 255, np.uint8)
    assert ratios(grey, white)[0] == pytest.approx(4.54, abs=0.005)


@pytest.mark.parametrize(("ink", "read"), [("#767676", True), ("#7a7a7a", False)])
def test_a_text_that_is_too_faint_would_be_found(ink: str, read: bool, qtbot: QtBot) -> None:
    """The two greys lie on either side of 4.5 on white, and are read from painted letters."""
    label = QLabel("Ladder mmmmm")
    label.setStyleSheet(f"background: white; color: {ink}; font-size: 15px")
    qtbot.addWidget(label)
    label.show()
    assert (min(contrasts(painted(label))) >= TEXT) is read


def test_every_text_of_the_window_can_be_read(dressed: BenchWindow) -> None:
    faint = {}
    count = 0
    for widget in texts_of(dressed):
        for contrast in contrasts(inside(widget, painted(widget))):
            count += 1
            if contrast < TEXT:
                faint[f"{type(widget).__name__} {widget.accessibleName()}"] = round(contrast, 2)
    assert count > 25
    assert not faint


def texts_of(window: BenchWindow) -> list[QWidget]:
    """Labels, buttons, fields and menus that are seen, can be used and hold words."""
    found: list[QWidget] = [window.menuBar()]
    for widget in window.findChildren(QWidget):
        words = isinstance(widget, QLabel | QAbstractButton | QLineEdit) and widget.text()
        seen = widget.isVisible() and not widget.visibleRegion().isEmpty()  # not scrolled away
        if words and seen and widget.isEnabled():
            found.append(widget)
    return found


def test_the_day_can_be_read(dressed: BenchWindow) -> None:
    """Its head and hours above, its lifts and bites below."""
    day = dressed.top.day
    layout = day._layout
    assert layout is not None
    whole = painted(day)
    above = whole[: round((layout.bench.y - 2) * SCALE)]
    below = whole[round((layout.bath.bottom + 6) * SCALE) :]
    for part in (above, below):
        found = list(contrasts(part))
        assert len(found) >= 3
        assert min(found) >= TEXT


def test_numerals_can_be_read_on_every_grey_of_the_ladder(dressed: BenchWindow) -> None:
    ladder = dressed.top.ladder
    layout = ladder._layout
    assert layout is not None
    whole = painted(ladder)
    assert len(layout.rungs) > 2
    for rung in layout.rungs:
        box = rung.swatch
        part = cut(whole, QRect(round(box.x), round(box.y), round(box.width), round(box.height)), 3)
        found = list(contrasts(part))
        assert len(found) >= 2
        assert min(found) >= TEXT


def test_the_caption_can_be_read_on_its_paper(dressed: BenchWindow) -> None:
    for part in dressed.caption.parts:
        assert part.isVisible()
        assert min(contrasts(painted(part, behind=dressed.top.paper))) >= TEXT


def test_the_edges_of_buttons_and_fields_can_be_seen(dressed: BenchWindow) -> None:
    """The strongest line across the middle of each side, beside what lies outside of it."""
    controls = [
        widget
        for widget in dressed.findChildren(QWidget)
        if isinstance(widget, QPushButton | QLineEdit)
        and widget.isVisible()
        and widget.isEnabled()
        and widget is not dressed.top.header.title
        and not widget.property("link")
        and widget not in dressed.caption.parts
    ]
    assert len(controls) >= 3
    for control in controls:
        window = painted(dressed)
        corner = control.mapTo(dressed, QPoint())
        box = QRect(corner, control.size()).adjusted(-2, -2, 2, 2)
        part = cut(window, box, 0)
        middle = part.shape[0] // 2
        for side in (part[middle, : 6 * SCALE], part[middle, ::-1][: 6 * SCALE]):
            assert ratios(side, side[0]).max() >= GRAPHICS, control.objectName()


def test_pegs_can_be_seen(dressed: BenchWindow) -> None:
    ladder = dressed.top.ladder
    layout = ladder._layout
    assert layout is not None
    whole = painted(ladder)
    for place in layout.pegs:
        box = place.body
        part = cut(
            whole, QRect(round(box.x), round(box.y), round(box.width), round(box.height)), -2
        )
        assert ratios(part, part[0, 0]).max() >= GRAPHICS


def painted(widget: QWidget, behind: QWidget | None = None) -> Pixels:
    """(height, width, 4) of a widget, or of what lies ``behind`` it, as large as it is drawn."""
    source = behind or widget.window()
    image = QImage(source.size() * SCALE, QImage.Format.Format_RGBA8888)
    image.setDevicePixelRatio(SCALE)
    source.render(image)
    size = QSize(image.width(), image.height())
    pixels = np.frombuffer(image.constBits(), np.uint8).reshape(size.height(), -1, 4)
    return cut(pixels, QRect(widget.mapTo(source, QPoint()), widget.size()), 0)


def cut(pixels: Pixels, box: QRect, margin: int) -> Pixels:
    """A box of the window's pixels, so much smaller on every side."""
    box = box.adjusted(margin, margin, -margin, -margin)
    rows = slice(box.top() * SCALE, (box.bottom() + 1) * SCALE)
    return pixels[rows, box.left() * SCALE : (box.right() + 1) * SCALE].copy()


def inside(widget: QWidget, pixels: Pixels) -> Pixels:
    """Without its border, if it has one."""
    edge = 3 * SCALE if isinstance(widget, QPushButton | QLineEdit) else 0
    return pixels[edge : len(pixels) - edge, edge : pixels.shape[1] - edge]


def contrasts(pixels: Pixels) -> Iterator[float]:
    """The contrast of every word with the ground, which is the commonest colour."""
    colours, counts = np.unique(pixels.reshape(-1, 4), axis=0, return_counts=True)
    ground = colours[counts.argmax()]
    contrast = ratios(pixels, ground)
    marked = contrast > 1.1
    for rows in runs(marked.any(axis=1), gap=1):
        if rows.stop - rows.start < 5 * SCALE:
            continue
        for columns in runs(marked[rows].any(axis=0), gap=4 * SCALE):
            if columns.stop - columns.start >= 3 * SCALE:
                yield float(contrast[rows, columns].max())


def runs(marked: Any, gap: int) -> list[slice]:
    """Where something is marked, over gaps that are not wider than ``gap``."""
    found: list[slice] = []
    for is_marked, group in groupby(enumerate(marked.tolist()), lambda pair: pair[1]):
        places = [place for place, _ in group]
        if not is_marked:
            continue
        if found and places[0] - found[-1].stop <= gap:
            found[-1] = slice(found[-1].start, places[-1] + 1)
        else:
            found.append(slice(places[0], places[-1] + 1))
    return found
