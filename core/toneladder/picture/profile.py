"""What a picture's embedded colour profile says of its light."""

import struct
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from toneladder.picture.light import REC709, WHITE, Curve, Response, srgb_response

Conversion = Callable[[NDArray[np.unsignedinteger]], NDArray[np.uint16]]

SPACES = {1: "GRAY", 3: "RGB", 4: "CMYK"}
"""What a profile calls the space of so many channels."""

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
_MOST_TAGS = 200
_DAMAGED = (struct.error, KeyError, ValueError, IndexError, ArithmeticError)


@dataclass(frozen=True, slots=True, eq=False)
class Way:
    """How samples become light: by ``response``, after ``convert`` if there is one.

    ``convert`` brings (height, width, channels) samples to sRGB of 16 bits, which ``response``
    then speaks of.
    """

    response: Response
    convert: Conversion | None = None


def way_of(profile: bytes, channels: int, codes: int) -> Way:
    """How samples of a picture that carries ``profile`` become light.

    Parameters
    ----------
    profile : bytes
        An ICC profile, or nothing. One that is damaged, or of another space than the samples,
        is as good as none.
    channels : int
        1 (grey), 3 (red, green, blue) or 4 (inks).
    codes : int
        Number of codes that a sample can take.

    Returns
    -------
    Way
        Without a usable profile, grey and colour are taken as sRGB; of inks nothing is known,
        and the response is that of sRGB with ``codes``.

    References
    ----------
    [ICC1] Matrix and tone-curve profiles; the perceptual intent of all others.
    [IEC61966-2-1] sRGB.
    """
    if profile[16:20] == SPACES[channels].encode().ljust(4):
        if channels < 4 and (response := _response(profile, channels, codes)):
            return Way(response)
        if _converts(profile, channels):
            return Way(srgb_response(3, WHITE + 1), lambda samples: _srgb(samples, profile))
    return Way(srgb_response(1 if channels == 1 else 3, codes))


def _srgb(samples: NDArray[np.unsignedinteger], profile: bytes) -> NDArray[np.uint16]:
    import imagecodecs

    found: NDArray[np.uint16] = imagecodecs.cms_transform(
        np.ascontiguousarray(samples),
        profile,
        imagecodecs.cms_profile("srgb"),
        colorspace=SPACES[samples.shape[-1]].lower(),
        outcolorspace="rgb",
        outdtype=np.uint16,
    )
    return found


def _converts(profile: bytes, channels: int) -> bool:
    """Whether the general conversion can make anything of the profile."""
    import imagecodecs

    try:
        _srgb(np.zeros((1, 1, channels), np.uint8), profile)
    except (imagecodecs.CmsError, *_DAMAGED):
        return False
    return True


def _response(profile: bytes, channels: int, codes: int) -> Response | None:
    """The response by tone curves, or None if the profile does not work that way."""
    try:
        tags = _tags(profile)
        if profile[20:24] != b"XYZ " or any(table in tags for table in _TABLES):
            return None
        at = np.linspace(0.0, 1.0, codes)
        if channels == 1:
            return Response((_curve(tags[b"kTRC"], at),), (1.0,))
        columns = np.column_stack([_xyz(tags[key]) for key in (b"rXYZ", b"gXYZ", b"bXYZ")])
        curves = tuple(_curve(tags[key], at) for key in (b"rTRC", b"gTRC", b"bTRC"))
    except _DAMAGED:
        return None
    weights = np.array(REC709) @ _FROM_D50 @ columns
    if abs(weights.sum() - 1.0) > _FAR_FROM_WHITE or weights.min() < 0.0:
        return None
    red, green, blue = (float(weight) for weight in weights / weights.sum())
    return Response(curves, (red, green, blue))


def _tags(profile: bytes) -> dict[bytes, bytes]:
    (number,) = struct.unpack_from(">I", profile, 128)
    if number > _MOST_TAGS:
        raise ValueError(number)
    found = {}
    for index in range(number):
        key, offset, size = struct.unpack_from(">4sII", profile, 132 + 12 * index)
        found[key] = profile[offset : offset + size]
    return found


def _xyz(tag: bytes) -> NDArray[np.float64]:
    if tag[:4] != b"XYZ ":
        raise ValueError(tag[:4])
    return np.array(struct.unpack_from(">3i", tag, 8), np.float64) / 65536.0


def _curve(tag: bytes, at: Curve) -> Curve:
    """Linear light (0..1) at the codes ``at`` (0..1), which rises and never leaves that range."""
    curve = {b"curv": _sampled, b"para": _formula}[tag[:4]](tag, at)
    if not np.isfinite(curve).all() or curve[-1] <= curve[0]:
        raise ValueError(tag[:4])
    held: Curve = np.clip(curve, 0.0, 1.0)
    return held


def _sampled(tag: bytes, at: Curve) -> Curve:
    (number,) = struct.unpack_from(">I", tag, 8)
    if number == 0:
        return at
    if number == 1:
        (gamma,) = struct.unpack_from(">H", tag, 12)
        return _power(at, gamma / 256.0)
    values = np.frombuffer(tag, ">u2", number, 12) / 65535.0
    return np.interp(at, np.linspace(0.0, 1.0, number), values)


def _formula(tag: bytes, at: Curve) -> Curve:
    (kind,) = struct.unpack_from(">H", tag, 8)
    number = (1, 3, 4, 5, 7)[kind]
    given = [value / 65536.0 for value in struct.unpack_from(f">{number}i", tag, 12)]
    g, a, b, c, d, e, f = given + [0.0] * (7 - number)
    if kind == 0:
        return _power(at, g)
    if kind < 3:
        c, d, e, f = 0.0, -b / a, c, c
    curve: Curve = np.where(at >= d, _power(a * at + b, g) + e, c * at + f)
    return curve


def _power(of: Curve, exponent: float) -> Curve:
    power: Curve = np.maximum(of, 0.0) ** exponent
    return power
