"""A JPEG picture that is far too large is read at a part of its size."""

import io

import numpy as np
from PIL import Image

from toneladder.optics import lightness
from toneladder.picture.gathering import gathered
from toneladder.picture.jpeg import jpeg_heading


def test_a_picture_over_the_limit_is_decoded_at_half_or_less() -> None:
    ramp = np.linspace(20, 220, 160)[None, :] + np.linspace(0, 30, 120)[:, None]
    stream = io.BytesIO()
    Image.fromarray(ramp.astype(np.uint8)).convert("RGB").save(stream, "JPEG", quality=98)
    data = stream.getvalue()
    full = lightness(gathered(heading := jpeg_heading(data, 10**6), heading.decode())[0] / 65535)
    for most, part in ((76_800, 1), (76_799, 2), (15_000, 4), (4_000, 8)):
        heading = jpeg_heading(data, most)
        assert heading.part == part
        assert (heading.width, heading.height) == (160, 120)
        assert heading.decoded_bytes == 160 * 120 * 4 // part**2
        light, _ = gathered(heading, heading.decode())
        assert light.shape == (120 // part, 160 // part)
        blocks = full.reshape(120 // part, part, 160 // part, part).mean(axis=(1, 3))
        assert np.abs(lightness(light / 65535) - blocks).max() < 2.5
