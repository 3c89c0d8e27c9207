"""Samples of any depth, whole numbers or floating point, become light."""

import numpy as np
from numpy.typing import NDArray

from toneladder.picture.heading import Strips
from toneladder.picture.light import (
    REC709,
    WHITE,
    DeepTables,
    Light,
    Samples,
    over_paper,
)
from toneladder.picture.profile import way_of

_DEEPEST = 16  # bits; finer whole numbers are cut to it


def whole_number_strips(
    samples: Samples,
    bits: int,
    channels: int,
    profile: bytes,
    *,
    clear: bool = False,
    white_is_zero: bool = False,
    premultiplied: bool = False,
) -> Strips:
    """Light of samples that are whole numbers from 0 to 2**bits - 1.

    Parameters
    ----------
    samples : (height, width, channels or more) array
        Grey, red-green-blue or four inks, and the cover after them if ``clear``.
    bits : int
        Bits a sample.
    channels : int
        1, 3 or 4.
    profile : bytes
        Embedded colour profile, or nothing.
    clear : bool
        Whether the sample after the colours says how much of white paper they cover.
    white_is_zero : bool
        Whether the codes run from white to black.
    premultiplied : bool
        Whether the colours are already weakened by their cover.
    """
    too_fine = max(0, bits - _DEEPEST)
    full = (1 << (bits - too_fine)) - 1
    way = way_of(profile, channels, full + 1)
    tables = DeepTables.of(way.response)

    def strip(start: int, stop: int) -> Light:
        rows = samples[start:stop] >> too_fine if too_fine else samples[start:stop]
        colours, cover = rows[..., :channels], rows[..., channels] if clear else None
        if white_is_zero:
            colours = full - colours
        if premultiplied and cover is not None:
            colours = _unweakened(colours, cover, full)
        if way.convert is not None:
            colours = way.convert(_spread(colours, full))
        elif channels == 4:
            colours = _of_inks(colours, full)
        light = tables.light(colours)
        return light if cover is None else over_paper(light, cover, full)

    return strip


def floating_strips(samples: Samples, channels: int, *, clear: bool = False) -> Strips:
    """Light of floating-point samples, taken as linear light; 1 is white.

    What is lighter than white is white, and what is no number is paper.
    """
    weights = np.array(REC709 if channels == 3 else (1.0,), np.float32)

    def strip(start: int, stop: int) -> Light:
        rows = samples[start:stop].astype(np.float32)
        share: NDArray[np.float32] = rows[..., :channels] @ weights
        share = np.clip(np.nan_to_num(share, nan=1.0), 0.0, 1.0)
        light = np.rint(share * WHITE).astype(np.uint16)
        if not clear:
            return light
        return over_paper(light, np.clip(np.nan_to_num(rows[..., channels]), 0.0, 1.0), 1)

    return strip


def _unweakened(colours: Samples, cover: Samples, full: int) -> NDArray[np.uint16]:
    whole = np.maximum(cover, 1)[..., None].astype(np.uint32)
    found: NDArray[np.uint32] = np.minimum(colours.astype(np.uint32) * full // whole, full)
    return found.astype(np.uint16)


def _spread(colours: Samples, full: int) -> NDArray[np.uint16]:
    """Codes of any depth on the scale of 16 bits."""
    if full == WHITE:
        return colours.astype(np.uint16)
    return (colours.astype(np.uint32) * WHITE // full).astype(np.uint16)


def _of_inks(inks: Samples, full: int) -> NDArray[np.uint16]:
    """Red, green and blue of four inks of which no profile is known."""
    left = full - inks.astype(np.uint32)
    return (left[..., :3] * left[..., 3:] // full).astype(np.uint16)
