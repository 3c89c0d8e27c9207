"""Files written whole or not at all."""

import os
import stat
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from errno import EINVAL
from pathlib import Path
from typing import BinaryIO

from toneladder.errors import OutputError
from toneladder.wording import say


def write_whole(path: Path, write: Callable[[BinaryIO], object]) -> None:
    """Let ``write`` fill a new file, then put it in the place of ``path``, or leave all as it was.

    Parameters
    ----------
    path : Path
        The file; an older one of that name is replaced only when the new one is on the disk.
    write : callable
        Gets the file, open for bytes.

    Raises
    ------
    OutputError
        If the file cannot be written; what was there before is still there.
    """
    with said_plainly(path):
        _require_replaceable(path)
        handle, name = tempfile.mkstemp(prefix=f".{path.name[:40]}-", dir=path.parent)
        unfinished = Path(name)
        try:
            with os.fdopen(handle, "wb") as file:
                write(file)
                file.flush()
                os.fsync(file.fileno())
            unfinished.chmod(_mode(path))
            unfinished.replace(path)
        except BaseException:
            unfinished.unlink(missing_ok=True)
            raise
        _settle(path.parent)


@contextmanager
def said_plainly(path: Path) -> Iterator[None]:
    """Turn what the system says about ``path`` into a sentence."""
    try:
        yield
    except OutputError:
        raise
    except OSError as fault:
        raise OutputError(
            say(
                "{name} could not be written ({reason}). What was there before is unchanged. "
                "Choose another folder, or make room, and save again.",
                name=path.name,
                reason=fault.strerror or fault,
            )
        ) from fault


def _require_replaceable(path: Path) -> None:
    """Refuse to put a file in the place of a folder, a pipe or a device."""
    with suppress(FileNotFoundError):
        if not stat.S_ISREG(path.stat().st_mode):
            raise OSError(EINVAL, say("it is not a file"))


def _mode(path: Path) -> int:
    """The mode of the file that is replaced, or what a new file gets."""
    try:
        return path.stat().st_mode & 0o777
    except FileNotFoundError:
        mask = os.umask(0)
        os.umask(mask)
        return 0o666 & ~mask


def _settle(folder: Path) -> None:
    """Flush the folder's own entry, where the system has such a thing."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
