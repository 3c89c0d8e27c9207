"""Puts finished files into their folder: all of them, or it is as it was."""

import os
import tempfile
from collections.abc import Collection
from errno import EISDIR
from pathlib import Path

from toneladder.errors import OutputError
from toneladder.refusals import reason_of
from toneladder.wording import say
from toneladder.writing import settle, take_over

UNFINISHED = ".toneladder-unfinished-"
"""How the names begin of folders that are there only while something is written."""

_OLDER = "replaced-"
"""Not hidden: if the power fails while files are moved, the older ones lie in plain sight."""


def appear_as(folder: Path, finished: Path) -> None:
    """Give a folder of finished files the name of one that is not there yet.

    Raises
    ------
    OSError
        It cannot have that name.
    """
    for path in finished.iterdir():
        settle(path)
    mask = os.umask(0)
    os.umask(mask)
    finished.chmod(0o777 & ~mask)
    finished.rename(folder)
    settle(folder.parent)


def put_in(folder: Path, finished: Path, instead_of: Collection[str] = ()) -> None:
    """Move the finished files into ``folder``; older ones of their names, or those named, go.

    Whatever fails, what was moved is moved back.

    Raises
    ------
    OSError
        A file cannot be moved; all is as it was.
    OutputError
        Nor could another be moved back; says which are new.
    """
    names = sorted(path.name for path in finished.iterdir())
    for name in names:
        if (folder / name).is_dir():
            raise OSError(EISDIR, os.strerror(EISDIR))
        settle(finished / name)
        take_over(folder / name, finished / name)
    older = [name for name in sorted({*names, *instead_of}) if os.path.lexists(folder / name)]
    aside = Path(tempfile.mkdtemp(prefix=_OLDER, dir=folder))
    moved: list[tuple[Path, Path]] = []
    ways = [(folder / name, aside / name) for name in older]
    ways += [(finished / name, folder / name) for name in names]
    try:
        for here, there in ways:
            here.rename(there)
            moved.append((here, there))
        settle(folder)
    except BaseException as fault:
        _take_back(folder, aside, moved, fault)
        raise
    for name in older:
        (aside / name).unlink(missing_ok=True)
    aside.rmdir()


def _take_back(
    folder: Path, aside: Path, moved: list[tuple[Path, Path]], fault: BaseException
) -> None:
    while moved:
        here, there = moved[-1]
        try:
            there.rename(here)
        except OSError:
            new = [there.name for _, there in moved if there.parent == folder]
            raise OutputError(
                say(
                    "Not all files could be put into {folder} ({reason}). New are: {new}. The "
                    "older ones lie in {aside}, unchanged. Move them back, or make room and try "
                    "again.",
                    folder=folder,
                    reason=reason_of(fault),
                    new=", ".join(new) or say("none"),
                    aside=aside,
                )
            ) from fault
        moved.pop()
    aside.rmdir()
