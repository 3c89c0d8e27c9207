"""Pictures of more than 8 bits a channel, whole numbers or floating point."""

from io import BytesIO
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from toneladder.errors import PictureError
from toneladder.picture.heading import Heading, Strips
from toneladder.picture.light import (
    REC709,
    WHITE,
    DeepTables,
    Light,
    Samples,
    over_paper,
    srgb_response,
)
from toneladder.picture.plain import begun, first_of, orientation_of
from toneladder.picture.profile import response_of
from toneladder.wording import say

if TYPE_CHECKING:
    from tifffile import TiffPage


def png_is_deep(data: bytes) -> bool:
    """Whether a PNG picture has 16 bits a channel."""
    return data[12:16] == b"IHDR" and data[24:25] == b"\x10"


def deep_png_heading(data: bytes) -> Heading:
    """Heading of a PNG picture of 16 bits a channel."""
    image = begun(data, "PNG")
    channels = {0: 1, 2: 3, 4: 2, 6: 4}[data[25]]
    profile = image.info.get("icc_profile") or b""

    def decode() -> Strips:
        import imagecodecs

        samples = imagecodecs.png_decode(data).reshape(image.height, image.width, -1)
        return _of_whole_numbers(samples, 16, profile, alpha=samples.shape[-1] in (2, 4))

    return Heading(
        width=image.width,
        height=image.height,
        depth=16,
        decoded_bytes=image.width * image.height * channels * 2,
        orientation=orientation_of(image),
        notes=first_of(image),
        decode=decode,
    )


def _of_whole_numbers(samples: Samples, bits: int, profile: bytes, *, alpha: bool) -> Strips:
    codes = 1 << bits
    channels = samples.shape[-1] - alpha
    response = response_of(profile, channels, codes) if profile else None
    tables = DeepTables.of(response or srgb_response(channels, codes))

    def strip(start: int, stop: int) -> Light:
        rows = samples[start:stop]
        light = tables.light(rows)
        return over_paper(light, rows[..., channels], codes - 1) if alpha else light

    return strip
