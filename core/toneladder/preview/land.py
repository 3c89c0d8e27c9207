"""What a tone is made of: land that stays light, openings that hold ink."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from toneladder.optics import FloatArray, luminance

SCATTER = 1.6  # Yule-Nielsen's n: light that enters the paper beside the ink and leaves under it


@dataclass(frozen=True, slots=True)
class Inking:
    """The surface of every tone, as arrays over the tones.

    ``land`` is the share (0..1) still standing. ``paper`` and ``opening`` are what land and
    openings reflect, to the power 1/n; times ``around``, the light that the tone's surface
    scatters, each is the reflectance (0..1) in which it is seen, and the plain mean of what is
    seen is the tone's luminance.
    """

    land: FloatArray
    paper: FloatArray
    opening: FloatArray
    around: FloatArray


def inking(
    tone_lightness: Sequence[float],
    standing: ArrayLike,
    ink_light: float,
    scatter: float = SCATTER,
) -> Inking:
    """Land and openings that together print each tone's lightness.

    The openings darken first, with all the standing land around them; when they are as black
    as the ink and the tone is still too light, the land gives way.

    Light scatters sideways in the paper, so land beside ink looks darker than bare paper. With
    reflectances to the power 1/n written r, a tone prints m^n, m = a·r_land + (1-a)·r_open;
    land is then seen as r_land·m^(n-1), an opening as r_open·m^(n-1), and their plain mean is
    m^n again.

    Parameters
    ----------
    tone_lightness : (n,) CIE L*, never rising
        Tone 0 is wiped white: all of it is land.
    standing : (n,) or scalar, 0..1
        Share of land that the grain leaves in each tone.
    ink_light : float, 0..1
        Reflectance of ink lying thick.
    scatter : float, >= 1
        Yule and Nielsen's n; 1 is paper that scatters nothing sideways.

    References
    ----------
    [YuleNielsen1951]
    """
    m = luminance(tone_lightness) ** (1.0 / scatter)
    paper = m[0]
    black = np.minimum(ink_light ** (1.0 / scatter), m)
    share = np.broadcast_to(np.asarray(standing, dtype=np.float64), m.shape)
    opening = np.maximum((m - share * paper) / np.maximum(1.0 - share, 1e-9), black)
    white = opening >= paper
    land = np.where(white, 1.0, (m - opening) / np.where(white, 1.0, paper - opening))
    return Inking(land, np.where(white, m, paper), opening, m ** (scatter - 1.0))
