"""Strips of a picture become one upright raster of light."""

import numpy as np

from toneladder.picture.heading import Heading, Strips
from toneladder.picture.light import Light
from toneladder.wording import say

_KEPT_WHOLE = 128_000_000  # pixels
_STRIP = 400_000  # pixels, about
_SIDEWAYS = (5, 6, 7, 8)


def upright_sides(heading: Heading) -> tuple[int, int]:
    """Width and height of the picture as it is meant to be seen."""
    if heading.orientation in _SIDEWAYS:
        return heading.height, heading.width
    return heading.width, heading.height


def gathered(heading: Heading, strips: Strips) -> tuple[Light, tuple[str, ...]]:
    """The whole picture upright, and a note if it is kept at a part of its size.

    Every strip is written straight into its place. A raster of more than 128 million pixels is
    averaged two by two while it is read.
    """
    width, height = -(-heading.width // heading.part), -(-heading.height // heading.part)
    step = 2 if width * height > _KEPT_WHOLE else 1
    shape = -(-height // step), -(-width // step)
    light = np.empty(shape[::-1] if heading.orientation in _SIDEWAYS else shape, np.uint16)
    stored = _as_stored(light, heading.orientation)
    rows = 2 * max(1, _STRIP // width // 2)
    for start in range(0, height, rows):
        strip = strips(start, min(start + rows, height))
        piece = strip if step == 1 else _halved(strip)
        stored[start // step : start // step + len(piece)] = piece
    light.flags.writeable = False
    return light, _reduction(step * heading.part)


def _as_stored(upright: Light, orientation: int) -> Light:
    """A view of an upright picture as a camera with that orientation tag stores it."""
    upside = slice(None, None, -1 if orientation in (3, 4, 7, 8) else 1)
    across = slice(None, None, -1 if orientation in (2, 3, 6, 7) else 1)
    view = upright[upside, across]
    return view.T if orientation in _SIDEWAYS else view


def _halved(strip: Light) -> Light:
    """Means of two by two pixels; a last odd row or column is taken twice."""
    height, width = strip.shape
    padded = np.pad(strip, ((0, height % 2), (0, width % 2)), mode="edge").astype(np.uint32)
    total = padded[0::2, 0::2] + padded[1::2, 0::2] + padded[0::2, 1::2] + padded[1::2, 1::2]
    return ((total + 2) // 4).astype(np.uint16)


def _reduction(parts: int) -> tuple[str, ...]:
    if parts == 1:
        return ()
    if parts == 2:
        return (say("The picture is very large; it is read at half its size."),)
    return (say("The picture is very large; it is read at 1/{n} of its size.", n=parts),)
