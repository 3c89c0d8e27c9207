"""Where the program sits for its pictures: a window without a screen, a clock that waits."""

import os
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from PySide6.QtCore import QPoint
from PySide6.QtGui import QColor, QPainter, QPixmap
from PySide6.QtWidgets import QApplication, QWidget

from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.drawing.style import Scheme
from toneladder_desktop.window.bench_window import BenchWindow
from toneladder_desktop.window.first_notes import OWN, PEG, SHEETS
from toneladder_desktop.window.wardrobe import Wardrobe

PLENTY_S = 60.0
REST_S = 0.25


class Studio:
    """One bench window in one dress and size, and a folder of odd pictures to open on it."""

    def __init__(self, window: BenchWindow, material: Path) -> None:
        self.window, self.material = window, material

    def wait(self, until: Callable[[], object]) -> None:
        """Let the program work until something is so.

        Raises
        ------
        TimeoutError
            It was not so after a minute.
        """
        end = time.monotonic() + PLENTY_S
        while not until():
            if time.monotonic() > end:
                raise TimeoutError(until)
            QApplication.processEvents()
            time.sleep(0.005)

    def rest(self, seconds: float = REST_S) -> None:
        """Let the program work for a while."""
        end = time.monotonic() + seconds
        self.wait(lambda: time.monotonic() > end)

    def drawn(self) -> None:
        """Wait until the plate is worked out and finely drawn."""
        window = self.window
        self.wait(lambda: window.workings.plan is not None)
        self.rest()
        self.wait(lambda: window.top.paper.fine and not window.workings.background.busy)
        self.rest(0.05)

    def sample(self) -> None:
        """The sample plate, worked out and drawn."""
        self.window.filing.open_sample()
        self.drawn()

    def open(self, name: str) -> None:
        """One of the odd pictures, worked out and drawn."""
        self.window.open(self.material / name)
        self.drawn()

    def picture(self) -> QPixmap:
        """The window as it is now, with what lies over it."""
        whole = self.window.grab()
        lying_over = [
            widget
            for widget in QApplication.topLevelWidgets()
            if widget is not self.window and widget.isVisible() and widget.width() > 1
        ]
        painter = QPainter(whole)
        for widget in lying_over:
            place = self._place(widget)
            painter.drawPixmap(place, widget.grab())
            painter.setPen(QColor("#7F7D76"))
            painter.drawRect(place.x() - 1, place.y() - 1, widget.width() + 1, widget.height() + 1)
        painter.end()
        return whole

    def _place(self, widget: QWidget) -> QPoint:
        """In the middle, as a desktop would put it."""
        middle = self.window.rect().center() - widget.rect().center()
        return QPoint(max(middle.x(), 0), max(middle.y(), 0))


@contextmanager
def studio(size: tuple[int, int], scheme: Scheme, material: Path) -> Iterator[Studio]:
    """A fresh window with an empty bench; nothing of it stays."""
    app = QApplication.instance()
    if not isinstance(app, QApplication):
        raise TypeError(app)
    with TemporaryDirectory() as home:
        os.environ["XDG_DATA_HOME"] = home  # the studio book is written there
        preferences = Preferences(Path(home, "preferences.ini"))
        preferences.change(scheme=scheme, notes_done=(OWN, PEG, SHEETS))
        wardrobe = Wardrobe(app, preferences)
        window = BenchWindow(preferences, Path(home, "state"))
        window.resize(*size)
        window.show()
        try:
            yield Studio(window, material)
        finally:
            for other in app.topLevelWidgets():
                if other is not window and other.isVisible():
                    other.close()
                    other.hide()  # a plate in the bath keeps its windows open
            window.bench.give_up()
            window.close()
            window.hide()
            window.deleteLater()
            preferences.changed.disconnect(wardrobe.dress)
            app.processEvents()
