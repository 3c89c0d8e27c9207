"""A picture file becomes light: linear luminance, upright, over white paper."""

import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from toneladder.errors import PictureError
from toneladder.picture.heading import Heading, Strips, kind_of
from toneladder.picture.light import Light
from toneladder.picture.values import PictureRef
from toneladder.wording import say

MOST_MEGAPIXELS = 400.0
MOST_BYTES = 1_000_000_000
_KEPT_WHOLE = 128_000_000
_STRIP_PIXELS = 400_000


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
    data = _bytes_of(source, name)
    with _sentences(name):
        heading = _heading(data, name)
        _check_limits(heading, name, limit_megapixels)
        light, notes = _gathered(heading, heading.decode())
    seen = _upright(np.broadcast_to(np.uint8(0), (heading.height, heading.width)), heading)
    ref = PictureRef(
        sha256=sha256(data).hexdigest(),
        name=name,
        width=seen.shape[1] * heading.reduction,
        height=seen.shape[0] * heading.reduction,
        depth=heading.depth,
    )
    return Picture(ref, light, heading.notes + notes)


def _bytes_of(source: Path | bytes, name: str) -> bytes:
    try:
        data = source if isinstance(source, bytes) else source.read_bytes()
    except OSError as error:
        raise PictureError(
            say(
                "{name} cannot be read: {reason}. Nothing was changed. "
                "See that the file is there and may be opened, or choose another.",
                name=name,
                reason=error.strerror or type(error).__name__,
            )
        ) from error
    if not data:
        raise PictureError(
            say("{name} is empty. Nothing was changed. Choose another file.", name=name)
        )
    return data


@contextmanager
def _sentences(name: str) -> Iterator[None]:
    """Whatever a decoder says of a damaged file, a person reads one sentence."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            yield
    except PictureError:
        raise
    except Exception as error:
        raise PictureError(
            say(
                "{name} is damaged or cut off and cannot be read. Nothing was changed. "
                "Copy or save the picture again, or choose another.",
                name=name,
            )
        ) from error


def _heading(data: bytes, name: str) -> Heading:
    from toneladder.picture.deep import deep_png_heading, png_is_deep
    from toneladder.picture.plain import plain_heading

    kind = kind_of(data)
    if kind is None:
        raise PictureError(
            say(
                "{name} is not a JPEG, PNG, TIFF, WebP, BMP or GIF picture. Nothing was changed. "
                "Save it as one of these and open it again.",
                name=name,
            )
        )
    if kind == "PNG" and png_is_deep(data):
        return deep_png_heading(data)
    return plain_heading(data, kind, MOST_BYTES)


def _check_limits(heading: Heading, name: str, limit_megapixels: float) -> None:
    megapixels = heading.width * heading.height * heading.reduction**2 / 1e6
    if megapixels > limit_megapixels:
        raise PictureError(
            say(
                "{name} has {found:,.0f} megapixels and the limit is {limit:,.0f}. "
                "Nothing was changed. Make the picture smaller and open it again.",
                name=name,
                found=megapixels,
                limit=limit_megapixels,
            )
        )
    if heading.decoded_bytes > MOST_BYTES:
        raise PictureError(
            say(
                "{name} would take {found:,.0f} MB of memory and the limit is {limit:,.0f} MB. "
                "Nothing was changed. Make the picture smaller and open it again.",
                name=name,
                found=heading.decoded_bytes / 1e6,
                limit=MOST_BYTES / 1e6,
            )
        )


def _gathered(heading: Heading, strips: Strips) -> tuple[Light, tuple[str, ...]]:
    """The whole picture upright, written strip by strip straight into its place."""
    halved = heading.width * heading.height > _KEPT_WHOLE
    step = 2 if halved else 1
    width, height = -(-heading.width // step), -(-heading.height // step)
    sideways = heading.orientation > 4
    light = np.empty((width, height) if sideways else (height, width), np.uint16)
    stored = _upright(light, heading, back=True)
    rows = max(16, _STRIP_PIXELS // heading.width // step * step)
    for start in range(0, heading.height, rows):
        strip = strips(start, min(start + rows, heading.height))
        piece = _halved(strip) if halved else strip
        stored[start // step : start // step + len(piece)] = piece
    light.flags.writeable = False
    parts = step * heading.reduction
    if parts == 1:
        return light, ()
    return light, (say("The picture is very large; it is read at 1/{n} of its size.", n=parts),)


def _upright(pixels: NDArray, heading: Heading, *, back: bool = False) -> NDArray:
    """A view of stored pixels as they are meant to be seen, or (``back``) the other way."""
    transposed, upside, left = {
        1: (False, False, False),
        2: (False, False, True),
        3: (False, True, True),
        4: (False, True, False),
        5: (True, False, False),
        6: (True, False, True),
        7: (True, True, True),
        8: (True, True, False),
    }[heading.orientation]
    flips = (slice(None, None, -1 if upside else 1), slice(None, None, -1 if left else 1))
    if back:
        flipped = pixels[flips]
        return flipped.T if transposed else flipped
    return (pixels.T if transposed else pixels)[flips]


def _halved(strip: Light) -> Light:
    """Means of two by two pixels; a last odd row or column is taken twice."""
    height, width = strip.shape
    padded = np.pad(strip, ((0, height % 2), (0, width % 2)), mode="edge").astype(np.uint32)
    total = padded[0::2, 0::2] + padded[1::2, 0::2] + padded[0::2, 1::2] + padded[1::2, 1::2]
    return ((total + 2) // 4).astype(np.uint16)
