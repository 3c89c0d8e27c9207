"""Pictures of up to 8 bits a channel."""

from collections.abc import Callable
from io import BytesIO

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageFile

from toneladder.optics import luminance
from toneladder.picture.heading import Heading, Strips
from toneladder.picture.light import (
    REC709,
    WHITE,
    DeepTables,
    Light,
    PairTables,
    Response,
    over_paper,
)
from toneladder.picture.profile import Conversion, way_of
from toneladder.wording import say

_CODES = 256
_GREY = ("1", "L", "LA", "La")
_ONE_BYTE = ("1", "L", "P")
_MOVING = 16  # bytes a pixel that the reader of moving pictures takes
_ORIENTATION = 0x0112
_MOST_LOOKED_THROUGH = 250_000_000  # pixels, of up to 4 bytes

_DAMAGED = (OSError, SyntaxError, ValueError, TypeError, KeyError, IndexError)

Piece = Image.Image


def plain_heading(data: bytes, kind: str) -> Heading:
    """Heading of a PNG, GIF, BMP, TIFF or moving WebP picture of up to 8 bits a channel."""
    image = begun(data, kind)
    samples = _MOVING if kind == "WebP" else 1 if image.mode in _ONE_BYTE else 4
    return Heading(
        width=image.width,
        height=image.height,
        depth=1 if image.mode == "1" else 8,
        decoded_bytes=image.width * image.height * samples,
        orientation=1 if kind == "TIFF" else orientation_of(image),
        notes=notes_of_number(pictures_in(image)),
        decode=lambda: image_strips(sound(image, data)),
    )


def sound(image: ImageFile.ImageFile, data: bytes) -> ImageFile.ImageFile:
    """The picture, if the checksums in its file, where there are any, are right."""
    if image.format == "PNG":
        begun(data, "PNG").verify()
    return image


def begun(data: bytes, kind: str) -> ImageFile.ImageFile:
    """The picture with its heading read, by the reader of its kind alone."""
    from PIL import BmpImagePlugin, GifImagePlugin, PngImagePlugin, TiffImagePlugin, WebPImagePlugin

    readers: dict[str, Callable[[BytesIO], ImageFile.ImageFile]] = {
        "PNG": PngImagePlugin.PngImageFile,
        "TIFF": TiffImagePlugin.TiffImageFile,
        "WebP": WebPImagePlugin.WebPImageFile,
        "GIF": GifImagePlugin.GifImageFile,
        "BMP": BmpImagePlugin.BmpImageFile,
    }
    return readers[kind](BytesIO(data))


def orientation_of(image: Image.Image) -> int:
    """How the camera was held, 1 to 8; 1 where the tag is missing or damaged.

    A PNG picture may have it behind its pixels, and is decoded to find it: unless that would
    take more than any picture may.
    """
    behind = image.format == "PNG" and "exif" not in image.info
    if behind and image.width * image.height > _MOST_LOOKED_THROUGH:
        return 1
    try:
        found = image.getexif().get(_ORIENTATION, 1)
    except _DAMAGED:
        return 1
    return found if isinstance(found, int) and 1 <= found <= 8 else 1


def pictures_in(image: Image.Image) -> int:
    """How many pictures follow each other in the file, as far as they can be counted."""
    try:
        return int(getattr(image, "n_frames", 1))
    except _DAMAGED:
        return 1


def notes_of_number(pictures: int) -> tuple[str, ...]:
    """A note if the file holds more than one picture."""
    if pictures == 1:
        return ()
    return (say("The file holds {n} pictures; the first is used.", n=pictures),)


def image_strips(image: ImageFile.ImageFile) -> Strips:
    """Decode the picture, and give light of its rows."""
    image.load()
    reading = _reading(image)
    clear = image.has_transparency_data and not _means_nothing(image)

    def strip(start: int, stop: int) -> Light:
        piece = image.crop((0, start, image.width, stop))
        if not clear:
            return reading(piece)
        piece = piece.convert("RGBA")
        return over_paper(reading(piece), np.asarray(piece.getchannel("A")), _CODES - 1)

    return strip


def _means_nothing(image: Image.Image) -> bool:
    """Whether the fourth sample of a BMP picture is there and was never filled in."""
    return image.format == "BMP" and image.getextrema()[-1] == (0, 0)


def _reading(image: Image.Image) -> Callable[[Piece], Light]:
    """How a piece of the picture becomes light."""
    if image.mode == "LAB":
        return _of_lightness
    channels = 4 if image.mode == "CMYK" else 1 if image.mode in _GREY else 3
    way = way_of(image.info.get("icc_profile") or b"", channels, _CODES)
    if way.convert is not None:
        return _converted(way.convert, DeepTables.of(way.response), channels)
    if image.mode in ("1", "L") and not image.has_transparency_data:
        table = np.rint(WHITE * way.response.curves[0]).astype(np.uint16)
        return lambda piece: table.take(np.asarray(piece.convert("L")))
    response = way.response if channels > 1 else Response(way.response.curves * 3, REC709)
    pairs = PairTables.of(response)
    return lambda piece: pairs.light(_quads(piece))


def _converted(convert: Conversion, tables: DeepTables, channels: int) -> Callable[[Piece], Light]:
    mode = {1: "L", 3: "RGB", 4: "CMYK"}[channels]

    def reading(piece: Piece) -> Light:
        samples = np.asarray(piece.convert(mode))
        return tables.light(convert(samples.reshape(piece.height, piece.width, channels)))

    return reading


def _of_lightness(piece: Piece) -> Light:
    table = np.rint(WHITE * luminance(np.linspace(0.0, 100.0, _CODES))).astype(np.uint16)
    return table.take(np.asarray(piece.getchannel("L")))


def _quads(piece: Piece) -> NDArray[np.uint16]:
    """Red with green and blue with a fourth sample, as two numbers of 16 bits."""
    if piece.mode != "RGBA":
        piece = piece.convert("RGB")
    raw = piece.tobytes("raw", "RGBA" if piece.mode == "RGBA" else "RGBX")
    return np.frombuffer(raw, "<u2").reshape(piece.height, piece.width, 2)
