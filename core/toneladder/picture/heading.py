"""A picture whose heading is read and whose pixels are not decoded yet."""

from collections.abc import Callable
from dataclasses import dataclass

from toneladder.picture.light import Light

Strips = Callable[[int, int], Light]
"""Light of the stored rows from one number up to another."""


@dataclass(frozen=True, slots=True, eq=False)
class Heading:
    """What a file says of its picture before anything is decoded.

    ``width`` and ``height`` are pixels as stored, before ``orientation`` (1 to 8, as cameras
    write it) is applied. ``decode`` gives strips of a raster with every ``part``-th pixel along
    both sides, and holds ``decoded_bytes`` in memory.
    """

    width: int
    height: int
    depth: int
    decoded_bytes: int
    orientation: int
    notes: tuple[str, ...]
    decode: Callable[[], Strips]
    part: int = 1


def kind_of(data: bytes) -> str | None:
    """Kind of picture by its first bytes, whatever its name ends in; None if it is none."""
    starts = {
        "JPEG": (b"\xff\xd8\xff",),
        "PNG": (b"\x89PNG\r\n\x1a\n",),
        "TIFF": (b"II*\0", b"MM\0*", b"II+\0", b"MM\0+"),
        "GIF": (b"GIF87a", b"GIF89a"),
        "BMP": (b"BM",),
    }
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return "WebP"
    return next((kind for kind, marks in starts.items() if data.startswith(marks)), None)
