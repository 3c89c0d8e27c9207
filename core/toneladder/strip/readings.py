"""One reading of a patch, as people type it: lightness, density, or a step of a grey scale."""

import re
from collections.abc import Sequence
from enum import StrEnum

import numpy as np

from toneladder.bite.fitting.values import USUAL_SPREAD
from toneladder.errors import QuantityError
from toneladder.optics import density, lightness, luminance
from toneladder.quantities import write_number
from toneladder.quantities.typed import clean, number, quoted, unreadable
from toneladder.strip.limits import WIDEST_SPREAD
from toneladder.wording import say

MOST_DENSITY = 5.0

_STEP = re.compile(r"(?:step\s*)?(\d+(?:[.,]5)?)")
_EXAMPLES = {"lightness": "63.5", "density": "0.45", "step": "7", "spread": "0.6"}


class Unit(StrEnum):
    """What a reading is given in."""

    LIGHTNESS = "lightness"
    DENSITY = "density"
    STEP = "step"


def lightness_of_density(reading: float) -> float:
    """CIE L* of a reflection density.

    References
    ----------
    [ISO5-3], [CIE15].
    """
    return float(lightness(10.0**-reading))


def density_of_lightness(reading: float) -> float:
    """Reflection density of a CIE L* above 0; see :func:`lightness_of_density`."""
    return max(0.0, float(density(luminance(reading))))


def read_reading(
    text: str, unit: Unit = Unit.LIGHTNESS, grey_scale: Sequence[float] = ()
) -> tuple[float, float]:
    """Lightness (CIE L*) of one typed reading, and the spread that goes with its unit.

    Parameters
    ----------
    text : str
        A number; for :attr:`Unit.STEP` the number of the step that matches, counted from 1,
        or a half where it lies between two.
    unit : Unit
        What the number is.
    grey_scale : sequence of float
        Densities of the etcher's own grey scale, for :attr:`Unit.STEP`.

    Raises
    ------
    QuantityError
        It cannot be read, or no print is that light or that dark.
    """
    if unit is Unit.STEP:
        return _of_step(text, grey_scale)
    example = _EXAMPLES[unit]
    value = number(clean(text, example).removesuffix(" l*"), example)
    if unit is Unit.DENSITY:
        _require_within(text, value, MOST_DENSITY)
        return lightness_of_density(value), USUAL_SPREAD
    _require_within(text, value, 100.0)
    return value, USUAL_SPREAD


def read_spread(text: str) -> float:
    """Standard deviation (CIE L*) of a reading, as typed.

    Raises
    ------
    QuantityError
        It cannot be read, or is no spread of a reading.
    """
    spread = number(clean(text, _EXAMPLES["spread"]), _EXAMPLES["spread"])
    _require_within(text, spread, WIDEST_SPREAD)
    return spread


def _of_step(text: str, grey_scale: Sequence[float]) -> tuple[float, float]:
    found = _STEP.fullmatch(clean(text, _EXAMPLES["step"]))
    if found is None:
        raise unreadable(text, _EXAMPLES["step"])
    step = float(found[1].replace(",", "."))
    if not 1.0 <= step <= len(grey_scale):
        raise QuantityError(
            say(
                "{typed} is no step of a grey scale of {n} steps. Nothing was changed. Write a"
                " step it has.",
                typed=quoted(text),
                n=len(grey_scale),
            )
        )
    steps = np.arange(1.0, len(grey_scale) + 1.0)
    shades = lightness(10.0 ** -np.asarray(grey_scale, dtype=np.float64))
    near = np.interp([step - 0.5, step, step + 0.5], steps, shades)
    half_step = float(np.abs(np.diff(near)).max())
    return float(near[1]), max(half_step / 3.0**0.5, USUAL_SPREAD)  # even law of a half step


def _require_within(text: str, value: float, most: float) -> None:
    if not 0.0 <= value <= most:
        raise QuantityError(
            say(
                "{typed} is outside 0 to {most}. Nothing was changed. Write a value in between.",
                typed=quoted(text),
                most=write_number(most),
            )
        )
