"""Millimetres in files: to a thousandth, as short as they can be written."""

import numpy as np

from toneladder.optics import FloatArray

_PARTS = tuple(f"{part / 1000.0:.3f}".rstrip("0").rstrip(".")[1:] for part in range(1000))
_DOUBTFUL = 1e-6  # of a thousandth: so near to half of one, all digits are needed to round
_EXACT = 16.0  # in sixteenths, half a thousandth is exact, and goes to the even one


def figure(number: float) -> str:
    """One number.

    >>> figure(12.0), figure(0.25), figure(-0.0001)
    ('12', '0.25', '0')
    """
    text = f"{number:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def figures(numbers: FloatArray) -> list[str]:
    """Many numbers (n,), written as :func:`figure` writes each, in a fraction of its time."""
    scaled = numbers * 1000.0
    near = np.rint(scaled)
    whole, parts = np.divmod(near.astype(np.intp), 1000)
    texts = [f"{mm}{_PARTS[part]}" for mm, part in zip(whole.tolist(), parts.tolist(), strict=True)]
    half_way = np.abs(np.abs(scaled - near) - 0.5) < _DOUBTFUL
    half_way &= numbers * _EXACT % 1.0 != 0.0
    for at in np.flatnonzero(half_way | (numbers < 0.0)).tolist():
        texts[at] = figure(float(numbers[at]))
    return texts
