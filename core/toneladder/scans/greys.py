"""A grey scale straightens the tones of a scanner or a telephone."""

import re
from dataclasses import dataclass

import numpy as np

from toneladder.errors import QuantityError, StripError
from toneladder.optics import lightness
from toneladder.scans.page import FloatArray, Raster
from toneladder.scans.values import GreyScale
from toneladder.wording import say

FEWEST_STEPS, MOST_STEPS = 5, 24
DEEPEST = 5.0
"""Density that no printed scale goes beyond."""

_EVEN = re.compile(r"(\d{1,2})\s*[x×]\s*(\d*[.,]?\d+)")
_LEAST_FALL = 0.985  # of the light from step to step; what falls less is lost in the dark
_LEAST_KEPT = 5


@dataclass(frozen=True, slots=True, eq=False)
class Straightening:
    """What light the scanner meant: two rising columns of logarithms, ``seen`` and ``true``."""

    seen: FloatArray
    true: FloatArray

    def __call__(self, light: Raster) -> Raster:
        """Straightened light (any shape, 0 and more) of light as it was scanned (0 to 1)."""
        from scipy.interpolate import PchipInterpolator

        curve = PchipInterpolator(self.seen, self.true, extrapolate=False)
        table_at = np.linspace(self.seen[0], self.seen[-1], 2048)
        table = curve(table_at)
        value = np.log(np.maximum(light, np.exp(self.seen[0])))
        inside = np.interp(value, table_at, table)
        slope = (self.true[-1] - self.true[-2]) / (self.seen[-1] - self.seen[-2])
        beyond = np.maximum(value - self.seen[-1], 0.0) * slope
        return np.asarray(np.exp(inside + beyond), dtype=np.float32)


def read_grey_scale(text: str) -> GreyScale:
    """A grey scale as typed: its densities, or how many steps and how far apart.

    >>> read_grey_scale("0.05 0.20 0.35 0.50 0.65").densities
    (0.05, 0.2, 0.35, 0.5, 0.65)
    >>> read_grey_scale("21x0.15").absolute
    False

    Raises
    ------
    QuantityError
        It cannot be read, or no printed scale is like that.
    """
    even = _EVEN.fullmatch(text.strip().lower())
    if even:
        steps, apart = int(even[1]), float(even[2].replace(",", "."))
        densities = tuple(round(apart * step, 6) for step in range(steps))
    else:
        try:
            densities = tuple(float(piece) for piece in re.split(r"[\s,;]+", text.strip()))
        except ValueError:
            densities = ()
    rising = len(densities) > 1 and min(np.diff(densities)) > 0.0
    if not rising or min(densities) < 0.0 or max(densities) > DEEPEST:
        raise _unreadable(text)
    if not FEWEST_STEPS <= len(densities) <= MOST_STEPS:
        raise _unreadable(text)
    return GreyScale(densities, absolute=even is None)


def straightening(seen: FloatArray, true: FloatArray) -> Straightening:
    """What makes ``true`` light of what was ``seen`` on a grey scale, lightest step first.

    Raises
    ------
    StripError
        If the steps do not get darker one after another, so that it is no grey scale.
    """
    kept = [0]
    for step in range(1, len(seen)):
        if 0.0 < seen[step] < seen[kept[-1]] * _LEAST_FALL:
            kept.append(step)
    strays = np.count_nonzero(np.diff(lightness(seen)) > 1.0)
    if len(kept) < _LEAST_KEPT or strays > 1 or seen[0] <= 0.0:
        raise StripError(
            say(
                "The steps of the grey scale do not get darker one after another on this scan."
                " Nothing was read. Look whether it is the right scale and lies flat."
            )
        )
    order = np.array(kept[::-1])
    return Straightening(np.log(seen[order]), np.log(true[order]))


def _unreadable(text: str) -> QuantityError:
    return QuantityError(
        say(
            "“{text}” is no grey scale. Write its densities from light to dark, such as"
            " “0.05 0.20 0.35 0.50 0.65”, or its steps, such as “21x0.15”",
            text=text[:60],
        )
    )
