"""How long until the plate's picture is seen, beside a bare window that shows a ready image.

Both are fresh processes, one after the other in turn, drawing without a screen. Python's compiled
files are kept in a folder of their own and made by a first start that is not counted.
"""

import os
import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path

from tests.bench.clock import Spent

ROOT = Path(__file__).parents[2]
RUNS = 9

BARE = """
import sys, time
from PySide6.QtCore import QTimer
from PySide6.QtGui import QImage, QPainter
from PySide6.QtWidgets import QApplication, QWidget

class Bare(QWidget):
    def paintEvent(self, event):
        QPainter(self).drawImage(0, 0, picture)
        print("seen", time.monotonic(), flush=True)
        QTimer.singleShot(0, app.quit)

app = QApplication([])
picture = QImage(sys.argv[1])
window = Bare()
window.resize(1280, 720)
window.show()
app.exec()
"""

OURS = """
import sys, time
from toneladder_desktop import app
from PySide6.QtCore import QTimer
from toneladder_desktop.window.first_sight import FirstSight

said = set()

def say_once(word):
    if word not in said:
        said.add(word)
        print(word, time.monotonic(), flush=True)

def watch():
    from PySide6.QtWidgets import QApplication
    for window in QApplication.topLevelWidgets():
        workings = getattr(window, "workings", None)
        if workings is None:
            continue
        say_once("furnished")
        if workings.chosen is not None:
            say_once("ladder")
        if workings.plan is not None:
            say_once("alive")
            window.bench.give_up()
            window.close()
            timer.stop()

def paint(self, event, whole=FirstSight.paintEvent):
    whole(self, event)
    if not self.picture.isNull() and "seen" not in said:
        say_once("seen")
        global timer
        timer = QTimer()
        timer.timeout.connect(watch)
        timer.start(2)

FirstSight.paintEvent = paint
sys.exit(app.main(sys.argv[1:]))
"""


@dataclass(frozen=True, slots=True)
class Start:
    """From the start of a process until its window shows something."""

    bare: Spent
    seen: Spent
    alive: Spent


def measure(folder: Path, picture: Path, words: tuple[str, ...] = (), runs: int = RUNS) -> Start:
    """Both windows in turn; ``picture`` is what the bare one shows, ``words`` what ours opens."""
    environment = _environment(folder)
    bare, seen, alive = [], [], []
    for run in range(runs + 1):
        first = _start(BARE, (str(picture),), environment)
        ours = _start(OURS, words, environment)
        if run:
            bare.append(first["seen"])
            seen.append(ours["seen"])
            alive.append(ours["alive"])
    return Start(*(Spent(tuple(times), ()) for times in (bare, seen, alive)))


def _start(code: str, words: tuple[str, ...], environment: dict[str, str]) -> dict[str, float]:
    begin = time.monotonic()
    done = subprocess.run(
        [sys.executable, "-c", code, *words],
        env=environment,
        capture_output=True,
        text=True,
        check=True,
        timeout=120,
    )
    lines = [line.split() for line in done.stdout.splitlines()]
    return {name: float(at) - begin for name, at in lines}


def _environment(folder: Path) -> dict[str, str]:
    """Settings and compiled files in ``folder``; nothing of this desktop."""
    environment = dict(os.environ)
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    return environment | {
        "PYTHONPATH": f"{ROOT / 'core'}{os.pathsep}{ROOT / 'desktop'}",
        "PYTHONPYCACHEPREFIX": str(folder / "compiled"),
        "QT_QPA_PLATFORM": "offscreen",
        "HOME": str(folder),
        "XDG_CONFIG_HOME": str(folder / "config"),
        "XDG_STATE_HOME": str(folder / "state"),
    }
