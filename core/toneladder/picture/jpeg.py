"""JPEG pictures."""

from io import BytesIO

from PIL.JpegImagePlugin import JpegImageFile

from toneladder.picture.heading import Heading
from toneladder.picture.plain import image_strips, orientation_of

_BYTES_A_PIXEL = 4
_PARTS = (1, 2, 4, 8)


def jpeg_heading(data: bytes, most_bytes: int) -> Heading:
    """Heading of a JPEG picture.

    One that would take more than ``most_bytes`` is read at half, a quarter or an eighth of its
    size.
    """
    image = JpegImageFile(BytesIO(data))
    width, height = image.size
    pixels = width * height
    part = next((n for n in _PARTS if pixels * _BYTES_A_PIXEL / n**2 <= most_bytes), _PARTS[-1])
    if part > 1:
        image.draft(None, (width // part, height // part))
    return Heading(
        width=width,
        height=height,
        depth=8,
        decoded_bytes=image.width * image.height * _BYTES_A_PIXEL + _held_back(image, pixels),
        orientation=orientation_of(image),
        notes=(),
        decode=lambda: image_strips(image),
        part=part,
    )


def _held_back(image: JpegImageFile, pixels: int) -> int:
    """Bytes of a picture sent in ever finer passes, which are kept until the last has come."""
    if "progressive" not in image.info:
        return 0
    blocks = [across * down for _, across, down, _ in image.layer]
    return 2 * pixels * sum(blocks) // max(blocks)
