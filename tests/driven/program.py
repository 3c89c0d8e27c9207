"""The program itself, with a clock at the tank that runs faster, and with its longest blocks told.

``python -m tests.driven.program BLOCKS [FASTER] [PATH…]`` opens the window as usual. A line of
the file BLOCKS is a time between two turns of the window's event loop that was longer than
``TOLD_MS``: when it ended (the monotonic clock, seconds), how long it was, how much of it the
window's thread worked, and how much of it that thread was ready to work while other programs had
the processor (milliseconds). What then remains it waited for other threads of its own.
"""

import sys
import time
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, Qt, QTimer
from PySide6.QtWidgets import QApplication

from toneladder.tank.values import Moment
from toneladder_desktop.app import main
from toneladder_desktop.tank import clock, window

TOLD_MS = 10.0
_SCHEDULED = Path("/proc/thread-self/schedstat")
"""What the system's scheduler tells of a thread: nanoseconds worked, and ready to work."""


class Pulse(QObject):
    """Turns as often as it can, and writes down the turns that came late."""

    def __init__(self, app: QApplication, path: Path) -> None:
        super().__init__(app)
        self._file = path.open("a", encoding="utf-8")
        self._last = _clocks()
        self._timer = QTimer(self, interval=1)
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self._turn)
        self._timer.start()

    def _turn(self) -> None:
        now = _clocks()
        wall, worked, ready = (1e3 * (a - b) for a, b in zip(now, self._last, strict=True))
        if wall > TOLD_MS:
            self._file.write(f"{now[0]:.4f} {wall:.1f} {worked:.1f} {ready:.1f}\n")
            self._file.flush()
        self._last = _clocks()


def _clocks() -> tuple[float, float, float]:
    _, ready_ns, _ = _SCHEDULED.read_text(encoding="ascii").split()
    return time.monotonic(), time.thread_time(), int(ready_ns) / 1e9


def faster(factor: float) -> Callable[[], Moment]:
    """The clocks of the machine, but so many times as fast from now on."""
    begin, read = clock.read_clocks(), clock.read_clocks

    def now() -> Moment:
        return begin.later((read().boottime_s - begin.boottime_s) * factor)

    return now


def run(words: list[str]) -> int:
    """Open the program."""
    blocks, factor, *paths = words
    app = QApplication(sys.argv[:1])
    pulse = Pulse(app, Path(blocks))
    quick = faster(float(factor))
    clock.read_clocks = quick
    defaults = window.TankWindow.__init__.__kwdefaults__
    if defaults is None:
        raise TypeError(window.TankWindow)
    defaults["clock"] = quick
    status = main(paths)
    del pulse
    return status


if __name__ == "__main__":
    sys.exit(run(sys.argv[1:]))
