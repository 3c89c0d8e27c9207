"""From a total bite to the lightness it prints: depth, undercut, ink held, paper."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from toneladder.bite.grain import Grain, land_and_edge
from toneladder.optics import FloatArray, lightness, luminance, yule_nielsen

ETCH_FACTOR = 1.5
SCATTERING = 1.6


@dataclass(frozen=True, slots=True, eq=False)
class BathModel:
    """One metal, bath, ground and ink, in numbers.

    Every number but ``spread`` may be an array, broadcast against the bites.

    ``rate_um_per_min`` is the depth bitten in a minute; ``coverage``, ``diameter_um`` and
    ``spread`` are the ground's; ``ink_strength`` is how fast ink darkens with its depth, per µm;
    ``black`` is the reflectance of deep ink (0..1); ``widest_gap_um`` is the opening from which
    wiping takes half the ink; ``white_lightness`` is CIE L* of wiped, unbitten metal, that is
    paper plus plate tone. Rate and depth stand for each other only: no rate of a still bath has
    been published, and none is ever shown.
    """

    rate_um_per_min: float | FloatArray
    coverage: float | FloatArray
    diameter_um: float | FloatArray
    spread: float
    ink_strength: float | FloatArray
    black: float | FloatArray
    widest_gap_um: float | FloatArray
    white_lightness: float | FloatArray


def printed_lightness(bites_s: ArrayLike, model: BathModel) -> FloatArray:
    """Lightness that total bites print.

    Parameters
    ----------
    bites_s : (...) array, seconds, >= 0
        Total bites.
    model : BathModel
        What is bitten, and with what it is printed.

    Returns
    -------
    (...) array, CIE L* (0..100); it may rise again where the grain is gone (open bite).

    References
    ----------
    [YuleNielsen1951] for the mixing of land and ink; [Allen1982] for the etch factor. The rest is
    our own assumption: ink darkens the paper exponentially with its depth, and wiping drags it
    out of wide openings.
    """
    depth = np.asarray(bites_s, dtype=np.float64) / 60.0 * model.rate_um_per_min
    grain = Grain(model.coverage, model.diameter_um, model.spread)
    standing, edge = land_and_edge(depth / ETCH_FACTOR, grain)
    drag = (1.0 - standing) / np.asarray(model.widest_gap_um, dtype=np.float64)
    ink = depth * edge**2 / (edge**2 + drag**2)
    white = luminance(model.white_lightness)
    inked = model.black + (white - model.black) * np.exp(-model.ink_strength * ink)
    return lightness(yule_nielsen(1.0 - standing, inked, white, SCATTERING))
