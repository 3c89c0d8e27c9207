"""The plate's file: a zip with its kind first, the decisions as text, the picture untouched."""

import hashlib
import stat
import struct
import zipfile
import zlib
from dataclasses import dataclass, field
from pathlib import Path
from typing import BinaryIO

from toneladder.bite.values import BiteCurve
from toneladder.errors import PlateFileError
from toneladder.plate.record import LONGEST_TEXT, read_record, write_record
from toneladder.plate.values import Plate
from toneladder.refusals import reason_of
from toneladder.wording import say
from toneladder.writing import write_whole

SUFFIX = ".plate"
KIND = b"application/x-toneladder-plate"
LARGEST_PICTURE = 1_500_000_000
_LIMITS = {
    "mimetype": 200,
    "plate.json": LONGEST_TEXT,
    "picture": LARGEST_PICTURE,
    "preview.png": 100_000_000,
}
_ZIP_FAULTS = (
    OSError,
    EOFError,
    ValueError,
    OverflowError,
    NotImplementedError,
    RuntimeError,
    struct.error,
    zlib.error,
)
_SAME_TIME = (1980, 1, 1, 0, 0, 0)


@dataclass(frozen=True, slots=True)
class PlateFile:
    """Everything a plate's file holds.

    ``picture`` is the original file's bytes, unchanged; ``preview`` a PNG of the print, or empty.
    """

    plate: Plate
    curve: BiteCurve
    picture: bytes = field(repr=False)
    preview: bytes = field(default=b"", repr=False)


def write_plate(path: Path, content: PlateFile) -> None:
    """Write ``content`` to ``path``, whole or not at all.

    Raises
    ------
    OutputError
        If it cannot be written; an older file of that name is unchanged.
    """
    write_whole(path, lambda file: _write(file, content))


def _write(file: BinaryIO, content: PlateFile) -> None:
    with zipfile.ZipFile(file, "w") as archive:
        record = write_record(content.plate, content.curve).encode()
        _put(archive, "mimetype", KIND)
        _put(archive, "plate.json", record, zipfile.ZIP_DEFLATED)
        if content.preview:
            _put(archive, "preview.png", content.preview)
        _put(archive, "picture", content.picture)


def _put(archive: zipfile.ZipFile, name: str, data: bytes, how: int = zipfile.ZIP_STORED) -> None:
    info = zipfile.ZipInfo(name, _SAME_TIME)
    info.compress_type = how
    archive.writestr(info, data)


def read_plate(path: Path) -> PlateFile:
    """What a plate's file holds.

    Raises
    ------
    PlateFileError
        Not a plate, cut off, damaged, from a later version, or larger inside than any plate.
    """
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            raise _not_a_plate(path)
        with zipfile.ZipFile(path) as archive:
            members = _members(archive)
            if members.get("mimetype") != KIND:
                raise _not_a_plate(path)
            missing = {"plate.json", "picture"} - members.keys()
            if missing:
                raise _damaged(path, say("{name} is missing in it", name=min(missing)))
            record = read_record(_text(path, members["plate.json"]))
    except PlateFileError:
        raise
    except FileNotFoundError as fault:
        raise PlateFileError(
            say("There is no file {name}. Check its name, or look for it.", name=path.name)
        ) from fault
    except PermissionError as fault:
        raise PlateFileError(
            say(
                "{name} cannot be opened ({reason}). Nothing was changed. Check its name and"
                " place.",
                name=path.name,
                reason=reason_of(fault),
            )
        ) from fault
    except zipfile.BadZipFile as fault:
        raise _not_a_plate(path) from fault
    except _ZIP_FAULTS as fault:
        raise _damaged(path, reason_of(fault)) from fault
    picture = members["picture"]
    if hashlib.sha256(picture).hexdigest() != record.plate.picture.sha256:
        raise _damaged(path, say("the picture in it is not the one it was saved with"))
    return PlateFile(record.plate, record.curve, picture, members.get("preview.png", b""))


def _members(archive: zipfile.ZipFile) -> dict[str, bytes]:
    """The known members, each read no further than its limit; anything else is refused."""
    found: dict[str, bytes] = {}
    for info in archive.infolist():
        limit = _LIMITS.get(info.filename)
        how = zipfile.ZIP_DEFLATED if info.filename == "plate.json" else zipfile.ZIP_STORED
        if limit is None or info.filename in found or info.file_size > limit:
            raise zipfile.BadZipFile(info.filename[:80])
        if info.compress_type not in {how, zipfile.ZIP_STORED}:
            raise zipfile.BadZipFile(info.filename[:80])
        with archive.open(info) as member:
            found[info.filename] = member.read(limit + 1)
        if len(found[info.filename]) != info.file_size:
            raise zipfile.BadZipFile(info.filename)
    return found


def _text(path: Path, data: bytes) -> str:
    try:
        return data.decode()
    except UnicodeDecodeError as fault:
        raise _damaged(path, say("its text is not UTF-8")) from fault


def _not_a_plate(path: Path) -> PlateFileError:
    return PlateFileError(
        say(
            "{name} is not a whole plate file: it is cut off, damaged or something else, such as "
            "a picture or a strip. It was left as it is; open the plate, or an older copy of it.",
            name=path.name or path,
        )
    )


def _damaged(path: Path, reason: str) -> PlateFileError:
    return PlateFileError(
        say(
            "{name} is damaged: {reason}. It was left as it is; open an older copy.",
            name=path.name,
            reason=reason,
        )
    )
