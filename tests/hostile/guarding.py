"""Watches what the process does: files changed outside one folder, the network, programs run."""

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

_WRITING = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND
_CHANGING = {
    "os.rename": 2,
    "os.link": 2,
    "os.symlink": 2,
    "os.remove": 1,
    "os.mkdir": 1,
    "os.rmdir": 1,
    "os.chmod": 1,
    "os.chown": 1,
    "os.truncate": 1,
    "os.utime": 1,
    "sqlite3.connect": 1,
}
"""Events that change files, and how many of their arguments name one."""

_RUNNING = ("subprocess.", "os.system", "os.exec", "os.posix_spawn", "os.spawn", "os.fork",
            "os.startfile", "pty.", "webbrowser.", "socket.", "pickle.find_class")  # fmt: skip
_NOTHING = ("/dev/null", "/dev/tty")


class OutsideError(BaseException):
    """Something was to be changed, opened or run that must not be; nothing catches this."""


class Guard:
    """Hears of everything that Python lets be heard of; a hook of the interpreter is for ever."""

    def __init__(self) -> None:
        self._folder: Path | None = None
        self.seen: list[str] = []
        sys.addaudithook(self._hear)

    @contextmanager
    def watching(self, folder: Path) -> Iterator[None]:
        """While the block runs, nothing outside of ``folder`` can be changed."""
        self.seen.clear()
        self._folder = folder
        try:
            yield
        finally:
            self._folder = None

    def _hear(self, event: str, words: tuple[object, ...]) -> None:
        if self._folder is None:
            return
        if event == "open":
            path, _, flags = words
            if isinstance(flags, int) and flags & _WRITING:
                self._require_inside(event, path)
        elif event in _CHANGING:
            number = _CHANGING[event]
            for at, path in enumerate(words[:number]):
                inside = words[number + at] if len(words) > number + at else -1
                self._require_inside(event, path, inside if isinstance(inside, int) else -1)
        elif event.startswith(_RUNNING):
            self._refuse(f"{event} {words!r}")

    def _require_inside(self, event: str, path: object, folder: int = -1) -> None:
        if not isinstance(path, str | bytes | os.PathLike) or path in _NOTHING:
            return
        name = os.fsdecode(path).removeprefix("file://").partition("?")[0]
        if folder >= 0 and event in ("os.remove", "os.rmdir", "os.rename"):
            name = f"/proc/self/fd/{folder}/{name}"
        inside = os.path.realpath(name)
        if self._folder is not None and not f"{inside}{os.sep}".startswith(
            f"{self._folder}{os.sep}"
        ):
            self._refuse(f"{event} {name}")

    def _refuse(self, what: str) -> None:
        self.seen.append(what[:200])
        raise OutsideError(what[:200])


def snapshot(*folders: Path) -> dict[str, tuple[int, int, int]]:
    """Every file in ``folders``: its size, moment of change and mode."""
    found = {}
    for folder in folders:
        for path in sorted(folder.rglob("*")):
            about = path.lstat()
            found[str(path)] = (about.st_size, about.st_mtime_ns, about.st_mode)
    return found


def refuse_the_network() -> None:
    """No socket can be made from now on."""
    import socket

    def refused(*_: object, **__: object) -> None:
        raise AssertionError("a socket was made")

    refusing: Callable[..., None] = refused
    socket.socket = refusing  # type: ignore[misc, assignment] # it must not be what it was
    socket.create_connection = refusing  # type: ignore[assignment] # likewise
