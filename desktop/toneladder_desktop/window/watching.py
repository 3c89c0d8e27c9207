"""Notices when the open plate's file is changed by something else, or lies open elsewhere too."""

import os
from collections.abc import Callable
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from PySide6.QtCore import QFileSystemWatcher, QLockFile, QObject, QTimer

from toneladder.book.network import on_a_network, seems_on_a_network
from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.fittings.notice import Notice

SETTLED_MS = 400
"""A file must have rested so long before it is looked at: others may still be writing."""

OFTEN_MS = 5000
"""So often a file on another machine is looked at: nobody here hears when it changes."""

_STALE_MS = 0  # a lock is stale only when its program has ended

Look = Callable[[str, Callable[[], Any], Callable[[Any], object]], object]
"""Has something looked up on the disk, in the order asked, and its answer told."""


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a file lies in truth, as a name without signs, and whether on another machine."""

    name: str
    far: bool


Do = Callable[[Callable[[], Any], Callable[[Any], object]], object]
"""Has something done with the state folder, in the order asked, and its answer told."""


def _now(act: Callable[[], Any], then: Callable[[Any], object]) -> None:
    then(act())


def _at_once(_what: str, act: Callable[[], Any], then: Callable[[Any], object]) -> None:
    then(act())


class Watching(QObject):
    """Follows the file of one bench; ``saving`` tells whether we are writing it just now."""

    def __init__(
        self,
        bench: Bench,
        notice: Notice,
        state: Path,
        open_again: Callable[[Path], object],
        parent: QObject | None = None,
        *,
        look: Look = _at_once,
        do: Do = _now,
        saving: Callable[[], bool] = lambda: False,
    ) -> None:
        super().__init__(parent)
        self._beside, self._do, self._saving = look, do, saving
        self._far = self._unsure = False
        self._bench, self._notice, self._state = bench, notice, state
        self._open_again = open_again
        self._path: Path | None = None
        self._known: tuple[int, int] | None = None
        self._claim: _Claim | None = None
        self._settle = QTimer(self, singleShot=True, interval=SETTLED_MS)
        self._settle.timeout.connect(self._look)
        self._often = QTimer(self, interval=OFTEN_MS)
        self._often.timeout.connect(self._look)
        self._files = QFileSystemWatcher(self)
        self._files.fileChanged.connect(lambda _path: self._settle.start())
        bench.laid.connect(self.follow)

    def follow(self) -> None:
        """Another plate lies open, or this one has another file."""
        lying = self._bench.lying
        path = None if lying is None else lying.path
        if path != self._path:
            self._let_go()
            self._path = path
            if path is not None:
                self._far = seems_on_a_network(path)
                self._ask("place", lambda: _place_of(path), lambda place: self._take(path, place))
        self.saved()

    def saved(self) -> None:
        """The file is as this program has written or read it."""
        path, self._known = self._path, None
        if path is not None:
            self._unsure = True
            self._ask("stamp", lambda: _stamp(path), lambda stamp: self._know(path, stamp))

    def close(self) -> None:
        """The window closes."""
        self._let_go()

    def _ask(self, what: str, act: Callable[[], Any], then: Callable[[Any], object]) -> None:
        """Look something up at once, or beside the window if another machine has to answer."""
        (self._beside if self._far else _at_once)(what, act, then)

    def _know(self, path: Path, stamp: tuple[int, int] | None) -> None:
        if path == self._path:
            self._known, self._unsure = stamp, False
            self._listen(path)

    def _listen(self, path: Path) -> None:
        """Hear when the file changes; one that is far away is looked at every few seconds."""
        if self._far:
            self._often.start()
        elif not self._files.files():
            self._files.addPath(str(path))

    def _take(self, path: Path, place: _Place | None) -> None:
        """Say that the plate lies open here; if another window said so first, tell."""
        if path != self._path or place is None:
            return
        self._far = place.far or self._far
        claim = self._claim = _Claim(self._state / "open" / place.name)

        def told(elsewhere: bool) -> None:
            if elsewhere and self._claim is claim:
                self._notice.tell(
                    say(
                        "{name} lies open in another window too. Nothing is lost yet; but whoever"
                        " saves last keeps only their own changes. Close one of them.",
                        name=path.name,
                    )
                )

        self._do(claim.make, told)

    def _let_go(self) -> None:
        if self._claim is not None:
            self._do(self._claim.let_go, lambda _: None)
            self._claim = None
        if self._files.files():
            self._files.removePaths(self._files.files())
        self._often.stop()
        self._path = self._known = None
        self._far = False

    def _look(self) -> None:
        path = self._path
        if path is not None:
            self._ask("now", lambda: _stamp(path), lambda now: self._compare(path, now))

    def _compare(self, path: Path, now: tuple[int, int] | None) -> None:
        if path != self._path or self._unsure or self._saving():
            return
        if now is not None:
            self._listen(path)
        if now == self._known:
            return
        self._known = now
        if now is None:
            self._notice.tell(
                say(
                    "{name} is not there any more: it was moved, renamed or deleted. The plate"
                    " is still open here; save it again to keep it.",
                    name=path.name,
                )
            )
            return
        self._notice.tell(
            say("{name} was changed by another program.", name=path.name),
            ((say("Open it as it is now"), lambda: self._open_again(path)),),
            put_away=say("Keep what is open here"),
        )


class _Claim:
    """One window's word that a plate lies open in it; made and let go beside the window."""

    def __init__(self, file: Path) -> None:
        self._file = file
        self._lock: QLockFile | None = None

    def make(self) -> bool:
        """Whether another window has said so before."""
        try:
            self._file.parent.mkdir(parents=True, exist_ok=True)
        except OSError:
            return False
        lock = QLockFile(str(self._file))
        lock.setStaleLockTime(_STALE_MS)
        if lock.tryLock(0):
            self._lock = lock
            return False
        return lock.error() is QLockFile.LockError.LockFailedError

    def let_go(self) -> None:
        """Another window may say so now."""
        if self._lock is not None:
            self._lock.unlock()


def _place_of(path: Path) -> _Place | None:
    """None where nobody can tell."""
    try:
        place = path.resolve()
    except (OSError, RuntimeError):  # links in a circle
        return None
    return _Place(sha256(os.fsencode(place)).hexdigest()[:32], on_a_network(place))


def _stamp(path: Path) -> tuple[int, int] | None:
    """What tells one writing of a file from another; None without a file."""
    try:
        about = path.stat()
    except OSError:
        return None
    return about.st_mtime_ns, about.st_size
