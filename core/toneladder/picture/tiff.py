"""TIFF pictures: scans and exports, of any depth."""

from io import BytesIO
from math import prod
from typing import TYPE_CHECKING

import numpy as np

from toneladder.errors import PictureError
from toneladder.picture.heading import Heading, Strips
from toneladder.picture.light import Samples
from toneladder.picture.plain import notes_of_number, plain_heading
from toneladder.picture.samples import floating_strips, whole_number_strips
from toneladder.wording import say

if TYPE_CHECKING:
    from tifffile import TiffPage

_ORIENTATION = 274
_RAW_VERSION = 50706
_SENSOR = 32803
_WHITE_IS_ZERO, _BLACK_IS_ZERO, _COLOUR, _INKS = 0, 1, 2, 5
_CHANNELS = {_WHITE_IS_ZERO: 1, _BLACK_IS_ZERO: 1, _COLOUR: 3, _INKS: 4}
_KNOWN_LENGTH = (1, 8, 32773, 32946)  # packings that cannot grow past the page's own size
_LZW = 5
_PREMULTIPLIED, _CLEAR = 1, (1, 2)
_IN_PLANES = 2
_AT_ONCE = 16_000_000  # bytes


def tiff_heading(data: bytes) -> Heading:
    """Heading of the first page of a TIFF picture.

    References
    ----------
    [TIFF6] Numbers of tags, packings and kinds of samples.
    """
    from tifffile import TiffFile

    with BytesIO(data) as stream, TiffFile(stream) as file:
        return _heading(file.pages.first, len(file.pages), data)


def _heading(page: "TiffPage", pages: int, data: bytes) -> Heading:
    sides = (page.imagewidth, page.imagelength, page.samplesperpixel, page.bitspersample)
    if not all(isinstance(side, int) and side > 0 for side in sides):
        raise ValueError(sides)
    if _RAW_VERSION in page.tags or page.photometric == _SENSOR:
        raise PictureError(
            say(
                "The file holds what a camera's sensor saw, not a finished picture. "
                "Nothing was changed. Develop it, save it as TIFF or JPEG and open that."
            )
        )
    if not _is_readable(page):
        if page.bitspersample <= 8:
            return plain_heading(data, "TIFF")
        raise PictureError(
            say(
                "The samples of the TIFF file are of a kind that cannot be read. "
                "Nothing was changed. Save it with 8 or 16 bits a channel and open it again."
            )
        )
    return Heading(
        width=page.imagewidth,
        height=page.imagelength,
        depth=page.bitspersample,
        decoded_bytes=0 if page.is_final else page.nbytes,
        orientation=_orientation(page),
        notes=notes_of_number(pages),
        decode=lambda: _decoded(data),
    )


def _is_readable(page: "TiffPage") -> bool:
    """Whether the samples can be had as they are."""
    channels = _CHANNELS.get(page.photometric)
    if channels is None or page.dtype is None or page.dtype.kind not in "buf":
        return False
    if page.samplesperpixel < channels + _is_clear(page):
        return False
    deep_lzw = page.compression == _LZW and page.bitspersample > 8 and channels < 4
    return page.compression in _KNOWN_LENGTH or deep_lzw


def _is_clear(page: "TiffPage") -> bool:
    return len(page.extrasamples) > 0 and page.extrasamples[0] in _CLEAR


def _orientation(page: "TiffPage") -> int:
    tag = page.tags.get(_ORIENTATION)
    return int(tag.value) if tag is not None and tag.value in range(1, 9) else 1


def _decoded(data: bytes) -> Strips:
    from tifffile import TiffFile

    with BytesIO(data) as stream, TiffFile(stream) as file:
        page = file.pages.first
        samples = _samples(page, data)
        channels, clear = _CHANNELS[page.photometric], _is_clear(page)
        if samples.dtype.kind == "f":
            return floating_strips(samples, channels, clear=clear)
        return whole_number_strips(
            samples,
            page.bitspersample,
            channels,
            page.iccprofile or b"",
            clear=clear,
            white_is_zero=page.photometric == _WHITE_IS_ZERO,
            premultiplied=clear and page.extrasamples[0] == _PREMULTIPLIED,
        )


def _samples(page: "TiffPage", data: bytes) -> Samples:
    """The page as (height, width, samples), however it is stored."""
    if page.is_final and page.dtype is not None:  # it lies in the file as it is wanted
        kind = page.dtype.newbyteorder(page.parent.byteorder)
        stored = np.frombuffer(data, kind, prod(page.shape), page.dataoffsets[0])
        samples = stored.reshape(page.shape)
    elif page.compression == _LZW:
        import imagecodecs

        # the page's own decoder does not survive every damaged file
        samples = imagecodecs.tiff_decode(data, index=0)
    else:
        samples = page.asarray(buffersize=_AT_ONCE)
    if page.samplesperpixel == 1:
        return samples.reshape(page.imagelength, page.imagewidth, 1)
    if page.planarconfig == _IN_PLANES:
        samples = np.moveaxis(samples, 0, -1)
    return samples.reshape(page.imagelength, page.imagewidth, page.samplesperpixel)
