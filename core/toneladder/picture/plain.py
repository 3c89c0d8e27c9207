"""Pictures of up to 8 bits a channel."""

from collections.abc import Callable
from io import BytesIO
from typing import TYPE_CHECKING

import numpy as np
from PIL import Image, ImageFile

from toneladder.optics import luminance
from toneladder.picture.heading import Heading, Strips
from toneladder.picture.light import (
    REC709,
    WHITE,
    Light,
    PairTables,
    Response,
    over_paper,
    srgb_response,
)
from toneladder.picture.profile import response_of, space_of
from toneladder.wording import say

if TYPE_CHECKING:
    from PIL.ImageCms import ImageCmsTransform

_CODES = 256
_GREY = ("1", "L", "LA", "La")
_ONE_BYTE = ("1", "L", "P")
_ORIENTATION = 0x0112

Conversion = Callable[[Image.Image], Image.Image]


def plain_heading(data: bytes, kind: str, most_bytes: int) -> Heading:
    """Heading of a JPEG, PNG, TIFF, WebP, GIF or BMP picture of up to 8 bits a channel.

    A JPEG picture that would take more than ``most_bytes`` is read at half, a quarter or an
    eighth of its size.
    """
    image = begun(data, kind)
    full = image.width
    if kind == "JPEG":
        _draft(image, most_bytes)
    return Heading(
        width=image.width,
        height=image.height,
        depth=1 if image.mode == "1" else 8,
        decoded_bytes=image.width * image.height * (1 if image.mode in _ONE_BYTE else 4),
        orientation=1 if kind == "TIFF" else orientation_of(image),
        notes=first_of(image),
        decode=lambda: _decoded(image),
        reduction=max(1, round(full / image.width)),
    )


def begun(data: bytes, kind: str) -> ImageFile.ImageFile:
    """The picture with its heading read, by the reader of its kind alone."""
    from PIL import (
        BmpImagePlugin,
        GifImagePlugin,
        JpegImagePlugin,
        PngImagePlugin,
        TiffImagePlugin,
        WebPImagePlugin,
    )

    readers: dict[str, Callable[[BytesIO], ImageFile.ImageFile]] = {
        "JPEG": JpegImagePlugin.JpegImageFile,
        "PNG": PngImagePlugin.PngImageFile,
        "TIFF": TiffImagePlugin.TiffImageFile,
        "WebP": WebPImagePlugin.WebPImageFile,
        "GIF": GifImagePlugin.GifImageFile,
        "BMP": BmpImagePlugin.BmpImageFile,
    }
    return readers[kind](BytesIO(data))


def orientation_of(image: Image.Image) -> int:
    """How the camera was held, 1 to 8; 1 where the tag is missing or damaged."""
    try:
        found = image.getexif().get(_ORIENTATION, 1)
    except (OSError, SyntaxError, ValueError, TypeError, KeyError, IndexError):
        return 1
    return found if isinstance(found, int) and 1 <= found <= 8 else 1


def first_of(image: Image.Image) -> tuple[str, ...]:
    """A note if the file holds more than one picture."""
    number = getattr(image, "n_frames", 1)
    if number == 1:
        return ()
    return (say("The file holds {n} pictures; the first is used.", n=number),)


def _draft(image: ImageFile.ImageFile, most_bytes: int) -> None:
    for part in (2, 4, 8):
        if image.width * image.height * 4 <= most_bytes:
            return
        image.draft(None, (image.width // part, image.height // part))


def _decoded(image: ImageFile.ImageFile) -> Strips:
    image.load()
    if image.mode == "LAB":
        return _of_lab(image)
    profile = image.info.get("icc_profile") or b""
    response, convert = _ways(image, profile)
    if image.mode in ("1", "L") and "transparency" not in image.info and convert is None:
        return _of_grey(image, response)
    return _of_colour(image, PairTables.of(response), convert)


def _ways(image: Image.Image, profile: bytes) -> tuple[Response, Conversion | None]:
    """The response of the picture's samples, and the conversion to do before, if any."""
    srgb = srgb_response(3, _CODES)
    channels = 1 if image.mode in _GREY else 3
    space = "CMYK" if image.mode == "CMYK" else "GRAY" if channels == 1 else "RGB"
    if not profile or space_of(profile) != space:
        return srgb, None
    response = response_of(profile, channels, _CODES) if space != "CMYK" else None
    if response is None:
        return srgb, _to_srgb(profile, "L" if channels == 1 else space)
    if channels == 1:
        response = Response(response.curves * 3, REC709)
    return response, None


def _to_srgb(profile: bytes, mode: str) -> Conversion | None:
    """The general conversion by ``profile``, or None if nothing can be made of it."""
    from PIL import ImageCms

    try:
        transform: ImageCmsTransform = ImageCms.buildTransform(
            ImageCms.ImageCmsProfile(BytesIO(profile)), ImageCms.createProfile("sRGB"), mode, "RGB"
        )
    except (ImageCms.PyCMSError, OSError):
        return None

    def convert(strip: Image.Image) -> Image.Image:
        return transform.apply(strip.convert(mode))

    return convert


def _of_grey(image: Image.Image, response: Response) -> Strips:
    table = np.rint(WHITE * response.curves[0]).astype(np.uint16)

    def strip(start: int, stop: int) -> Light:
        piece = image.crop((0, start, image.width, stop)).convert("L")
        return table.take(np.asarray(piece))

    return strip


def _of_lab(image: Image.Image) -> Strips:
    table = np.rint(WHITE * luminance(np.linspace(0.0, 100.0, _CODES))).astype(np.uint16)

    def strip(start: int, stop: int) -> Light:
        piece = image.crop((0, start, image.width, stop))
        return table.take(np.asarray(piece)[..., 0])

    return strip


def _of_colour(image: Image.Image, tables: PairTables, convert: Conversion | None) -> Strips:
    clear = image.has_transparency_data

    def strip(start: int, stop: int) -> Light:
        piece = image.crop((0, start, image.width, stop))
        cover = piece.convert("RGBA") if clear else None
        if convert is not None:
            piece = convert(piece)
        elif piece.mode != "RGB":
            piece = cover or piece.convert("RGB")
        layout = "RGBA" if piece.mode == "RGBA" else "RGBX"
        quads = np.frombuffer(piece.tobytes("raw", layout), "<u2")
        light = tables.light(quads.reshape(piece.height, piece.width, 2))
        if cover is None:
            return light
        return over_paper(light, np.asarray(cover.getchannel("A")), _CODES - 1)

    return strip
