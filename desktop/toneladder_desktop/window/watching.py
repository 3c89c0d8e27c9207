"""Notices when the open plate's file is changed by something else, or lies open elsewhere too."""

from collections.abc import Callable
from hashlib import sha256
from pathlib import Path

from PySide6.QtCore import QFileSystemWatcher, QLockFile, QObject, QTimer

from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.fittings.notice import Notice

SETTLED_MS = 400
"""A file must have rested so long before it is looked at: others may still be writing."""

_STALE_MS = 0  # a lock is stale only when its program has ended


class Watching(QObject):
    """Follows the file of one bench."""

    def __init__(
        self,
        bench: Bench,
        notice: Notice,
        state: Path,
        open_again: Callable[[Path], object],
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._bench, self._notice, self._state = bench, notice, state
        self._open_again = open_again
        self._path: Path | None = None
        self._known: tuple[int, int] | None = None
        self._lock: QLockFile | None = None
        self._settle = QTimer(self, singleShot=True, interval=SETTLED_MS)
        self._settle.timeout.connect(self._look)
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
                self._take(path)
        self.saved()

    def saved(self) -> None:
        """The file is as this program has written or read it."""
        self._known = None if self._path is None else _stamp(self._path)
        if self._path is not None and not self._files.files():
            self._files.addPath(str(self._path))

    def close(self) -> None:
        """The window closes."""
        self._let_go()

    def _take(self, path: Path) -> None:
        """Say that the plate lies open here; if another window said so first, tell."""
        folder = self._state / "open"
        try:
            folder.mkdir(parents=True, exist_ok=True)
            name = sha256(str(path.resolve()).encode()).hexdigest()[:32]
        except OSError:
            return
        lock = QLockFile(str(folder / name))
        lock.setStaleLockTime(_STALE_MS)
        if lock.tryLock(0):
            self._lock = lock
        elif lock.error() is QLockFile.LockError.LockFailedError:
            self._notice.tell(
                say(
                    "{name} lies open in another window too. Nothing is lost yet; but whoever"
                    " saves last keeps only their own changes. Close one of them.",
                    name=path.name,
                )
            )

    def _let_go(self) -> None:
        if self._lock is not None:
            self._lock.unlock()
            self._lock = None
        if self._files.files():
            self._files.removePaths(self._files.files())
        self._path = self._known = None

    def _look(self) -> None:
        path = self._path
        if path is None:
            return
        if not self._files.files() and path.exists():
            self._files.addPath(str(path))
        now = _stamp(path)
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


def _stamp(path: Path) -> tuple[int, int] | None:
    """What tells one writing of a file from another; None without a file."""
    try:
        about = path.stat()
    except OSError:
        return None
    return about.st_mtime_ns, about.st_size
