"""Whether the patches themselves show that a longer bite prints lighter again."""

import numpy as np

from toneladder.optics import FloatArray

_LEAST_RISE = 1.5  # CIE L*
_WITNESSES = 2


def first_of_rise(bites_s: FloatArray, lightness: FloatArray, spread: FloatArray) -> float | None:
    """Bite (seconds) of the darkest patch, if all past it, two or more, are lighter than it.

    Parameters
    ----------
    bites_s, lightness, spread : (n,) array
        Patches that are thought good: seconds, CIE L*, standard deviation of the reading.

    Returns
    -------
    float or None
        None where fewer than two patches speak for a rise, or one speaks against it.
    """
    order = np.argsort(bites_s, kind="stable")
    bites, light, doubt = bites_s[order], lightness[order], spread[order]
    if not len(bites):
        return None
    darkest = int(light.argmin())
    later = bites > bites[darkest]
    rise = light[later] - light[darkest]
    sure = np.maximum(_LEAST_RISE, 2.0 * np.hypot(doubt[later], doubt[darkest]))
    if len(rise) < _WITNESSES or np.any(rise < sure):
        return None
    return float(bites[darkest])
