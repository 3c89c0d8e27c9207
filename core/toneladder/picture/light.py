"""Tables that turn the samples of a picture into light.

Light is linear luminance as a 16-bit number, 0 to 65535 (white).
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from toneladder.optics import linear_from_srgb

WHITE = 65535

Light = NDArray[np.uint16]
Samples = NDArray[Any]
"""Whole or floating-point numbers as a file holds them."""
Curve = NDArray[np.float64]

REC709 = (0.2126, 0.7152, 0.0722)
"""What red, green and blue of sRGB give to luminance [IEC61966-2-1]."""

_FINE = 256  # parts of one step of light, so that three rounded channels add up rightly


@dataclass(frozen=True, slots=True, eq=False)
class Response:
    """What each channel of a picture gives to luminance.

    ``curves`` holds one curve per channel: linear light (0..1) at evenly spaced codes from
    nothing to full; ``weights`` are the channels' shares of luminance and add up to 1.
    """

    curves: tuple[Curve, ...]
    weights: tuple[float, ...]


def srgb_response(channels: int, codes: int) -> Response:
    """The response of a picture in sRGB (3 channels) or in grey coded like it (1 channel).

    References
    ----------
    [IEC61966-2-1] sRGB transfer function and primaries.
    """
    curve = linear_from_srgb(np.linspace(0.0, 1.0, codes))
    return Response((curve,) * channels, REC709 if channels == 3 else (1.0,))


@dataclass(frozen=True, slots=True, eq=False)
class PairTables:
    """Light of 8-bit colour, looked up two samples at a time.

    ``first`` is indexed by red + 256 x green, ``second`` by blue + 256 x the fourth sample,
    which does not matter. Neutral greys come out exactly rounded.
    """

    first: Light
    second: Light

    @classmethod
    def of(cls, response: Response) -> "PairTables":
        """The tables of ``response``, whose curves have 256 codes."""
        red, green, blue = (
            WHITE * weight * curve
            for weight, curve in zip(response.weights, response.curves, strict=True)
        )
        red, green, grey = np.rint(red), np.rint(green), np.rint(red + green + blue)
        blue = np.maximum(grey - red - green, 0.0)
        pairs = np.minimum(red[None, :] + green[:, None], WHITE - blue.max())
        return cls(pairs.astype(np.uint16).ravel(), np.tile(blue.astype(np.uint16), 256))

    def light(self, quads: NDArray[np.uint16]) -> Light:
        """Light of (..., 2) pairs of samples."""
        found = self.first.take(quads[..., 0], mode="clip")
        found += self.second.take(quads[..., 1], mode="clip")
        return found


@dataclass(frozen=True, slots=True, eq=False)
class DeepTables:
    """Light of samples of up to 16 bits, one fine table per channel."""

    channels: tuple[NDArray[np.uint32], ...]

    @classmethod
    def of(cls, response: Response) -> "DeepTables":
        """The tables of ``response``, whose curves have as many codes as samples can take."""
        return cls(
            tuple(
                np.rint(WHITE * _FINE * weight * curve).astype(np.uint32)
                for weight, curve in zip(response.weights, response.curves, strict=True)
            )
        )

    def light(self, samples: Samples) -> Light:
        """Light of (..., channels) samples."""
        total = self.channels[0].take(samples[..., 0], mode="clip")
        for number, table in enumerate(self.channels[1:], start=1):
            total += table.take(samples[..., number], mode="clip")
        total += _FINE // 2
        total //= _FINE
        return np.minimum(total, WHITE).astype(np.uint16)


def over_paper(light: Light, cover: Samples, full: int) -> Light:
    """``light`` over white paper, where ``cover`` (0..``full``) says how much of it there is."""
    share = cover.astype(np.float32) / np.float32(full)
    mixed: NDArray[np.float32] = WHITE - share * (WHITE - light.astype(np.float32))
    return np.rint(mixed).astype(np.uint16)
