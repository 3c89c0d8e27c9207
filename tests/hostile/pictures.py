"""Small pictures of every kind that is read, and damage that knows their chunks and tags."""

import struct
import zlib
from collections.abc import Iterator, Mapping
from contextlib import suppress
from functools import cache
from io import BytesIO
from random import Random

import imagecodecs
import numpy as np
import tifffile
from PIL import Image, ImageCms
from tests.hostile.awkward import damaged_bytes, one_of

SIDE = (30, 22)
_TAGS = (256, 257, 258, 259, 262, 277, 330, 339, 34675)
"""Of a TIFF page: its sides, samples, packing, kind, sub-pages and profile."""


@cache
def pictures() -> Mapping[str, bytes]:
    """Pictures of all kinds and depths, by name."""
    grey = np.random.default_rng(5).integers(0, 256, (*SIDE[::-1], 3), dtype=np.uint8)
    colour, deep = Image.fromarray(grey), grey.astype(np.uint16) * 257
    icc = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    exif = Image.Exif()
    exif[0x0112] = 6
    found: dict[str, bytes] = {
        "png": _saved(colour, "PNG", icc_profile=icc, exif=exif),
        "png palette": _saved(colour.quantize(16), "PNG", transparency=3),
        "png one bit": _saved(colour.convert("1"), "PNG"),
        "png clear": _saved(colour.convert("RGBA"), "PNG"),
        "png 16": bytes(imagecodecs.png_encode(deep)),
        "png 16 grey": bytes(imagecodecs.png_encode(deep[..., 0].copy())),
        "jpeg": _saved(colour, "JPEG", icc_profile=icc, exif=exif),
        "jpeg progressive": _saved(colour, "JPEG", progressive=True),
        "jpeg inks": _saved(colour.convert("CMYK"), "JPEG"),
        "webp": _saved(colour, "WEBP", icc_profile=icc, exif=exif),
        "webp lossless": _saved(colour.convert("RGBA"), "WEBP", lossless=True),
        "webp moving": _saved(colour, "WEBP", save_all=True, append_images=[colour.rotate(90)]),
        "bmp": _saved(colour, "BMP"),
        "bmp grey": _saved(colour.convert("L"), "BMP"),
        "gif": _saved(colour.quantize(16), "GIF"),
        "gif moving": _saved(colour.quantize(9), "GIF", save_all=True, append_images=[colour]),
    }
    for packing in (None, "lzw", "deflate", "packbits", "jpeg"):
        found[f"tiff {packing}"] = _tiff(grey, packing)
        if packing != "jpeg":
            found[f"tiff 16 {packing}"] = _tiff(deep, packing)
    found["tiff float"] = _tiff((deep / 65535.0).astype(np.float32), None)
    found["tiff tiled"] = _tiff(deep, "deflate", tile=(16, 16), predictor=True)
    found["tiff grey"] = _tiff(deep[..., 0], None, photometric="minisblack", iccprofile=icc)
    planes = np.moveaxis(grey, -1, 0)
    found["tiff planes"] = _tiff(planes, None, planarconfig="separate")
    return found


def damaged_picture(chance: Random) -> bytes:
    """One of the pictures, damaged."""
    name = one_of(chance, sorted(pictures()))
    data = pictures()[name]
    how = chance.random()
    if how < 0.3:
        return damaged_bytes(chance, data)
    kind = name.split()[0]
    if kind == "png":
        return _damaged_png(chance, data)
    if kind == "tiff":
        return _damaged_tiff(chance, data)
    if kind == "webp":
        return _damaged_riff(chance, data)
    if kind == "jpeg":
        return _damaged_jpeg(chance, data)
    head = bytearray(data)  # BMP and GIF are a plain heading and then rows
    for _ in range(chance.randint(1, 3)):
        at = chance.randrange(min(len(head), 54) - 4)
        head[at : at + 2] = one_of(chance, (b"\0\0", b"\1\0", b"\xff\xff", b"\xff\x7f", b"\0\x20"))
    return bytes(head)


def _saved(image: Image.Image, kind: str, **options: object) -> bytes:
    file = BytesIO()
    image.save(file, kind, **options)
    return file.getvalue()


def _tiff(samples: object, packing: str | None, **options: object) -> bytes:
    file = BytesIO()
    options = {"photometric": "rgb", "compression": packing, "metadata": None, **options}
    tifffile.imwrite(file, samples, **options)  # type: ignore[arg-type] # its own many names
    return file.getvalue()


def _png_chunks(data: bytes) -> Iterator[tuple[bytes, bytes]]:
    at = 8
    while at + 8 <= len(data):
        (size,) = struct.unpack_from(">I", data, at)
        yield data[at + 4 : at + 8], data[at + 8 : at + 8 + size]
        at += 12 + size


def _damaged_png(chance: Random, data: bytes) -> bytes:
    """Damage inside of chunks, whose checksums are right again afterwards."""
    chunks = list(_png_chunks(data))
    for _ in range(chance.randint(1, 3)):
        at = chance.randrange(len(chunks))
        name, body = chunks[at]
        what = chance.randrange(7)
        if what == 0:
            del chunks[at]
        elif what == 1:
            chunks.insert(chance.randrange(len(chunks) + 1), (name, body))
        elif what == 2 and chunks[0][0] == b"IHDR":
            head = bytearray(chunks[0][1])
            for _ in range(chance.randint(1, 3) if head else 0):
                at_byte = one_of(chance, (8, 9, chance.randrange(len(head))))
                value = one_of(chance, (0, 1, 2, 3, 4, 6, 8, 16, 255))
                head[min(at_byte, len(head) - 1)] = value
            chunks[0] = b"IHDR", bytes(head)
        elif what == 3:
            swollen = zlib.compress(b"\0" * one_of(chance, (10, 100_000, 20_000_000)))
            new = one_of(chance, (b"zTXt", b"iCCP", b"IDAT", b"iTXt"))
            chunks.insert(1, (new, b"x\0\0" + swollen if new != b"IDAT" else swollen))
        elif what == 4 and name == b"IDAT":
            with suppress(zlib.error):  # it was damaged before
                chunks[at] = name, zlib.compress(damaged_bytes(chance, zlib.decompress(body)))
        else:
            chunks[at] = name, damaged_bytes(chance, body)
        chunks = chunks or [(b"IEND", b"")]
    return data[:8] + b"".join(
        struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))
        for name, body in chunks
    )


def _damaged_tiff(chance: Random, data: bytes) -> bytes:
    """Damage to the numbers, kinds, counts and values of tags."""
    found = bytearray(data)
    order = "<" if data[:2] == b"II" else ">"
    (at,) = struct.unpack_from(order + "I", data, 4)
    if at + 2 > len(data):
        return damaged_bytes(chance, data)
    (count,) = struct.unpack_from(order + "H", data, at)
    values = (0, 1, 2, 3, 5, 7, 8, 16, 32, 64, 65535, 2**31, 2**32 - 1, len(data), 32773, 34712)
    for _ in range(chance.randint(1, 4)):
        tag = at + 2 + 12 * chance.randrange(max(count, 1))
        what = chance.randrange(4)
        value = one_of(chance, values)
        if tag + 12 > len(found):
            break
        if what == 0:
            struct.pack_into(order + "H", found, tag, one_of(chance, (*_TAGS, value & 0xFFFF)))
        elif what == 1:
            struct.pack_into(order + "H", found, tag + 2, chance.randrange(20))
        else:
            struct.pack_into(order + "I", found, tag + (4 if what == 2 else 8), value)
    return bytes(found)


def _damaged_riff(chance: Random, data: bytes) -> bytes:
    chunks, at = [], 12
    while at + 8 <= len(data):
        (size,) = struct.unpack_from("<I", data, at + 4)
        chunks.append((data[at : at + 4], data[at + 8 : at + 8 + size]))
        at += 8 + size + size % 2
    for _ in range(chance.randint(1, 3)):
        place = chance.randrange(len(chunks))
        name, body = chunks[place]
        if chance.random() < 0.25:
            chunks.insert(chance.randrange(len(chunks) + 1), (name, body))
        else:
            chunks[place] = name, damaged_bytes(chance, body)
    body = b"".join(
        name + struct.pack("<I", len(body)) + body + b"\0" * (len(body) % 2)
        for name, body in chunks
    )
    return b"RIFF" + struct.pack("<I", len(body) + 4) + b"WEBP" + body


def _damaged_jpeg(chance: Random, data: bytes) -> bytes:
    """Damage inside of segments, or to the sides that a frame says it has."""
    found = bytearray(data)
    marks = [at for at in range(len(data) - 9) if data[at] == 0xFF and 0xC0 <= data[at + 1] <= 0xEF]
    at = one_of(chance, marks or [2])
    frames = [mark for mark in marks if data[mark + 1] in (0xC0, 0xC2)]
    if frames and chance.random() < 0.5:
        sides = [one_of(chance, (0, 1, 8, 30, 3000, 15_000, 65_535)) for _ in range(2)]
        struct.pack_into(">HH", found, frames[0] + 5, *sides)
    else:
        found[at + 2 : at + 30] = damaged_bytes(chance, bytes(found[at + 2 : at + 30]))
    return bytes(found)
