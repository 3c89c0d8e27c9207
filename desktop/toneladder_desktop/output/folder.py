"""A folder of files: all of them are written, or it is left as it was."""

import shutil
import tempfile
from collections.abc import Collection, Iterator
from contextlib import contextmanager
from pathlib import Path

from toneladder.errors import OutputError
from toneladder.wording import say
from toneladder.writing import said_plainly


def refuse_replacing(path: Path, *, replace: bool) -> None:
    """Refuse a file that is there already, unless it may be replaced.

    Raises
    ------
    OutputError
        With the sentence to show; also where nobody may look whether it is there.
    """
    with said_plainly(path):
        there = path.exists()
    if there and not replace:
        raise OutputError(
            say(
                "{name} is there already. Nothing was changed. Name another file, or say "
                "--replace.",
                name=path.name,
            )
        )


def refuse_overwriting(folder: Path, names: Collection[str]) -> None:
    """Refuse a folder that holds one of the files, or that is none.

    Raises
    ------
    OutputError
        With the sentence to show.
    """
    require_folder(folder)
    with said_plainly(folder):
        there = [name for name in names if (folder / name).exists()]
    if there:
        raise OutputError(
            say(
                "{folder} already holds {files}. Nothing was changed. Name another folder, or say "
                "--replace.",
                folder=folder,
                files=", ".join(there),
            )
        )


def require_folder(folder: Path) -> None:
    """Refuse a file in the place of a folder.

    Raises
    ------
    OutputError
        With the sentence to show.
    """
    with said_plainly(folder):
        barred = folder.exists() and not folder.is_dir()
    if barred:
        raise OutputError(
            say("{name} is a file, not a folder. Name another folder.", name=folder.name)
        )


@contextmanager
def all_or_none(folder: Path) -> Iterator[Path]:
    """Gives an empty place to fill; what was put there comes into ``folder`` at the end.

    If anything goes wrong before, ``folder`` is as it was, and gone again if it is new.

    Raises
    ------
    OutputError
        The folder cannot be written to.
    """
    with said_plainly(folder):
        new = not folder.exists()
        folder.mkdir(parents=True, exist_ok=True)
        unfinished = Path(tempfile.mkdtemp(prefix=".unfinished-", dir=folder))
        try:
            yield unfinished
            for path in sorted(unfinished.iterdir()):
                path.replace(folder / path.name)
        except BaseException:
            shutil.rmtree(unfinished, ignore_errors=True)
            if new:
                shutil.rmtree(folder, ignore_errors=True)
            raise
        unfinished.rmdir()
