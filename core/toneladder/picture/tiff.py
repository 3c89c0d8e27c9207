"""TIFF pictures: scans and exports, of any depth."""

import logging
from io import BytesIO
from typing import TYPE_CHECKING

import numpy as np

from toneladder.errors import PictureError
from toneladder.picture.deep import floating_strips, whole_number_strips
from toneladder.picture.heading import Heading, Strips
from toneladder.picture.light import Samples
from toneladder.picture.plain import notes_of_number, plain_heading
from toneladder.wording import say

if TYPE_CHECKING:
    from tifffile import TiffPage

_ORIENTATION = 274
_RAW_VERSION = 50706
_CHANNELS = {0: 1, 1: 1, 2: 3, 5: 4}  # white is zero, black is zero, colour, inks
_SENSOR = 32803
_PREMULTIPLIED = 1
_CLEAR = (1, 2)


def tiff_heading(data: bytes, most_bytes: int) -> Heading:
    """Heading of the first page of a TIFF picture."""
    from tifffile import TiffFile

    logging.getLogger("tifffile").addHandler(logging.NullHandler())
    file = TiffFile(BytesIO(data))
    page = file.pages.first
    if _RAW_VERSION in page.tags or page.photometric == _SENSOR:
        raise PictureError(
            say(
                "The file holds what a camera's sensor saw, not a finished picture. "
                "Nothing was changed. Develop it, save it as TIFF or JPEG and open that."
            )
        )
    bits = page.bitspersample
    if page.photometric not in _CHANNELS or bits < 8:
        return plain_heading(data, "TIFF", most_bytes)
    tag = page.tags.get(_ORIENTATION)
    orientation = int(tag.value) if tag is not None and tag.value in range(1, 9) else 1
    return Heading(
        width=page.imagewidth,
        height=page.imagelength,
        depth=bits,
        decoded_bytes=page.nbytes,
        orientation=orientation,
        notes=notes_of_number(len(file.pages)),
        decode=lambda: _decoded(page),
    )


def _decoded(page: "TiffPage") -> Strips:
    channels = _CHANNELS[page.photometric]
    samples = _samples(page)
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


def _samples(page: "TiffPage") -> Samples:
    """The page as (height, width, samples), however it is stored."""
    samples = page.asarray()
    if page.samplesperpixel == 1:
        return samples.reshape(page.imagelength, page.imagewidth, 1)
    if page.planarconfig == 2:
        samples = np.moveaxis(samples, 0, -1)
    return samples.reshape(page.imagelength, page.imagewidth, page.samplesperpixel)
