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
from toneladder.refusals import reason_of
from toneladder.wording import say

_NAME = 40
"""Letters of a file's name that its unfinished copy bears too."""

_END = ".unfinished"
OLD_S = 86_400.0
"""What was begun so long ago is finished by nobody any more."""


def write_whole(path: Path, write: Callable[[BinaryIO], object]) -> None:
    """Let ``write`` fill a new file, then put it in the place of ``path``, or leave all as it was.

    What was written through a symbolic link lies where the link points. Mode, owner and group of
    the file that is replaced are kept, as far as who writes may give them. What a writer that was
    killed a day ago or earlier left beside the file is cleared away.

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
        place = true_place(path)
        prefix = f".{place.name[:_NAME]}-"
        handle, name = tempfile.mkstemp(prefix=prefix, suffix=_END, dir=place.parent)
        unfinished = Path(name)
        try:
            with os.fdopen(handle, "wb") as file:
                write(file)
                file.flush()
                os.fsync(file.fileno())
            take_over(place, unfinished)
            unfinished.replace(place)
        except BaseException:
            unfinished.unlink(missing_ok=True)
            raise
        settle(place.parent)
        for left in left_behind(place.parent, place, prefix, _END):
            with suppress(OSError):
                left.unlink()


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
                reason=reason_of(fault),
            )
        ) from fault


def true_place(path: Path) -> Path:
    """Where a file of that name lies in truth: behind every symbolic link.

    Raises
    ------
    OSError
        Links lead in a circle, or there is a folder, a pipe or a device.
    """
    with suppress(FileNotFoundError):
        if not stat.S_ISREG(path.stat().st_mode):
            raise OSError(EINVAL, say("it is not a file"))
    return Path(os.path.realpath(path))


def take_over(older: Path, newer: Path) -> None:
    """Give a new file the mode, owner and group of the one it replaces, or those of any new file.

    A group that may not be given does not get its rights either: what others may is all that
    the new file's own group may.
    """
    try:
        about = older.stat()
    except FileNotFoundError:
        mask = os.umask(0)
        os.umask(mask)
        newer.chmod(0o666 & ~mask)
        return
    mode, own = about.st_mode & 0o777, newer.stat()
    if hasattr(os, "chown"):
        if about.st_gid != own.st_gid and not _given(newer, -1, about.st_gid):
            mode &= 0o707 | (mode & 0o007) << 3
        if about.st_uid != own.st_uid:
            _given(newer, about.st_uid, -1)
    newer.chmod(mode)


def settle(path: Path) -> None:
    """Have a file, or a folder's own entries, on the disk, where the system has such a thing."""
    if os.name != "posix":
        return
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def left_behind(folder: Path, newest: Path, prefix: str, end: str = "") -> Iterator[Path]:
    """What we began in ``folder`` under such a name, a day before ``newest`` was written or more.

    Both times are those of the disk that they lie on, whatever clock it goes by.
    """
    me = os.geteuid() if hasattr(os, "geteuid") else 0
    with suppress(OSError):
        now = newest.stat().st_mtime
        for path in folder.iterdir():
            if path.name.startswith(prefix) and path.name.endswith(end):
                with suppress(OSError):
                    about = path.lstat()
                    if now - about.st_mtime > OLD_S and about.st_uid == me:
                        yield path


def _given(path: Path, owner: int, group: int) -> bool:
    try:
        os.chown(path, owner, group)
    except OSError:
        return False
    return True
