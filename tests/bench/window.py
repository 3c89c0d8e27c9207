"""How soon the window is there, and how long an act may keep it from anything else.

A timer of one millisecond ticks in the window's thread while the window is driven; the longest time
between two ticks is the longest block. It draws without a screen.
"""

import statistics
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path

import numpy as np
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
from tests.bench.clock import Spent
from tests.bench.pictures import photograph
from tests.bench.planning import A4
from tests.bench.starting import measure
from tests.bench.table import Row, Table, figure, speeds, tell

from toneladder.tones.values import Brush, ToneChoice
from toneladder_desktop.bench.bench import Lying
from toneladder_desktop.bench.glimpse import SAMPLE_LOOK
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.ladder.content import Peg, Side
from toneladder_desktop.paper.paper import Paper
from toneladder_desktop.paper.sampling import indexed
from toneladder_desktop.window.bench_window import BenchWindow
from toneladder_desktop.window.start import SWITCH_S
from toneladder_desktop.window.tidying import Tidying
from toneladder_desktop.window.wardrobe import Wardrobe

ACTS = 3
FRAME_MS, MOVES = 16, 60
LONGEST_MS = 120_000


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


@dataclass(frozen=True, slots=True)
class Block:
    """The longest blocks of the turns of one act, milliseconds."""

    what: str
    longest_ms: tuple[float, ...]


@dataclass(slots=True)
class Driver:
    """A window on an A4 plate of a large photograph, and acts that are timed."""

    window: BenchWindow
    pulse: Pulse = field(default_factory=Pulse)
    blocks: list[Block] = field(default_factory=list)

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
        """Note the longest blocks of an act, until it is done."""
        tell(what)
        longest = []
        for _ in range(ACTS):
            self.wait(self.settled)
            self.rest(200)
            self.pulse.start()
            act()
            self.rest(60)
            self.wait(done)
            self.rest(60)
            longest.append(self.pulse.stop())
        self.blocks.append(Block(what, tuple(longest)))


def tables(folder: Path, runs: int) -> Iterator[Table]:
    """What is seen, and what keeps the window."""
    tell("the first window")
    start = measure(folder, SAMPLE_LOOK, runs=runs)
    rows = [
        Row("the picture in the first window", start.seen, _BARE, start.bare, "≤ 1.3 ×"),
        Row("fully alive", start.alive, _BARE, start.bare),
    ]
    shown, blocks = _driven(folder, runs)
    yield speeds("What is seen", [*rows, *shown], (_OWN_THREAD,))
    heads = ("longest time the window was kept", "worst, ms", "middle, ms", "goal, ms")
    cells = tuple(
        (
            block.what,
            figure(max(block.longest_ms)),
            figure(statistics.median(block.longest_ms)),
            "50",
        )
        for block in blocks
    )
    yield Table("What keeps the window", heads, cells)


_BARE = "a bare window"
_OWN_THREAD = "Where a number of tones is told and painted, CPU is that of the window's own thread."
_READY = "its cells as a ready image, scaled"


def _driven(folder: Path, runs: int) -> tuple[list[Row], list[Block]]:
    app = QApplication.instance() or QApplication([])
    if not isinstance(app, QApplication):
        raise TypeError(app)
    before = sys.getswitchinterval()
    sys.setswitchinterval(SWITCH_S)
    preferences = Preferences(folder / "preferences.ini", app)
    wardrobe, tidying = Wardrobe(app, preferences), Tidying(app)
    window = BenchWindow(preferences, folder / "state")
    window.show()
    driver = Driver(window)
    photo = photograph(folder, 24.0)
    window.filing.open_sample()
    driver.act("open a photograph of 24 megapixels", *_opening(driver, photo))
    rows = _acts(driver, folder, runs)
    window.bench.give_up()
    window.close()
    tidying.stop()
    sys.setswitchinterval(before)
    del wardrobe
    return rows, driver.blocks


def _opening(driver: Driver, photo: Path) -> tuple[Callable[[], object], Callable[[], object]]:
    window = driver.window

    def act() -> None:
        window.bench.lay(replace(_lying(window), sample=True))
        window.open(photo)

    def done() -> bool:
        plate = window.bench.plate
        return plate is not None and plate.picture.name == photo.name and driver.settled()

    return act, done


def _acts(driver: Driver, folder: Path, runs: int) -> list[Row]:
    window = driver.window
    plate = replace(_lying(window).plate, size=A4, tones=ToneChoice(8))
    window.bench.change("A4", plate)
    driver.wait(driver.settled)
    rows = [*_repaints(driver, runs), *_squints(driver, runs)]
    window.bench.change("as before", plate)
    numbers = iter([*range(3, 13)] * 3 * ACTS)
    driver.act("a new number of tones, ten times", lambda: _ten(driver, numbers), driver.settled)
    window.bench.change("eight", plate)
    driver.act("a peg dragged by 60 moves", lambda: _drag(driver), driver.settled)
    marks = iter([2.0, 1.5, 1.2, 1.8, 1.0])
    driver.act("another brush", lambda: _brush(window, next(marks)), driver.settled)
    driver.act("save", lambda: _save(window, folder), lambda: not window.filing.saving)
    driver.act("open the sheets", window.sheets.open, driver.settled)
    driver.act("open How many tones?", window.how_many.open, lambda: _compared(driver))
    window.how_many.close()
    return rows


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


def _repaints(driver: Driver, runs: int) -> list[Row]:
    """From a new number of tones to the painted paper, and to the whole painted window."""
    tell("repaints")
    window = driver.window
    told, whole = _Turns(time.thread_time), _Turns(time.thread_time)
    for number in [5, 7, 6, 8] * runs:
        driver.wait(driver.settled)
        begin = told.now()
        window.top.tones.take_number(number)
        told.take(begin)
        window.repaint()
        whole.take(begin)
    driver.wait(driver.settled)
    return [
        _paper(window.top.paper, runs),
        Row("a new number of tones, chosen and told everywhere", told.spent(), goal="≤ 16 ms"),
        Row("the same, and the whole window painted", whole.spent(), goal="≤ 16 ms"),
    ]


def _paper(paper: Paper, runs: int) -> Row:
    """The paper alone in new colours."""
    ready, sheet = _Ready(paper), QImage(paper.size(), QImage.Format.Format_RGB32)
    papers, floors = _Turns(time.process_time), _Turns(time.process_time)
    greys = np.repeat(np.arange(256, dtype=np.uint8)[:, None], 3, axis=1)
    for turn in range(4 * runs):
        paper.colour(np.roll(greys, turn, axis=0))
        papers.painting(paper, sheet)
        floors.painting(ready, sheet)
    what = "repaint of the paper, new number of tones"
    return Row(what, papers.spent(), _READY, floors.spent(), "≤ 1.5 ×, ≤ 16 ms")


def _squints(driver: Driver, runs: int) -> list[Row]:
    """From a changed squint to a picture of it on the paper, and to the whole plan."""
    return [row for keeps in (False, True) for row in _squint(driver, runs, keeps=keeps)]


def _squint(driver: Driver, runs: int, *, keeps: bool) -> Iterator[Row]:
    kind = "a changed squint that keeps edges" if keeps else "a changed squint"
    tell(kind)
    window = driver.window
    plate = replace(_lying(window).plate, keeps_edges=keeps)
    window.bench.change("squint", plate)
    shown, planned = _Turns(time.process_time), _Turns(time.process_time)
    for turn in range(runs):
        driver.wait(driver.settled)
        driver.rest(100)
        before = window.top.paper._cells
        begin = shown.now()
        window.bench.change("squint", replace(plate, squint_mm=0.8 + 0.05 * turn))
        driver.wait(partial(_is_another, window, before))
        shown.take(begin)
        driver.wait(lambda: window.workings.plan is not None)
        planned.take(begin)
    yield Row(f"{kind}, seen on the paper", shown.spent(), goal="≤ 100 ms")
    yield Row(f"{kind}, the whole plan", planned.spent())


def _is_another(window: BenchWindow, cells: object) -> bool:
    return window.top.paper._cells is not cells


@dataclass(slots=True)
class _Turns:
    """Times on the clock, and those of a clock of the processor."""

    cpu_clock: Callable[[], float]
    wall: list[float] = field(default_factory=list)
    cpu: list[float] = field(default_factory=list)

    def now(self) -> tuple[float, float]:
        """What both clocks say."""
        return time.perf_counter(), self.cpu_clock()

    def take(self, begin: tuple[float, float]) -> None:
        """One turn is over."""
        now = self.now()
        self.wall.append(now[0] - begin[0])
        self.cpu.append(now[1] - begin[1])

    def painting(self, widget: QWidget, sheet: QImage) -> None:
        """Paint a widget alone."""
        begin = self.now()
        widget.render(sheet, QPoint(), QRegion(), QWidget.RenderFlag(0))
        self.take(begin)

    def spent(self) -> Spent:
        return Spent(tuple(self.wall), tuple(self.cpu))


class _Ready(QWidget):
    """Paints what a paper shows, every cell in its colour, as an image that is ready."""

    def __init__(self, paper: Paper) -> None:
        super().__init__()
        self.resize(paper.size())
        self._place = paper.plate()
        cells = paper._cells
        if cells is None:
            raise LookupError
        image = indexed(cells)
        image.setColorTable(paper._colours)
        self._image = image.convertToFormat(QImage.Format.Format_RGB32)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.drawImage(self._place, self._image)
        painter.end()
