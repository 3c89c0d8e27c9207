"""The first stroke of a window: the picture where it will lie, and nothing heavy loaded."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QRect
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from toneladder_desktop.bench.glimpse import glimpse_of_sample
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.drawing.style import DARK, LIGHT, Colours, wear
from toneladder_desktop.window.bench_window import BenchWindow
from toneladder_desktop.window.first_sight import FirstSight

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


@pytest.mark.parametrize("size", [(1280, 720), (1920, 1080)])
@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_nothing_moves_when_the_window_is_furnished(
    size: tuple[int, int], colours: Colours, qapp: QApplication, qtbot: QtBot, tmp_path: Path
) -> None:
    """The plate's picture is pixel for pixel the same before and after."""
    wear(qapp, colours)
    window = BenchWindow()
    qtbot.addWidget(window)
    window.resize(*size)
    sight = window.show_first(colours, glimpse_of_sample())
    with qtbot.waitSignal(sight.seen):
        window.show()
    before, place = window.grab().toImage(), sight.place_of_paper()
    window.furnish(Preferences(tmp_path / "p.ini", qapp), tmp_path)
    qtbot.waitUntil(window.top.isVisible)
    after = window.grab().toImage()
    paper = window.top.paper
    assert QRect(paper.mapTo(window, QPoint()), paper.size()) == place
    middle = place.center()
    plate = QRect(0, 0, place.height() // 2, place.height() // 2)
    plate.moveCenter(middle - QPoint(0, 10))
    assert len(_colours_in(before.copy(plate))) > 50
    assert before.copy(plate) == after.copy(plate)
    corner = QPoint(place.right() + 40, place.bottom() - 4)
    assert before.pixelColor(corner) == after.pixelColor(corner)
    window.close()


def test_a_window_may_be_closed_before_it_is_furnished(qtbot: QtBot) -> None:
    window = BenchWindow()
    qtbot.addWidget(window)
    window.show_first(LIGHT, QImage())
    window.show()
    assert window.close()


def test_the_first_sight_loads_nothing_heavy() -> None:
    code = (
        "import sys; import toneladder_desktop.window.start as s; s.BenchWindow; "
        "import toneladder_desktop.window.first_sight; "
        "print(sorted(m for m in sys.modules if m.split('.')[0] in "
        "{'numpy', 'scipy', 'PIL', 'pydantic', 'platformdirs'} "
        "or m.startswith(('toneladder.plan', 'toneladder_desktop.card'))))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
        stdout=subprocess.PIPE,
        text=True,
        check=True,
    )
    assert done.stdout == "[]\n"


def _colours_in(image: QImage) -> set[int]:
    return {image.pixel(x, image.height() // 2) for x in range(image.width())}


def test_it_says_once_that_it_was_seen(qtbot: QtBot) -> None:
    window = BenchWindow()
    qtbot.addWidget(window)
    sight = window.show_first(LIGHT, glimpse_of_sample())
    assert isinstance(sight, FirstSight)
    times: list[int] = []
    sight.seen.connect(lambda: times.append(1))
    with qtbot.waitSignal(sight.seen):
        window.show()
    window.grab()
    sight.repaint()
    QApplication.processEvents()
    assert times == [1]
