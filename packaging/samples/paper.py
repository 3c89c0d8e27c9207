"""What a hand, a brush and a sheet of paper add to a tone: grain, wobble, pooling, granulation."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy import fft, ndimage

Floats = NDArray[np.float32]


def drift(
    shape: tuple[int, int],
    seed: int,
    *,
    fall: float = 1.0,
    coarse: float = 0.0,
    stretch: tuple[float, float] = (1.0, 1.0),
) -> Floats:
    """Cloudy noise of mean 0 and deviation 1 that joins at its borders.

    Amplitude falls as (frequency)**-fall; frequencies below `coarse` cycles a pixel are damped;
    `stretch` draws the clouds out (down, across).
    """
    rng = np.random.default_rng(seed)
    white = fft.rfft2(rng.standard_normal(shape).astype(np.float32))
    down = fft.fftfreq(shape[0])[:, None] * stretch[0]
    across = fft.rfftfreq(shape[1])[None, :] * stretch[1]
    radius = np.sqrt(down**2 + across**2)
    radius[0, 0] = 1
    weight = np.sqrt(radius**2 + coarse**2) ** -fall
    weight[0, 0] = 0
    field = fft.irfft2(white * weight.astype(np.float32), shape)
    return (field / field.std()).astype(np.float32)


def lookup(field: Floats, down: Floats, across: Floats, order: int = 1) -> Floats:
    """A field that joins at its borders, read at real-valued places (pixels)."""
    return ndimage.map_coordinates(field, [down, across], order=order, mode="grid-wrap")


def wobble(tone: Floats, seed: int, reach: float, scale: float = 0.02) -> Floats:
    """The tone redrawn by hand: every line strays by about `reach` pixels."""
    rows, columns = np.indices(tone.shape, dtype=np.float32)
    dy = drift(tone.shape, seed, fall=3.2, coarse=scale) * reach
    dx = drift(tone.shape, seed + 1, fall=3.2, coarse=scale) * reach
    return ndimage.map_coordinates(tone, [rows + dy, columns + dx], order=1, mode="nearest")


def pooled(tone: Floats, radius: float, amount: float) -> Floats:
    """Pigment gathered at the borders of a darker wash, as it dries."""
    around = ndimage.gaussian_filter(tone, radius)
    return np.clip(tone - amount * np.clip(around - tone, 0, 1), 0, 1)


def on_paper(tone: Floats, seed: int, *, granulation: float = 0.03, tooth: float = 0.008) -> Floats:
    """Granulating pigment (most in the middle tones) and the tooth of the sheet."""
    grain = drift(tone.shape, seed, fall=0.9, coarse=0.06)
    patch = drift(tone.shape, seed + 1, fall=1.7, coarse=0.004)
    weight = 4 * tone * (1 - tone)
    return np.clip(
        tone
        + weight * (granulation * 0.55 * grain + granulation * 0.45 * patch)
        + tooth * grain * (0.3 + tone),
        0,
        1,
    ).astype(np.float32)


def halved(fine: Floats, times: int = 2) -> Floats:
    """Mean of each block of pixels."""
    h, w = fine.shape[0] // times, fine.shape[1] // times
    return fine[: h * times, : w * times].reshape(h, times, w, times).mean((1, 3))


def shown(light: Floats, *, white: float = 1.0) -> Floats:
    """Light to tone: rolled off towards white, then coded as sRGB codes it [IEC61966-2-1]."""
    x = np.clip(light / white, 0, None)
    x = np.clip(x * (1 + x * 0.16) / (1 + x * 0.62) * 1.4, 0, 1)
    return np.where(x <= 0.0031308, 12.92 * x, 1.055 * x ** (1 / 2.4) - 0.055).astype(np.float32)
