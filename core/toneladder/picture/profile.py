"""What a picture's embedded colour profile says of its light."""

import struct

import numpy as np
from numpy.typing import NDArray

from toneladder.picture.light import REC709, Curve, Response

_FROM_D50 = np.array(
    [
        [3.1338561, -1.6168667, -0.4906146],
        [-0.9787684, 1.9161415, 0.0334540],
        [0.0719453, -0.2289914, 1.4052427],
    ]
)
"""CIE XYZ under D50 to linear sRGB, by the Bradford adaptation [ICC1]."""

_TABLES = (b"A2B0", b"A2B1", b"D2B0")
_FAR_FROM_WHITE = 0.02


def response_of(profile: bytes, channels: int, codes: int) -> Response | None:
    """Response of a picture by its profile, or None if only a general conversion will do.

    Parameters
    ----------
    profile : bytes
        An ICC profile of matrix and tone curves (3 channels) or of one grey curve (1).
    channels : int
        1 or 3.
    codes : int
        Number of codes that a sample can take.

    References
    ----------
    [ICC1] Matrix and tone-curve profiles; ``curv`` and ``para`` types.
    """
    try:
        return _response(profile, channels, codes)
    except (struct.error, KeyError, ValueError, IndexError, OverflowError):
        return None


def space_of(profile: bytes) -> str:
    """Colour space the profile speaks of: ``RGB``, ``GRAY``, ``CMYK`` …"""
    return profile[16:20].decode("latin-1").strip()


def _response(profile: bytes, channels: int, codes: int) -> Response | None:
    tags = _tags(profile)
    if profile[20:24] != b"XYZ " or any(table in tags for table in _TABLES):
        return None
    at = np.linspace(0.0, 1.0, codes)
    if channels == 1:
        return Response((_curve(tags[b"kTRC"], at),), (1.0,)) if _is(profile, "GRAY") else None
    if not _is(profile, "RGB"):
        return None
    columns = np.column_stack([_xyz(tags[key]) for key in (b"rXYZ", b"gXYZ", b"bXYZ")])
    weights = np.array(REC709) @ _FROM_D50 @ columns
    if abs(weights.sum() - 1.0) > _FAR_FROM_WHITE:
        return None
    weights = np.maximum(weights, 0.0)
    red, green, blue = (float(weight) for weight in weights / weights.sum())
    curves = tuple(_curve(tags[key], at) for key in (b"rTRC", b"gTRC", b"bTRC"))
    return Response(curves, (red, green, blue))


def _is(profile: bytes, space: str) -> bool:
    return space_of(profile) == space


def _tags(profile: bytes) -> dict[bytes, bytes]:
    (number,) = struct.unpack_from(">I", profile, 128)
    if number > 200:
        raise ValueError(number)
    found = {}
    for index in range(number):
        key, offset, size = struct.unpack_from(">4sII", profile, 132 + 12 * index)
        found[key] = profile[offset : offset + size]
    return found


def _xyz(tag: bytes) -> NDArray[np.float64]:
    if tag[:4] != b"XYZ ":
        raise ValueError(tag[:4])
    return np.array(struct.unpack_from(">3i", tag, 8)) / 65536.0


def _curve(tag: bytes, at: Curve) -> Curve:
    if tag[:4] == b"curv":
        return _sampled(tag, at)
    if tag[:4] == b"para":
        return _formula(tag, at)
    raise ValueError(tag[:4])


def _sampled(tag: bytes, at: Curve) -> Curve:
    (number,) = struct.unpack_from(">I", tag, 8)
    if number == 0:
        return at
    if number == 1:
        return np.asarray(at ** (struct.unpack_from(">H", tag, 12)[0] / 256.0))
    values = np.array(struct.unpack_from(f">{number}H", tag, 12)) / 65535.0
    return np.interp(at, np.linspace(0.0, 1.0, number), values)


def _formula(tag: bytes, at: Curve) -> Curve:
    (kind,) = struct.unpack_from(">H", tag, 8)
    number = (1, 3, 4, 5, 7)[kind]
    given = [v / 65536.0 for v in struct.unpack_from(f">{number}i", tag, 12)]
    g, a, b, c, d, e, f = given + [0.0] * (7 - number)
    if kind == 0:
        return np.asarray(at**g)
    if kind in (1, 2):
        bend, offset = -b / a, c if kind == 2 else 0.0
        c, d, e, f = 0.0, bend, offset, offset
    high = np.maximum(a * at + b, 0.0) ** g + e
    return np.clip(np.where(at >= d, high, c * at + f), 0.0, 1.0)
