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
_CHANNELS = {0: 1, 1: 1, 2: 3, 5: 4}  # white is zero, black is zero, colour, inks
_SENSOR = 32803
_FAX = (2, 3, 4)
_PREMULTIPLIED = 1
_IN_PLANES = 2
_AT_ONCE = 16_000_000  # bytes
_CLEAR = (1, 2)


def tiff_heading(data: bytes) -> Heading:
    """Heading of the first page of a TIFF picture."""
    from tifffile import TiffFile

    with BytesIO(data) as stream, TiffFile(stream) as file:
        page = file.pages.first
        pages = len(file.pages)
    if _RAW_VERSION in page.tags or page.photometric == _SENSOR:
        raise PictureError(
            say(
                "The file holds what a camera's sensor saw, not a finished picture. "
                "Nothing was changed. Develop it, save it as TIFF or JPEG and open that."
            )
        )
    if page.photometric not in _CHANNELS or page.compression in _FAX:
        return plain_heading(data, "TIFF")
    tag = page.tags.get(_ORIENTATION)
    return Heading(
        width=page.imagewidth,
        height=page.imagelength,
        depth=page.bitspersample,
        decoded_bytes=0 if page.is_final else page.nbytes,
        orientation=int(tag.value) if tag is not None and tag.value in range(1, 9) else 1,
        notes=notes_of_number(pages),
        decode=lambda: _decoded(data),
    )


def _decoded(data: bytes) -> Strips:
    from tifffile import TiffFile

    with BytesIO(data) as stream, TiffFile(stream) as file:
        page = file.pages.first
        samples = _samples(page, data)
    channels = _CHANNELS[page.photometric]
    clear = len(page.extrasamples) > 0 and page.extrasamples[0] in _CLEAR
    if samples.shape[-1] < channels + clear or samples.dtype.kind not in "uf":
        raise PictureError(
            say(
                "The samples of the TIFF file are of a kind that cannot be shown. "
                "Nothing was changed. Save it with 8 or 16 bits a channel and open it again."
            )
        )
    if samples.dtype.kind == "f":
        return floating_strips(samples, channels, clear=clear)
    return whole_number_strips(
        samples,
        page.bitspersample,
        channels,
        page.iccprofile or b"",
        clear=clear,
        white_is_zero=page.photometric == 0,
        premultiplied=clear and page.extrasamples[0] == _PREMULTIPLIED,
    )


def _samples(page: "TiffPage", data: bytes) -> Samples:
    """The page as (height, width, samples), however it is stored."""
    if page.is_final and page.dtype is not None:  # it lies in the file as it is wanted
        kind = page.dtype.newbyteorder(page.parent.byteorder)
        stored = np.frombuffer(data, kind, prod(page.shape), page.dataoffsets[0])
        samples = stored.reshape(page.shape)
    else:
        samples = page.asarray(buffersize=_AT_ONCE)
    if page.samplesperpixel == 1:
        return samples.reshape(page.imagelength, page.imagewidth, 1)
    if page.planarconfig == _IN_PLANES:
        samples = np.moveaxis(samples, 0, -1)
    return samples.reshape(page.imagelength, page.imagewidth, page.samplesperpixel)
