"""Small picture files, made byte by byte or by independent writers."""

import importlib
import io
import struct
import warnings
import zlib
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

import numpy as np
import pytest
import skimage
import tifffile
from numpy.typing import NDArray
from PIL import Image

Encoded = Callable[..., bytes]
D50 = (0.9642, 1.0, 0.8249)  # ICC.1:2010, the profile connection space's white


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def _png(
    width: int, height: int, depth: int, colour: int, raw: bytes = b"", extra: bytes = b""
) -> bytes:
    head = struct.pack(">IIBBBBB", width, height, depth, colour, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + _chunk(b"IHDR", head)
        + extra
        + _chunk(b"IDAT", zlib.compress(raw))
        + _chunk(b"IEND", b"")
    )


def _tag(signature: bytes, *values: tuple[str, Any]) -> bytes:
    body = b"".join(struct.pack(f">{layout}", value) for layout, value in values)
    return signature + b"\0\0\0\0" + body


def _fixed(value: float) -> tuple[str, int]:
    return "i", round(value * 65536)


def _profile(space: bytes, tags: dict[bytes, bytes], pcs: bytes = b"XYZ ") -> bytes:
    at, table, body = 132 + 12 * len(tags), b"", b""
    for key, tag in tags.items():
        padded = tag + b"\0" * (-len(tag) % 4)
        table += struct.pack(">4sII", key, at + len(body), len(tag))
        body += padded
    size = at + len(body)
    head = bytearray(128)
    head[0:4] = struct.pack(">I", size)
    head[8:12] = bytes((2, 0x40, 0, 0))
    head[12:16], head[16:20], head[20:24] = b"mntr", space, pcs
    head[36:40] = b"acsp"
    head[68:80] = struct.pack(">3i", *(round(part * 65536) for part in D50))
    return bytes(head) + struct.pack(">I", len(tags)) + table + body


@pytest.fixture
def png_chunk() -> Callable[[bytes, bytes], bytes]:
    """A chunk of a PNG file with its checksum."""
    return _chunk


@pytest.fixture
def png() -> Encoded:
    """A PNG file from its raw rows, each with a filter byte before it."""
    return _png


@pytest.fixture
def deep_png() -> Callable[[NDArray[np.uint16]], bytes]:
    """A 16-bit PNG file of (height, width, channels) samples."""

    def encode(samples: NDArray[np.uint16], extra: bytes = b"") -> bytes:
        height, width, channels = samples.shape
        colour = {1: 0, 2: 4, 3: 2, 4: 6}[channels]
        rows = samples.astype(">u2").reshape(height, -1)
        raw = b"".join(b"\0" + row.tobytes() for row in rows)
        return _png(width, height, 16, colour, raw, extra)

    return encode


@pytest.fixture
def tiff() -> Encoded:
    """A TIFF file of an array, written by tifffile."""

    def encode(samples: NDArray[Any], **options: Any) -> bytes:
        stream = io.BytesIO()
        tifffile.imwrite(stream, samples, **options)
        return stream.getvalue()

    return encode


@pytest.fixture
def encoded() -> Encoded:
    """A file of an image, written by Pillow."""

    def encode(image: Image.Image, kind: str, **options: Any) -> bytes:
        stream = io.BytesIO()
        image.save(stream, kind, **options)
        return stream.getvalue()

    return encode


@pytest.fixture
def curve_tag() -> Encoded:
    """A tone curve of a profile: one power, a table, or a formula's numbers."""

    def tag(*values: float, kind: int | None = None) -> bytes:
        if kind is not None:
            return _tag(b"para", ("H", kind), ("H", 0), *(_fixed(value) for value in values))
        if len(values) == 1:
            return _tag(b"curv", ("I", 1), ("H", round(values[0] * 256)))
        return _tag(b"curv", ("I", len(values)), *(("H", round(v * 65535)) for v in values))

    return tag


@pytest.fixture
def matrix_profile() -> Encoded:
    """A colour profile of three primaries (XYZ under D50) and one tone curve."""

    def profile(primaries: NDArray[np.float64], curve: bytes) -> bytes:
        columns = zip((b"rXYZ", b"gXYZ", b"bXYZ"), primaries.T, strict=True)
        tags = {key: _tag(b"XYZ ", *(_fixed(part) for part in column)) for key, column in columns}
        tags |= dict.fromkeys((b"rTRC", b"gTRC", b"bTRC"), curve)
        tags[b"wtpt"] = _tag(b"XYZ ", *(_fixed(part) for part in D50))
        return _profile(b"RGB ", tags)

    return profile


@pytest.fixture
def grey_profile() -> Encoded:
    """A grey profile of one tone curve."""

    def profile(curve: bytes) -> bytes:
        white = _tag(b"XYZ ", *(_fixed(part) for part in D50))
        return _profile(b"GRAY", {b"wtpt": white, b"kTRC": curve})

    return profile


@pytest.fixture
def ink_profile() -> bytes:
    """A made-up CMYK profile: a table of lightness over four inks, two points along each."""
    corners = np.stack(np.meshgrid(*[[0.0, 1.0]] * 4, indexing="ij"), axis=-1).reshape(-1, 4)
    left = (1 - 0.8 * corners[:, 3]) * (1 - corners[:, :3] @ np.array([0.25, 0.35, 0.05]))
    lab = np.column_stack([np.rint(left * 65280), np.full((16, 2), 32768)]).astype(">u2")
    straight = struct.pack(">2H", 0, 65535)
    table = (
        struct.pack(">4sI4B", b"mft2", 0, 4, 3, 2, 0)
        + struct.pack(">9i", *(round(v * 65536) for v in np.eye(3).ravel()))
        + struct.pack(">2H", 2, 2)
        + straight * 4
        + lab.tobytes()
        + straight * 3
    )
    white = _tag(b"XYZ ", *(_fixed(part) for part in D50))
    return _profile(b"CMYK", {b"wtpt": white, b"A2B0": table}, pcs=b"Lab ")


@pytest.fixture
def photograph() -> Callable[[str], Path]:
    """A photograph out of the installed scikit-image."""
    folder = Path(skimage.__file__).parent / "data"
    return lambda name: folder / name


@pytest.fixture(scope="session")
def colour() -> ModuleType:
    """The colour-science library, which warns of what it could also use."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return importlib.import_module("colour")
