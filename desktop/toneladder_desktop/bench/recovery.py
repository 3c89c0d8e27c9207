"""What is on the bench, safe in the state folder until the window is closed as usual.

Every window has a folder of its own, with a lock that dies with the program: a small text at
every rest of the hand, and while it does not rest every few seconds; the picture once. What lies
in a folder without a living lock was left by a crash.
"""

import json
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from pathlib import Path
from time import time
from typing import TYPE_CHECKING
from uuid import uuid4

from PySide6.QtCore import QLockFile, QObject, QTimer, Signal

from toneladder.bite.values import BiteCurve
from toneladder.errors import PlateFileError, ToneLadderError
from toneladder.wording import say
from toneladder.writing import write_whole
from toneladder_desktop.bench.background import Background, Tell
from toneladder_desktop.bench.bench import Bench, KnownCurve, Lying
from toneladder_desktop.bench.stages import curve_for

if TYPE_CHECKING:
    from toneladder.plan.memory import Memory

BURST_MS = 1000
LATEST_MS = 2000
"""So long after a change it is written down, though the hand has not rested since."""

_RECORD, _PLACE, _LOCK = "plate.json", "place.json", "lock"
_LONGEST_PLACE = 100_000
_NAMELESS_S = 60.0
_DAMAGED = (ValueError, KeyError, IndexError, TypeError, OverflowError, RecursionError)


@dataclass(frozen=True, slots=True)
class Left:
    """What a crash left behind: its folder, the plate's name, and when it was last kept."""

    folder: Path
    title: str
    kept_at: datetime


class Recovery(QObject):
    """Keeps the bench of one window, and finds what windows before it lost.

    ``run`` has something done to the disk, beside the window or at once, in the order it was
    asked; there ``curve`` tells the curve of a plate. ``told`` says that ``broken`` may be another:
    whether nothing can be kept.
    """

    told = Signal()

    def __init__(
        self,
        bench: Bench,
        folder: Path,
        curve: Callable[[Lying], BiteCurve],
        run: Callable[[Callable[[], None]], object],
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._bench, self._room, self._curve, self._run = bench, folder, curve, run
        self._own = folder / uuid4().hex
        self._lock: QLockFile | None = None
        self._pictures: set[str] = set()
        self._taken_over: list[Left] = []
        self.broken = False
        self._burst = QTimer(self, singleShot=True, interval=BURST_MS)
        self._latest = QTimer(self, singleShot=True, interval=LATEST_MS)
        for timer in (self._burst, self._latest):
            timer.timeout.connect(self.keep)
        bench.plate_changed.connect(self._changed)
        bench.undo.cleanChanged.connect(self._changed)

    def keep(self) -> None:
        """Write down what lies on the bench, if it holds unsaved changes."""
        lying = self._bench.lying
        if lying is None or not self._bench.unsaved:
            self.forget()
            return
        self._rest()
        self._run(lambda: self._try_to_write(lying))

    def forget(self) -> None:
        """The plate is safe elsewhere, or given up: nothing is to be recovered."""
        self._rest()
        self._run(self._remove)

    def take_over(self, left: Left) -> None:
        """What was left lies on the bench; its folder goes as soon as it is safe here."""
        self._taken_over.append(left)
        self.keep()

    def close(self) -> None:
        """The window closes as usual: its folder goes."""
        self._rest()
        self._let_go_of_what_was_left()
        if self._lock is not None:
            self._lock.unlock()
        self._lock = None
        shutil.rmtree(self._own, ignore_errors=True)

    def left(self) -> tuple[Left, ...]:
        """What earlier windows lost, newest first; empty rests of theirs are cleared away."""
        found = []
        with suppress(OSError):
            for folder in self._room.iterdir():
                if folder == self._own or not folder.is_dir() or _alive(folder):
                    continue
                one = _left_in(folder)
                if one is None:
                    shutil.rmtree(folder, ignore_errors=True)
                else:
                    found.append(one)
        return tuple(sorted(found, key=lambda one: one.kept_at, reverse=True))

    def _changed(self) -> None:
        self._burst.start()
        if not self._latest.isActive():
            self._latest.start()

    def _rest(self) -> None:
        self._burst.stop()
        self._latest.stop()

    def _let_go_of_what_was_left(self) -> None:
        while self._taken_over:
            throw_away(self._taken_over.pop())

    def _remove(self) -> None:
        self._let_go_of_what_was_left()
        for name in (_RECORD, _PLACE):
            with suppress(OSError):
                (self._own / name).unlink(missing_ok=True)

    def _try_to_write(self, lying: Lying) -> None:
        before = self.broken
        try:
            self._write(lying, self._curve(lying))
            self._let_go_of_what_was_left()
        except (OSError, MemoryError, ToneLadderError):
            self.broken = True
        else:
            self.broken = False
        if self.broken is not before:
            self.told.emit()

    def _write(self, lying: Lying, curve: BiteCurve) -> None:
        from toneladder.plate.record import write_record

        self._own.mkdir(parents=True, exist_ok=True)
        if self._lock is None:
            self._lock = QLockFile(str(self._own / _LOCK))
            self._lock.setStaleLockTime(0)
            self._lock.tryLock(0)
        name = lying.plate.picture.sha256
        if name not in self._pictures:
            write_whole(self._own / name, lambda file: file.write(lying.picture))
            self._pictures.add(name)
        place = json.dumps({"path": None if lying.path is None else str(lying.path)})
        write_whole(self._own / _PLACE, lambda file: file.write(place.encode()))
        record = write_record(lying.plate, curve)
        write_whole(self._own / _RECORD, lambda file: file.write(record.encode()))


class Writer:
    """Writes to the disk beside the window, on a thread that nothing heavy is asked of.

    Of what still waits only the newest is done, since each writing holds all that those before
    it held.
    """

    def __init__(self, parent: QObject | None = None) -> None:
        self._thread = Background(_done, parent)
        self._thread.begin()  # while there is memory for one

    def do(self, act: Callable[[], None]) -> None:
        """Have it done, as soon as what is under way is done."""
        self._thread.ask("write", act)

    def close(self) -> None:
        """Finish what was asked, and end the thread."""
        self._thread.finish()


class CurveOf:
    """The curve of a plate, worked out apart from the window; the last one is remembered."""

    def __init__(self) -> None:
        self._memory: Memory | None = None

    def __call__(self, lying: Lying) -> BiteCurve:
        """The curve; a ToneLadderError where there is none."""
        from toneladder.plan.memory import Memory

        self._memory = self._memory or Memory()
        return curve_for(lying, self._memory)


def _done(act: Callable[[], None], _tell: Tell) -> Iterator[object]:
    act()
    return iter(())


def take_back(left: Left) -> Lying:
    """The plate as it was last kept; it has unsaved changes.

    Raises
    ------
    PlateFileError
        What was kept is damaged.
    """
    from toneladder.plate.record import LONGEST_TEXT, read_record

    with _told():
        record = read_record(_text(left.folder / _RECORD, 4 * LONGEST_TEXT))
        picture = (left.folder / record.plate.picture.sha256).read_bytes()
        place = json.loads(_text(left.folder / _PLACE, _LONGEST_PLACE))["path"]
        if sha256(picture).hexdigest() != record.plate.picture.sha256:
            raise ValueError(record.plate.picture.sha256)
        return Lying(
            record.plate,
            picture,
            None if place is None else Path(place),
            KnownCurve(record.plate.conditions, record.curve),
        )


def throw_away(left: Left) -> None:
    """Nobody wants it back."""
    shutil.rmtree(left.folder, ignore_errors=True)


def _alive(folder: Path) -> bool:
    """Whether a running window holds the folder."""
    lock = QLockFile(str(folder / _LOCK))
    lock.setStaleLockTime(0)
    if lock.tryLock(0):
        lock.unlock()
        return False
    return not _nameless(folder / _LOCK)


def _nameless(lock: Path) -> bool:
    """Whether a lock names nobody who could hold it: the power failed while it was written."""
    try:
        about = lock.stat()
    except OSError:
        return False
    return about.st_size == 0 and time() - about.st_mtime > _NAMELESS_S


def _left_in(folder: Path) -> Left | None:
    """What lies in the folder; None only if nothing was ever kept there."""
    record = folder / _RECORD
    try:
        kept_at = datetime.fromtimestamp(record.stat().st_mtime).astimezone()
    except FileNotFoundError:
        return None
    except (OSError, *_DAMAGED):
        kept_at = datetime.fromtimestamp(0.0).astimezone()
    try:
        title = str(json.loads(record.read_text(encoding="utf-8"))["plate"]["title"])
    except (OSError, *_DAMAGED):
        title = say("A plate that cannot be read")
    return Left(folder, title, kept_at)


@contextmanager
def _told() -> Iterator[None]:
    """Whatever is wrong with what was kept is said in one sentence."""
    try:
        yield
    except (OSError, *_DAMAGED) as fault:
        raise PlateFileError(
            say("What was kept is damaged and cannot be taken back. It was left as it is.")
        ) from fault


def _text(path: Path, longest: int) -> str:
    with path.open("rb") as file:
        return file.read(longest).decode()
