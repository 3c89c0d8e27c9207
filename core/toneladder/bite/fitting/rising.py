"""Whether the patches themselves show that a longer bite prints lighter again."""

import numpy as np

from toneladder.optics import FloatArray

_LEAST_RISE = 1.5  # CIE L*
_WITNESSES = 2


def first_of_rise(bites_s: FloatArray, lightness: FloatArray, spread: FloatArray) -> float | None:
    """Bite (seconds) of the darkest patch, if two or more past it get lighter and lighter.

    Parameters
    ----------
    bites_s, lightness, spread : (n,) array
        Patches of one session: seconds, CIE L*, standard deviation of the reading.

    Returns
    -------
    float or None
        None where fewer than two patches speak for a rise, or one speaks against it.
    """
    order = np.argsort(bites_s, kind="stable")
    bites, light, doubt = bites_s[order], lightness[order], spread[order]
    darkest = int(light.argmin())
    later = np.flatnonzero(bites > bites[darkest])
    if len(later) < _WITNESSES:
        return None
    steps = np.array([darkest, later[0], later[-1]])
    climbs = np.all(np.diff(light[steps]) > np.maximum(_LEAST_RISE, 2.0 * doubt[steps[1:]]))
    above = np.all(light[later] - light[darkest] > _LEAST_RISE)
    return float(bites[darkest]) if climbs and above else None
