"""What the tests of the window share: a small picture, a plate, a window of their own."""

from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from toneladder.picture.opening import open_picture
from toneladder.picture.values import PlateSize
from toneladder.plate.values import Plate
from toneladder_desktop.bench import Bench, Lying
from toneladder_desktop.settings import Preferences
from toneladder_desktop.style import LIGHT, wear
from toneladder_desktop.window import BenchWindow

PLENTY_MS = 60_000


@pytest.fixture(autouse=True)
def _homes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing a test does is kept outside its own folder."""
    for name in ("HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME"):
        monkeypatch.setenv(name, str(tmp_path / "home"))


@pytest.fixture(scope="session")
def picture_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A hill under a sky with a sun, 360 by 240 pixels."""
    down, across = np.mgrid[0:240, 0:360]
    grey = 90.0 + 110.0 * (1.0 - down / 240.0) + 20.0 * np.sin(across / 40.0)
    grey[np.hypot(down - 60, across - 250) < 30] = 250.0
    grey[down > 180 - 60 * np.exp(-(((across - 120) / 70.0) ** 2))] = 40.0
    path = tmp_path_factory.mktemp("pictures") / "hill_and_sun.png"
    Image.fromarray(np.clip(grey, 0, 255).astype(np.uint8)).save(path)
    return path


@pytest.fixture
def lying(picture_file: Path) -> Lying:
    """A small plate of that picture."""
    ref = open_picture(picture_file, name=picture_file.name).ref
    return Lying(Plate("Hill", ref, PlateSize(60.0, 40.0)), picture_file.read_bytes())


@pytest.fixture
def bench(qapp: QApplication) -> Bench:
    """An empty bench."""
    assert qapp is not None
    return Bench()


@pytest.fixture
def make_window(qtbot: QtBot, qapp: QApplication, tmp_path: Path) -> Iterator[Callable[[], BenchWindow]]:
    """Opens windows that share one folder; each is closed without a question in the end."""
    wear(qapp, LIGHT)
    windows: list[BenchWindow] = []

    def make() -> BenchWindow:
        preferences = Preferences(tmp_path / "preferences.ini", qapp)
        window = BenchWindow(preferences, tmp_path / "state")
        qtbot.addWidget(window)
        window.show()
        qtbot.waitExposed(window)
        windows.append(window)
        return window

    yield make
    for window in windows:
        window.bench.give_up()
        window.close()


@pytest.fixture
def window(make_window: Callable[[], BenchWindow]) -> BenchWindow:
    """An open window with an empty bench."""
    return make_window()


@pytest.fixture
def planned(window: BenchWindow, lying: Lying, qtbot: QtBot) -> BenchWindow:
    """A window whose small plate is worked out and drawn."""
    window.bench.lay(lying)
    qtbot.waitUntil(lambda: window.workings.plan is not None and window.top.paper.fine, timeout=PLENTY_MS)
    return window
