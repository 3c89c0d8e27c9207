"""Prints how soon the window is there, and how long an act may keep it from anything else.

Run it as ``python tests/bench/window.py``; it asserts nothing. A timer of one millisecond ticks in
the window's thread while the window is driven; the longest time between two ticks is the longest
block. It draws without a screen.
"""

import os
import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT / "core"), str(ROOT / "desktop"), str(ROOT)]

from PySide6.QtCore import (
    QElapsedTimer,
    QEvent,
    QEventLoop,
    QPoint,
    QPointF,
    Qt,
    QTimer,
)
from PySide6.QtGui import QImage, QMouseEvent, QPainter, QPaintEvent, QRegion
from PySide6.QtWidgets import QApplication, QWidget
from tests.bench.speeds import photograph
from tests.bench.starting import measure

from toneladder.picture.values import PlateSize
from toneladder.tones.values import Brush, ToneChoice
from toneladder_desktop.bench.bench import Lying
from toneladder_desktop.bench.glimpse import SAMPLE_LOOK
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.ladder.content import Peg, Side
from toneladder_desktop.window.bench_window import BenchWindow
from toneladder_desktop.window.start import SWITCH_S
from toneladder_desktop.window.tidying import Tidying
from toneladder_desktop.window.wardrobe import Wardrobe

RUNS = 3
FRAME_MS, MOVES = 16, 60
LONGEST_MS = 120_000
A4 = PlateSize(297.0, 210.0)


class Pulse:
    """Ticks as often as it can, and knows the longest time between two ticks."""

    def __init__(self) -> None:
        self.longest_ms = 0.0
        self._clock = QElapsedTimer()
        self._timer = QTimer(interval=1, timerType=Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self._tick)

    def start(self) -> None:
        """Count from now on."""
        self.longest_ms = 0.0
        self._clock.start()
        self._timer.start()

    def stop(self) -> float:
        """The longest block since the start, milliseconds."""
        self._tick()
        self._timer.stop()
        return self.longest_ms

    def _tick(self) -> None:
        self.longest_ms = max(self.longest_ms, self._clock.nsecsElapsed() / 1e6)
        self._clock.start()


class Driver:
    """A window on an A4 plate of a large photograph, and acts that are timed."""

    def __init__(self, window: BenchWindow) -> None:
        self.window, self.pulse = window, Pulse()

    def wait(self, until: Callable[[], object]) -> None:
        """Let the window live until something is so; every millisecond is asked."""
        loop, begin = QEventLoop(), time.monotonic()
        asking = QTimer(interval=1)

        def ask() -> None:
            if until() or time.monotonic() - begin > LONGEST_MS / 1e3:
                loop.quit()

        asking.timeout.connect(ask)
        asking.start()
        loop.exec()

    def rest(self, ms: int) -> None:
        """Let the window live for a while."""
        end = time.monotonic() + ms / 1e3
        self.wait(lambda: time.monotonic() > end)

    def settled(self) -> bool:
        """Whether everything asked for is there and drawn."""
        workings = self.window.workings
        return (
            workings.plan is not None
            and not workings.background.busy
            and self.window.top.paper.fine
        )

    def act(self, what: str, act: Callable[[], object], done: Callable[[], object]) -> None:
        """Print the longest block of an act, the worst of some runs, until it is done."""
        worst = []
        for _ in range(RUNS):
            self.wait(self.settled)
            self.rest(200)
            self.pulse.start()
            act()
            self.rest(60)
            self.wait(done)
            self.rest(60)
            worst.append(self.pulse.stop())
        _row(what, "longest block", max(worst), "goal", 50.0)


def main() -> None:
    """The whole table."""
    load = os.getloadavg()[0]
    print(f"{os.cpu_count()} cores, Python {sys.version.split()[0]}, load {load:.1f} at the start")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        if "--blocks" not in sys.argv:
            start = measure(folder, SAMPLE_LOOK)
            _row("picture seen in the first window", "bare window", start.seen_s, "", start.bare_s)
            _row("fully alive", "bare window", start.alive_s, "", start.bare_s)
        _blocks(folder)


def _row(what: str, beside: str, ours: float, goal: str, floor: float) -> None:
    factor = 1.0 if goal else 1e3
    print(
        f"{what:46} {ours * factor:8.1f} ms  {goal or beside:14} {floor * factor:7.1f} ms "
        f"{ours / floor:7.2f}",
        flush=True,
    )


def _blocks(folder: Path) -> None:
    app = QApplication.instance() or QApplication([])
    if not isinstance(app, QApplication):
        raise TypeError(app)
    sys.setswitchinterval(SWITCH_S)
    preferences = Preferences(folder / "preferences.ini", app)
    wardrobe, tidying = Wardrobe(app, preferences), Tidying(app)
    window = BenchWindow(preferences, folder / "state")
    window.show()
    driver = Driver(window)
    photo = photograph(folder, 24.0)
    window.filing.open_sample()
    driver.act("open a photograph of 24 megapixels", *_opening(driver, photo))
    _acts(driver, folder)
    window.bench.give_up()
    window.close()
    tidying.stop()
    del wardrobe


def _opening(driver: Driver, photo: Path) -> tuple[Callable[[], object], Callable[[], object]]:
    window = driver.window

    def act() -> None:
        window.bench.lay(replace(_lying(window), sample=True))
        window.open(photo)

    def done() -> bool:
        plate = window.bench.plate
        return plate is not None and plate.picture.name == photo.name and driver.settled()

    return act, done


def _acts(driver: Driver, folder: Path) -> None:
    window = driver.window
    plate = replace(_lying(window).plate, size=A4, tones=ToneChoice(8))
    window.bench.change("A4", plate)
    driver.wait(driver.settled)
    _repaints(driver)
    numbers = iter([*range(3, 13)] * 3 * RUNS)
    driver.act("a new number of tones, ten times", lambda: _ten(driver, numbers), driver.settled)
    window.bench.change("eight", plate)
    driver.act("a peg dragged by 60 moves", lambda: _drag(driver), driver.settled)
    marks = iter([2.0, 1.5, 1.2, 1.8, 1.0])
    driver.act("another brush", lambda: _brush(window, next(marks)), driver.settled)
    driver.act("save", lambda: _save(window, folder), lambda: not window.filing.saving)
    driver.act("open the sheets", window.sheets.open, driver.settled)
    driver.act("open How many tones?", window.how_many.open, lambda: _compared(driver))
    window.how_many.close()


def _ten(driver: Driver, numbers: Iterator[int]) -> None:
    for _ in range(10):
        driver.window.top.tones.take_number(next(numbers))
        driver.rest(50)


def _drag(driver: Driver) -> None:
    """A mouse on the middle parting's peg, to and fro, a move a frame."""
    ladder = driver.window.top.ladder
    layout = ladder._layout
    if layout is None:
        return
    body = layout.place(Peg(Side.PARTING, 4)).body
    x, y = body.x + 9.0, body.middle
    _mouse(ladder, QEvent.Type.MouseButtonPress, x, y)
    for move in range(MOVES):
        way = move if move < MOVES // 2 else MOVES - move
        _mouse(ladder, QEvent.Type.MouseMove, x, y + way / 2.0)
        driver.rest(FRAME_MS)
    _mouse(ladder, QEvent.Type.MouseButtonRelease, x, y)


def _mouse(widget: QWidget, kind: QEvent.Type, x: float, y: float) -> None:
    moved = kind is QEvent.Type.MouseMove
    left = Qt.MouseButton.LeftButton
    event = QMouseEvent(
        kind,
        QPointF(x, y),
        widget.mapToGlobal(QPointF(x, y)),
        Qt.MouseButton.NoButton if moved else left,
        left,
        Qt.KeyboardModifier.NoModifier,
    )
    QApplication.sendEvent(widget, event)


def _brush(window: BenchWindow, mark_mm: float) -> None:
    plate = _lying(window).plate
    window.bench.change("Brush", replace(plate, brush=Brush(mark_mm, mark_mm + 0.5)))


def _save(window: BenchWindow, folder: Path) -> None:
    window.bench.now_saved(folder / "a.plate", _lying(window).plate)
    window.filing.save()


def _compared(driver: Driver) -> bool:
    driver.rest(1500)
    return True


def _lying(window: BenchWindow) -> Lying:
    lying = window.bench.lying
    if lying is None:
        raise LookupError
    return lying


def _repaints(driver: Driver) -> None:
    """From a new number of tones to the painted paper, and to the whole painted window."""
    window, paper = driver.window, driver.window.top.paper
    ready = _Ready(paper.grab().toImage())
    ready.resize(paper.size())
    sheet = QImage(paper.size(), QImage.Format.Format_RGB32)
    told, papers, floors, whole = [], [], [], []
    for number in [5, 7, 6, 8] * RUNS:
        driver.wait(driver.settled)
        begin = time.perf_counter()
        window.top.tones.take_number(number)
        told.append(time.perf_counter() - begin)
        papers.append(_painting(paper, sheet))
        floors.append(_painting(ready, sheet))
        paper.repaint()
        whole.append(time.perf_counter() - begin)
    middle = statistics.median
    paints, floor = middle(papers), middle(floors)
    _row("repaint of the paper, new number of tones", "a ready image", paints, "", floor)
    chosen, all_of_it = middle(told) * 1e3, middle(whole) * 1e3
    _row("chosen, told everywhere", "", chosen, "one frame", FRAME_MS)
    _row("and the whole window painted", "", all_of_it, "one frame", FRAME_MS)


def _painting(widget: QWidget, sheet: QImage) -> float:
    """Seconds in which a widget alone is painted."""
    begin = time.perf_counter()
    widget.render(sheet, QPoint(), QRegion(), QWidget.RenderFlag(0))
    return time.perf_counter() - begin


class _Ready(QWidget):
    """Paints an image that is ready."""

    def __init__(self, image: QImage) -> None:
        super().__init__()
        self._image = image

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.drawImage(0, 0, self._image)
        painter.end()


if __name__ == "__main__":
    main()
