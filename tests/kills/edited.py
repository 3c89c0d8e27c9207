"""The whole program at random work, to be killed: ``python -m tests.kills.edited SEED LOG PATH``.

Its own window opens as usual; what was lost is taken back if it is offered. Then a hand that
never rests long edits the plate through menus, ladder and title. Each state that the bench was in
is told in a line of the log: when, which plate, and whether it holds unsaved changes.
"""

import random
import sys
import time
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path

from PySide6.QtCore import QObject, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from toneladder.bite.curve import starting_curve
from toneladder.plate.record import write_record
from toneladder.plate.values import Plate
from toneladder_desktop.window.bench_window import BenchWindow
from toneladder_desktop.window.menus import plain
from toneladder_desktop.window.start import open_window

LONGEST_REST_MS = 1800
_LOOK_MS = 20
_MENU = ("One tone more", "One tone less", "Follow the picture", "Even steps", "Let all go")
_PEG_KEYS = (Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_Left, Qt.Key.Key_Right, Qt.Key.Key_PageDown)


def told(plate: Plate) -> str:
    """What tells one plate from another, whatever its curve."""
    return sha256(write_record(plate, starting_curve(plate.conditions)).encode()).hexdigest()


class Hand(QObject):
    """Edits the only window's plate at random."""

    def __init__(self, app: QApplication, seed: int, log: Path) -> None:
        super().__init__(app)
        self._log = log.open("a", encoding="utf-8")
        self._chance = random.Random(seed)  # noqa: S311 (a seeded trial, no secret)
        self._window: BenchWindow | None = None
        self._look = QTimer(self, interval=_LOOK_MS)
        self._look.timeout.connect(self._find)
        self._look.start()

    def _find(self) -> None:
        """Begin when the plate lies there, or what was lost is offered."""
        windows = [one for one in QApplication.topLevelWidgets() if isinstance(one, BenchWindow)]
        if windows and windows[0].furnished and windows[0].bench.lying is not None:
            self._look.stop()
            self._begin(windows[0])

    def _begin(self, window: BenchWindow) -> None:
        self._window = window
        window.bench.plate_changed.connect(lambda _plate: self._tell(window))
        window.bench.undo.cleanChanged.connect(lambda _clean: self._tell(window))
        notice = window.top.notice
        buttons = notice._buttons
        if notice.isVisible() and buttons:
            self._log.write(f"offered {notice.sentence.text()}\n")
            buttons[0].click()
        self._tell(window)
        self._go_on()

    def _go_on(self) -> None:
        QTimer.singleShot(self._chance.randrange(20, LONGEST_REST_MS), self, self._edit)

    def _edit(self) -> None:
        window = self._window
        if window is not None:
            acts: tuple[Callable[[BenchWindow], None], ...]
            acts = (self._choose, self._move, self._name, self._undo)
            self._chance.choice((*acts, *acts, *acts, self._save))(window)
        self._go_on()

    def _choose(self, window: BenchWindow) -> None:
        wanted = self._chance.choice(_MENU)
        for action in window.menus.actions:
            if plain(action.text()) == wanted:
                action.trigger()

    def _move(self, window: BenchWindow) -> None:
        ladder = window.top.ladder
        for _ in range(self._chance.randrange(1, 6)):
            QTest.keyClick(ladder, self._chance.choice(_PEG_KEYS))

    def _name(self, window: BenchWindow) -> None:
        title = window.top.header.title
        title.setFocus()
        title.selectAll()
        QTest.keyClicks(title, f"Pier {self._chance.randrange(10_000)}")
        QTest.keyClick(title, Qt.Key.Key_Return)

    def _undo(self, window: BenchWindow) -> None:
        self._chance.choice((window.menus.undo, window.menus.undo, window.menus.redo)).trigger()

    def _save(self, window: BenchWindow) -> None:
        if not window.filing.saving:
            window.filing.save()

    def _tell(self, window: BenchWindow) -> None:
        plate = window.bench.plate
        if plate is not None:
            unsaved = int(window.bench.unsaved)
            self._log.write(f"state {time.time():.3f} {unsaved} {told(plate)}\n")
            self._log.flush()


def main() -> None:
    """Open the window on a file and work on it until somebody kills the program."""
    seed, log, path = int(sys.argv[1]), Path(sys.argv[2]), Path(sys.argv[3])
    app = QApplication(sys.argv[:1])
    _hand = Hand(app, seed, log)
    open_window([path])


if __name__ == "__main__":
    main()
