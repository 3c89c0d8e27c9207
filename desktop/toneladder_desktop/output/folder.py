"""A folder of files: all of them are written, or it is left as it was."""

import shutil
import tempfile
from collections.abc import Collection, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from toneladder.errors import OutputError
from toneladder.wording import say
from toneladder.writing import left_behind, said_plainly
from toneladder_desktop.output.putting import UNFINISHED, appear_as, put_in


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
def all_or_none(folder: Path, instead_of: Collection[str] = ()) -> Iterator[Path]:
    """Gives an empty place to fill; what was put there comes into ``folder`` at the end.

    A new folder appears at once, with everything in it. Into one that is there already files come
    one by one; if one of them cannot, those before it are taken back. If anything goes wrong,
    ``folder`` is as it was, and gone again if it is new.

    Parameters
    ----------
    folder : Path
        Where the files go; it may be new.
    instead_of : collection of str
        Names of older files that go when the new ones come.

    Raises
    ------
    OutputError
        The folder cannot be written to.
    """
    with said_plainly(folder):
        new = not folder.exists()
        room = folder.parent if new else folder
        with _made(room):
            unfinished = Path(tempfile.mkdtemp(prefix=UNFINISHED, dir=room))
            try:
                yield unfinished
                if new:
                    appear_as(folder, unfinished)
                else:
                    put_in(folder, unfinished, instead_of)
            finally:
                shutil.rmtree(unfinished, ignore_errors=True)
        for left in left_behind(room, folder, UNFINISHED):
            shutil.rmtree(left, ignore_errors=True)


@contextmanager
def _made(folder: Path) -> Iterator[None]:
    """Make the folder and those above it, and take them away again after a fault."""
    new = [one for one in (folder, *folder.parents) if not one.exists()]
    folder.mkdir(parents=True, exist_ok=True)
    try:
        yield
    except BaseException:
        with suppress(OSError):
            for one in new:
                one.rmdir()
        raise
