"""A screen of its own with a window manager, a bus for screen readers, and the program on it."""

import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path
from types import TracebackType
from typing import Self

from tests.driven.reader import Reader

ROOT = Path(__file__).parents[2]
TOOLS = {
    "Xvfb": "xvfb",
    "openbox": "openbox",
    "xdotool": "xdotool",
    "dbus-daemon": "dbus-daemon",
}
"""Programs that are needed, and the Debian packages they come in."""

_LAUNCHERS = ("/usr/libexec/at-spi-bus-launcher", "/usr/lib/at-spi2-core/at-spi-bus-launcher")
_LONGEST_S = 60.0
FASTER = 60.0


def lacking() -> str:
    """Why nothing can be driven here, or nothing."""
    if not sys.platform.startswith("linux"):
        return "screens of one's own are of Linux"
    missing = [package for tool, package in TOOLS.items() if shutil.which(tool) is None]
    if not any(Path(path).exists() for path in _LAUNCHERS):
        missing.append("at-spi2-core")
    return f"there is no {', no '.join(missing)} here" if missing else ""


@dataclass(frozen=True, slots=True)
class Block:
    """The window's loop did not turn for so long, milliseconds; ``ended_s`` is when it did again.

    ``worked_ms`` of that its thread worked, ``ready_ms`` it could have, had other programs not
    had the processor.
    """

    ended_s: float
    wall_ms: float
    worked_ms: float
    ready_ms: float

    @property
    def own_ms(self) -> float:
        """As long as it is on a machine that does nothing else."""
        return self.wall_ms - self.ready_ms


class Desk:
    """Everything is begun on entering, and ended on leaving."""

    def __init__(self) -> None:
        self._ending = ExitStack()

    def __enter__(self) -> Self:
        self.home = Path(self._ending.enter_context(tempfile.TemporaryDirectory()))
        self._room = self.home / "room"
        self._room.mkdir(mode=0o700)
        self.environment = {
            name: value
            for name, value in os.environ.items()
            if name not in {"WAYLAND_DISPLAY", "DISPLAY", "XAUTHORITY", "AT_SPI_BUS_ADDRESS"}
        } | {
            "HOME": str(self.home),
            "XDG_CONFIG_HOME": str(self.home / "config"),
            "XDG_DATA_HOME": str(self.home / "data"),
            "XDG_STATE_HOME": str(self.home / "state"),
            "XDG_CACHE_HOME": str(self.home / "cache"),
            "XDG_RUNTIME_DIR": str(self._room),
            "QT_QPA_PLATFORM": "xcb",
            "QT_LINUX_ACCESSIBILITY_ALWAYS_ON": "1",
            "LC_ALL": "C.UTF-8",
            "PYTHONPATH": os.pathsep.join(sys.path),
        }
        try:
            self._begin()
        except BaseException:
            self._ending.close()
            raise
        return self

    def __exit__(
        self,
        _kind: type[BaseException] | None,
        _fault: BaseException | None,
        _trace: TracebackType | None,
    ) -> None:
        self._ending.close()

    def read(self) -> Reader:
        """Begin to read what is on the screen aloud."""
        reader = Reader(self.environment["DBUS_SESSION_BUS_ADDRESS"])
        self._ending.callback(reader.close)
        return reader

    def open(self, *paths: Path, faster: float = FASTER) -> "subprocess.Popen[bytes]":
        """Open the program; blocks of its loop are written down."""
        words = [str(self.home / "blocks"), str(faster), *map(str, paths)]
        return self._start(sys.executable, "-m", "tests.driven.program", *words)

    def blocks(self, since_s: float, until_s: float) -> list[Block]:
        """What kept the window's loop from turning, between two moments of the monotonic clock."""
        path = self.home / "blocks"
        lines = path.read_text(encoding="utf-8").splitlines() if path.exists() else []
        found = [Block(*map(float, line.split())) for line in lines if line.count(" ") == 3]
        return [block for block in found if since_s <= block.ended_s <= until_s]

    def press(self, *keys: str) -> None:
        """Press keys, one after the other, as X names them: ``ctrl+o``, ``Tab``, ``Return``."""
        if keys:
            self._xdotool("key", "--delay", "20", *keys)

    @contextmanager
    def holding(self, key: str) -> Iterator[None]:
        """Hold a key down meanwhile."""
        self._xdotool("keydown", key)
        try:
            yield
        finally:
            self._xdotool("keyup", key)

    def type(self, text: str) -> None:
        """Type a text."""
        self._xdotool("type", "--delay", "8", text)

    def window(self) -> str:
        """The title of the window that has the keys; empty while none has them."""
        return self._xdotool("getactivewindow", "getwindowname", check=False).strip()

    def _begin(self) -> None:
        read, write = os.pipe()
        screen = ("-screen", "0", "1366x900x24", "-nolisten", "tcp")
        self._start("Xvfb", "-displayfd", str(write), *screen, pass_fds=(write,))
        os.close(write)
        with os.fdopen(read) as told:
            self.environment["DISPLAY"] = f":{told.readline().strip()}"
        bus = f"unix:path={self._room / 'bus'}"
        self._start("dbus-daemon", "--session", "--nofork", "--nopidfile", f"--address={bus}")
        self.environment["DBUS_SESSION_BUS_ADDRESS"] = bus
        until((self._room / "bus").exists, "the session's bus")
        self._start("openbox", "--sm-disable")
        until(self._managed, "the window manager")

    def _managed(self) -> bool:
        done = subprocess.run(
            ["xdotool", "get_desktop"], env=self.environment, capture_output=True, check=False
        )
        return done.returncode == 0

    def _start(self, *words: str, pass_fds: tuple[int, ...] = ()) -> "subprocess.Popen[bytes]":
        log = (self.home / f"{Path(words[0]).name}.log").open("ab")
        self._ending.callback(log.close)
        process = subprocess.Popen(
            words, cwd=ROOT, env=self.environment, stdout=log, stderr=log, pass_fds=pass_fds
        )
        self._ending.callback(_end, process)
        return process

    def _xdotool(self, *words: str, check: bool = True) -> str:
        done = subprocess.run(
            ["xdotool", *words],
            env=self.environment,
            capture_output=True,
            text=True,
            timeout=_LONGEST_S,
            check=check,
        )
        return done.stdout


def until(true: Callable[[], object], what: str, longest_s: float = _LONGEST_S) -> None:
    """Wait until something is so.

    Raises
    ------
    TimeoutError
        It does not come to be.
    """
    end = time.monotonic() + longest_s
    while not true():
        if time.monotonic() > end:
            raise TimeoutError(what)
        time.sleep(0.05)


def _end(process: "subprocess.Popen[bytes]") -> None:
    process.terminate()
    try:
        process.wait(10.0)
    except subprocess.TimeoutExpired:
        process.kill()
        process.wait()
