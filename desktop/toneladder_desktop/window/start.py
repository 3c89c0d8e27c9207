"""Opens the program's windows: first the pictures alone, then everything round them."""

import sys
from collections.abc import Iterator, Sequence
from importlib import import_module
from pathlib import Path

from PySide6.QtCore import QObject, QSettings, QTimer
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QApplication

from toneladder.wording import say
from toneladder_desktop.bench.folders import PREFERENCES_FILE, config_folder, state_folder
from toneladder_desktop.bench.glimpse import glimpse_at_once, glimpse_of_sample
from toneladder_desktop.drawing.style import DARK, ICON, LIGHT, Colours, Scheme
from toneladder_desktop.window.bench_window import BenchWindow
from toneladder_desktop.window.language import speak_as_preferred, translate_qt

SWITCH_S = 0.0005
"""How long the background may keep the interpreter from the window: a tenth of the usual."""

_UNSEEN_MS = 500
"""A window that is not painted by then (it may open minimised) is furnished unseen."""

_FIRST_READ = (
    "bench.settings",
    "bench.bench",
    "bench.beside",
    "bench.recovery",
    "bench.workings",
    "fittings.field",
    "card.decision",
    "card.bath",
    "card.soft",
    "card.tones",
    "day.view",
    "ladder.painting",
    "ladder.view",
    "paper.paper",
    "window.top",
    "window.filing",
    "window.linking",
    "window.tank_desk",
    "window.window_menus",
    "window.furnishing",
)
"""What takes longest to read in; one by one, so that the window is never kept for long."""

_LATER_READ = (
    "strip.work",
    "strip.view",
    "sheets.pages_window",
    "tank.window",
    "proof.view",
    "book.asked",
)
"""What the first acts need, read in while nothing else is to be done."""

_IDLE_MS = 400


def open_window(paths: Sequence[Path]) -> int:
    """Open the bench with a plate or picture for each path, or with the sample plate.

    Returns
    -------
    int
        The program's exit status, when the last window is closed.
    """
    app = QApplication.instance() or QApplication(sys.argv[:1])
    if not isinstance(app, QApplication):
        raise TypeError(app)
    sys.setswitchinterval(SWITCH_S)
    app.setApplicationName("Tone Ladder")
    app.setDesktopFileName("art.toneladder.planner")
    preferences = config_folder() / PREFERENCES_FILE
    speak_as_preferred(preferences)
    opening = _Opening(app, preferences)
    opening.show(paths)
    status = app.exec()
    if _keep_what_is_open():
        sentence = say(
            "The display went away while a plate was open. Its unsaved changes are kept. Start "
            "Tone Ladder again where there is a display, and take them back."
        )
        sys.stderr.write(f"{sentence}\n")
    return status


def _keep_what_is_open() -> bool:
    """Whether the program ends though nobody closed its windows, and unsaved changes were kept."""
    windows = [one for one in QApplication.topLevelWidgets() if isinstance(one, BenchWindow)]
    kept = [window.keep_unsaved() for window in windows]
    return any(kept)


class _Opening(QObject):
    """Two strokes: windows with a picture each, and then what they are furnished with."""

    def __init__(self, app: QApplication, preferences_file: Path) -> None:
        super().__init__(app)
        self._app, self._file = app, preferences_file
        self._windows: dict[BenchWindow, Path | None] = {}
        self._steps: Iterator[int] | None = None

    def show(self, paths: Sequence[Path]) -> None:
        """The first stroke; the second follows when the last window was painted."""
        colours = _colours(self._file, self._app)
        for path in paths or (None,):
            window = BenchWindow()
            picture = glimpse_of_sample() if path is None else glimpse_at_once(path)
            sight = window.show_first(colours, picture)
            self._windows[window] = path
            window.show()
        sight.seen.connect(self._furnish)
        QTimer.singleShot(_UNSEEN_MS, self, self._furnish)

    def _furnish(self) -> None:
        if self._steps is None:
            self._steps = self._furnishing()
            self._step()

    def _step(self) -> None:
        """One thing after another; between them the window is free."""
        pause_ms = None if self._steps is None else next(self._steps, None)
        if pause_ms is not None:
            QTimer.singleShot(pause_ms, self, self._step)

    def _furnishing(self) -> Iterator[int]:
        """Every step gives the pause after it, milliseconds."""
        for name in _FIRST_READ:
            import_module(f"toneladder_desktop.{name}")
            yield 0
        from toneladder_desktop.bench.settings import Preferences
        from toneladder_desktop.window.tidying import Tidying
        from toneladder_desktop.window.wardrobe import Wardrobe

        translate_qt(self._app)
        self._app.setWindowIcon(QIcon(str(ICON)))
        Tidying(self)
        preferences = Preferences(self._file, self)
        self._wardrobe = Wardrobe(self._app, preferences)
        yield 0
        for window, path in self._windows.items():
            for _ in window.furnishing(preferences, state_folder()):
                yield 0
                if window.isHidden():
                    break  # it was closed before it was whole
            else:
                if path is None:
                    window.filing.open_sample()
                else:
                    window.open(path)
                yield 0
        furnished = [window for window in self._windows if window.furnished]
        self._windows = {}
        if furnished:
            furnished[0].offer_what_was_lost()
        del furnished
        for name in _LATER_READ:
            yield _IDLE_MS
            import_module(f"toneladder_desktop.{name}")


def _colours(preferences: Path, app: QApplication) -> Colours:
    """Light or dark, before preferences and desktop are asked properly."""
    said = QSettings(str(preferences), QSettings.Format.IniFormat).value("scheme")
    if said in {Scheme.LIGHT.value, Scheme.DARK.value}:
        return DARK if said == Scheme.DARK.value else LIGHT
    return DARK if app.palette().window().color().lightness() < 128 else LIGHT
