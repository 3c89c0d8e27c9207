"""Kills a writer at random moments, and between every two things it asks of the system:

python -m tests.kills.killing 1000

With ``--traced``, where there is a strace, also at every call that changes a file.
"""

import os
import random
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication
from tests.hostile.long import _environment
from tests.kills.acts import ACTS, Act

if TYPE_CHECKING:
    from _typeshed import HasFileno

_LONGEST_S = 0.08
_MOST_CALLS = 200
_AUDITED = ("open", "os.", "tempfile.", "shutil.")
_UNHEARD = ("settings", "book", "tank")
"""Acts that write where Python does not hear of it."""

_ROOT = Path(__file__).parents[2]
CALLS = (
    "write,pwrite64,writev,pwritev,fsync,fdatasync,rename,renameat,renameat2,link,linkat,unlink,"
    "unlinkat,chmod,fchmod,fchmodat,chown,fchown,fchownat,mkdir,mkdirat,rmdir,ftruncate,utimensat"
)
"""Everything by which a file is changed."""

_CALL = re.compile(r"(?:\d+ +)?(\w+)\(")

_SAVE = """
import sys
from pathlib import Path
from tests.kills.acts import ACTS
act = next(act for act in ACTS if act.name == sys.argv[1])
act.save(Path(sys.argv[2]), 2)
"""


def forked(work: object, *words: object) -> int:
    """Run ``work(*words)`` in a fork of this process, and return how it ended, as ``waitpid``."""
    child = os.fork()
    if child == 0:
        status = 1
        try:
            work(*words)  # type: ignore[operator] # a function of our own
            status = 0
        finally:
            os._exit(status)
    return os.waitpid(child, 0)[1]


def kill_at_random(act: Act, times: int, seed: int) -> dict[str, int]:
    """Kill a writer that saves one version after the other; what was found after each kill.

    Raises
    ------
    AssertionError
        What lies there cannot be read, or is neither of the versions, or is gone.
    """
    chance = random.Random(f"{seed} {act.name}")  # noqa: S311 (a seeded trial, no secret)
    found = {"old": 0, "new": 0}
    folder = Path(tempfile.mkdtemp())
    try:
        act.save(folder, 1)
        _require(act.found(folder) == 1)
        for _ in range(times):
            before = act.found(folder)
            writer = os.fork()
            if writer == 0:
                _save_on(act, folder, 3 - (before or 1))
            time.sleep(chance.uniform(0.0, _LONGEST_S))
            os.kill(writer, signal.SIGKILL)
            os.waitpid(writer, 0)
            after = act.found(folder)
            _require(after in (1, 2))
            found["old" if after == before else "new"] += 1
    finally:
        shutil.rmtree(folder, ignore_errors=True)
    return found


def kill_between_calls(act: Act) -> dict[str, int]:
    """Kill one saving of version two at its first, second … call of the system, to the last.

    Raises
    ------
    AssertionError
        As for :func:`kill_at_random`; or nothing was ever killed.
    """
    found = {"old": 0, "new": 0}
    for number in range(_MOST_CALLS):
        with saved_once(act) as folder:
            status = forked(_save_until, act, folder, number)
            after = act.found(folder)
            if os.WIFEXITED(status):
                _require(os.WEXITSTATUS(status) == 0 and after == 2 and number > 0)
                return found
            _require(os.WTERMSIG(status) == signal.SIGKILL and after in (1, 2))
            found["old" if after == 1 else "new"] += 1
    raise AssertionError(act.name)


def kill_at_calls(act: Act) -> list[int]:
    """Kill a saving of version two as it makes each of its calls; what was found each time.

    Raises
    ------
    AssertionError
        As for :func:`kill_at_random`, or a call that was made before is not made again.
    """
    found: list[int] = []
    for call, number in calls_of(act):
        with saved_once(act) as folder:
            status = traced(folder, act.name, f"inject={call}:signal=KILL:when={number}")
            _require(status in (-signal.SIGKILL, 128 + signal.SIGKILL))
            after = act.found(folder)
            _require(after in (1, 2))
            found.append(after or 0)
    return found


def calls_of(act: Act) -> list[tuple[str, int]]:
    """Every call by which a saving of version two changes files, and the how-manieth of its name.

    Raises
    ------
    AssertionError
        No process may be traced here, or nothing is saved.
    """
    with saved_once(act) as folder, tempfile.NamedTemporaryFile("r") as log:
        _require(traced(folder, act.name, f"trace={CALLS}", log.name) == 0)
        _require(act.found(folder) == 2)
        names = [call[1] for line in log if (call := _CALL.match(line)) and "resumed" not in line]
    return [(name, names[: at + 1].count(name)) for at, name in enumerate(names)]


@contextmanager
def saved_once(act: Act) -> Iterator[Path]:
    """A folder with version one in it."""
    folder = Path(tempfile.mkdtemp())
    try:
        act.save(folder, 1)
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def traced(folder: Path, name: str, wish: str, log: str = os.devnull) -> int:
    """Save version two under a trace that does what is wished, and tells of it in a log."""
    words = ["strace", "-f", "-qq", "-o", log, "-e", f"trace={CALLS}", "-e", wish]
    run = [sys.executable, "-c", _SAVE, name, str(folder)]
    done = subprocess.run(
        [*words, *run], cwd=_ROOT, env=_environment(), capture_output=True, check=False
    )
    return done.returncode


def _save_on(act: Act, folder: Path, version: int) -> None:
    try:
        while True:
            act.save(folder, version)
            version = 3 - version
    finally:
        os._exit(1)


def _save_until(act: Act, folder: Path, number: int) -> None:
    """Save version two, but die at call ``number`` of those that ask something of the disk."""
    calls = 0
    syncing = os.fsync

    def count() -> None:
        nonlocal calls
        calls += 1
        if calls == number + 1:
            os.kill(os.getpid(), signal.SIGKILL)

    def heard(event: str, _words: object) -> None:
        if event.startswith(_AUDITED):
            count()

    def synced(fd: "int | HasFileno") -> None:
        count()
        syncing(fd)
        count()

    os.fsync = synced
    sys.addaudithook(heard)
    act.save(folder, 2)


def _require(truth: bool) -> None:
    if not truth:
        raise AssertionError


def main() -> None:
    """Kill as often as asked, shared out over all acts."""
    _app = QCoreApplication([])  # what is kept at every rest has a timer
    words = [word for word in sys.argv[1:] if word != "--traced"]
    times, seed = int(words[0]), int(words[1]) if len(words) > 1 else 1
    total = 0
    for act in ACTS:
        calls = {"old": 0, "new": 0}
        if act.name not in _UNHEARD:
            calls = kill_between_calls(act)
        found = kill_at_random(act, -(-times // len(ACTS)), seed)
        total += sum(calls.values()) + sum(found.values())
        sys.stdout.write(f"{act.name}: between calls {calls}, at random {found}")
        if "--traced" in sys.argv:
            ends = kill_at_calls(act)
            total += len(ends)
            sys.stdout.write(f", at calls of the system {ends.count(1)} old, {ends.count(2)} new")
        sys.stdout.write("\n")
        sys.stdout.flush()
    sys.stdout.write(f"killed {total} times, nothing lost\n")


if __name__ == "__main__":
    main()
