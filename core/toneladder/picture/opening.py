"""A picture file becomes light: linear luminance, upright, over white paper."""

import logging
import stat
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from toneladder.errors import PictureError
from toneladder.picture.gathering import gathered, upright_sides
from toneladder.picture.heading import Heading, kind_of
from toneladder.picture.light import Light
from toneladder.picture.values import PictureRef
from toneladder.refusals import reason_of
from toneladder.wording import say

MOST_MEGAPIXELS = 400.0
MOST_DECODED = 1_000_000_000
"""Bytes that a picture may take when it is decoded."""

_MOST_FILE = 1_000_000_000
_MOST_TOGETHER = 1_600_000_000
_LONGEST_SIDE = 1_000_000
_MB = 1_000_000

for _reader in ("PIL", "tifffile"):  # what they log of a damaged file is said in one sentence
    logging.getLogger(_reader).addHandler(logging.NullHandler())


@dataclass(frozen=True, slots=True, eq=False)
class Picture:
    """A picture that has been read.

    ``light`` is linear luminance, 0 to 65535 (white), (height, width), read-only; it may have
    fewer pixels than ``ref`` says, which ``notes`` then tell.
    """

    ref: PictureRef
    light: Light
    notes: tuple[str, ...]


def open_picture(
    source: Path | bytes, *, name: str, limit_megapixels: float = MOST_MEGAPIXELS
) -> Picture:
    """Read a JPEG, PNG, TIFF, WebP, BMP or GIF picture.

    The orientation tag is applied, the embedded colour profile honoured, transparency laid
    over white paper, and 16-bit samples keep their levels. What the file is, its content
    decides, not its name.

    Parameters
    ----------
    source : Path or bytes
        The file, or what is in it.
    name : str
        What a person calls it.
    limit_megapixels : float
        Larger pictures are refused before they are decoded.

    Raises
    ------
    PictureError
        The file cannot be used; the sentence says why.

    References
    ----------
    [IEC61966-2-1] sRGB; [ICC1] profiles.
    """
    name = name.encode("utf-8", "replace").decode()  # some names of files are no text
    data = bytes_of(source, name)
    if not data:
        raise PictureError(
            say("{name} is empty. Nothing was changed. Choose another file.", name=name)
        )
    with _sentences(name):
        heading = _heading(data, name)
        _check_limits(heading, len(data), name, limit_megapixels)
        light, notes = gathered(heading, heading.decode())
    width, height = upright_sides(heading)
    ref = PictureRef(sha256(data).hexdigest(), name, width, height, heading.depth)
    return Picture(ref, light, heading.notes + notes)


def bytes_of(source: Path | bytes, name: str) -> bytes:
    """What is in a picture's file, of which ``name`` is what a person calls it.

    Raises
    ------
    PictureError
        It is no file, larger than any picture, or cannot be read.
    """
    if isinstance(source, bytes):
        return source
    try:
        about = source.stat()
        if not stat.S_ISREG(about.st_mode):
            raise PictureError(
                say("{name} is not a file. Nothing was changed. Choose a picture.", name=name)
            )
        if about.st_size > _MOST_FILE:
            raise _too_large(name, about.st_size / _MB, _MOST_FILE / _MB)
        return source.read_bytes()
    except MemoryError as error:
        raise _no_memory(name) from error
    except OSError as error:
        raise PictureError(
            say(
                "{name} cannot be read: {reason}. Nothing was changed. "
                "See that the file is there and may be opened, or choose another.",
                name=name,
                reason=reason_of(error),
            )
        ) from error


@contextmanager
def _sentences(name: str) -> Iterator[None]:
    """Whatever a decoder says of a damaged file, a person reads one sentence."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            yield
    except PictureError:
        raise
    except MemoryError as error:
        raise _no_memory(name) from error
    except ImportError as error:
        raise PictureError(
            say(
                "What reads such a picture as {name} is missing here ({reason}). Nothing was "
                "changed. Install Tone Ladder anew, and open it again.",
                name=name,
                reason=error,
            )
        ) from error
    except Exception as error:
        raise PictureError(
            say(
                "{name} is damaged or cut off and cannot be read. Nothing was changed. "
                "Copy or save the picture again, or choose another.",
                name=name,
            )
        ) from error


def _heading(data: bytes, name: str) -> Heading:
    from toneladder.picture.jpeg import jpeg_heading
    from toneladder.picture.plain import plain_heading
    from toneladder.picture.png import deep_png_heading, png_is_deep
    from toneladder.picture.tiff import tiff_heading
    from toneladder.picture.webp import webp_heading

    kind = kind_of(data)
    if kind is None:
        raise PictureError(
            say(
                "{name} is not a JPEG, PNG, TIFF, WebP, BMP or GIF picture. Nothing was changed. "
                "Save it as one of these and open it again.",
                name=name,
            )
        )
    if kind == "JPEG":
        return jpeg_heading(data, MOST_DECODED)
    if kind == "TIFF":
        return tiff_heading(data)
    if kind == "WebP":
        return webp_heading(data)
    if kind == "PNG" and png_is_deep(data):
        return deep_png_heading(data)
    return plain_heading(data, kind)


def _check_limits(heading: Heading, file_bytes: int, name: str, limit_megapixels: float) -> None:
    megapixels = heading.width * heading.height / 1e6
    if megapixels > limit_megapixels or max(heading.width, heading.height) > _LONGEST_SIDE:
        raise PictureError(
            say(
                "{name} has {width} × {height} pixels, {found} megapixels; the limit is "
                "{limit}, and {side} along a side. Nothing was changed. "
                "Make the picture smaller and open it again.",
                name=name,
                width=heading.width,
                height=heading.height,
                found=round(megapixels),
                limit=round(limit_megapixels),
                side=_LONGEST_SIDE,
            )
        )
    if heading.decoded_bytes > MOST_DECODED:
        raise _too_large(name, heading.decoded_bytes / _MB, MOST_DECODED / _MB)
    if heading.decoded_bytes + file_bytes > _MOST_TOGETHER:
        raise _too_large(name, (heading.decoded_bytes + file_bytes) / _MB, _MOST_TOGETHER / _MB)


def _too_large(name: str, found_mb: float, limit_mb: float) -> PictureError:
    return PictureError(
        say(
            "{name} takes {found} MB of memory and the limit is {limit} MB. "
            "Nothing was changed. Make the picture smaller and open it again.",
            name=name,
            found=round(found_mb),
            limit=round(limit_mb),
        )
    )


def _no_memory(name: str) -> PictureError:
    return PictureError(
        say(
            "There is not enough memory here to read {name}. Nothing was changed. "
            "Close other programs, or make the picture smaller, and open it again.",
            name=name,
        )
    )
