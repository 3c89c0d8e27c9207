"""What a scan betrays of its scanner: sharpened, stretched or clipped tones."""

from itertools import pairwise

import numpy as np

from toneladder.optics import lightness, srgb_from_linear
from toneladder.picture.light import WHITE, Light
from toneladder.scans.page import FloatArray
from toneladder.scans.values import Corners, FoundStrip
from toneladder.wording import say

_HALO = 0.05  # of the step between two tones
_REACH = 9.0  # pixels to both sides of a border
_LINES = 160
_LEAST_STEP = 6.0
_FULL, _EMPTY = 0.998, 0.0008
_CLIPPED = 0.3
_MOST_CODES = 200_000
_GAPS = 0.05


def doubts(light: Light, found: FoundStrip) -> tuple[str, ...]:
    """Sentences about what was done to a scan before it was read; empty if nothing shows.

    Parameters
    ----------
    light : (height, width) array
        Linear luminance of the scan, 0 to 65535, at its full size.
    found : FoundStrip
        Where the strip lies.
    """
    said = []
    if _sharpened(light, found):
        said.append(
            say(
                "This scan was sharpened: the borders between its patches have halos. Scan again"
                " with sharpening off."
            )
        )
    paper, ink = _clipped(light, found)
    if paper:
        said.append(
            say(
                "The paper is blown out to pure white in this scan, so the light tones are wrong."
                " Scan again with automatic exposure and contrast off."
            )
        )
    if ink:
        said.append(
            say(
                "The darkest patch is pure black in this scan; no ink is. Scan again with"
                " automatic contrast off."
            )
        )
    if _combed(light) and not (paper and ink):
        said.append(
            say(
                "The tones of this scan were stretched: some of its greys are never used. Scan"
                " again with automatic contrast off, or in 16 bits."
            )
        )
    return tuple(said)


def _sharpened(light: Light, found: FoundStrip) -> bool:
    """Whether tones overshoot on both sides of the borders between patches."""
    halos = [
        halo
        for one, other in pairwise(found.patches)
        if (halo := _halo(light, one, other)) is not None
    ]
    return len(halos) > 0 and float(np.median(halos)) > _HALO


def _halo(light: Light, one: Corners, other: Corners) -> float | None:
    """The smaller overshoot at the border of two patches, as a share of the step between."""
    across = _across(light, np.array(one[1]), np.array(one[2]), np.array(other[1]))
    if across is None:
        return None
    edge = len(across) // 2
    plain = max(3, edge // 3)
    before, behind = float(np.median(across[:plain])), float(np.median(across[-plain:]))
    step = behind - before
    if abs(step) < _LEAST_STEP:
        return None
    way = np.sign(step)
    first = (before - across[: edge + 1]).max() if way > 0 else (across[: edge + 1] - before).max()
    last = (across[edge:] - behind).max() if way > 0 else (behind - across[edge:]).max()
    return float(min(first, last) / abs(step))


def _across(
    light: Light, top: FloatArray, foot: FloatArray, beyond: FloatArray
) -> FloatArray | None:
    """CIE L* (steps) across a border, at the scan's own pixels, each line laid on its edge."""
    from scipy import ndimage

    way = (beyond - top) / max(float(np.linalg.norm(beyond - top)), 1e-9)
    width = float(np.linalg.norm(beyond - top))
    reach = min(3.0 * _REACH, 0.4 * width)
    if reach < _REACH:
        return None
    at = np.linspace(0.2, 0.8, _LINES)[:, None, None]
    off = np.arange(-2.0 * reach, 2.0 * reach + 0.5, 0.5)[None, :, None]
    places = top + at * (foot - top) + off * way
    seen = ndimage.map_coordinates(
        light, [places[..., 1] - 0.5, places[..., 0] - 0.5], order=1, mode="nearest"
    )
    tones = lightness(seen / WHITE)
    mean = ndimage.uniform_filter1d(np.median(tones, axis=0), 3)
    middle = len(mean) // 2
    near = slice(middle - int(reach), middle + int(reach))
    edge = middle - int(reach) + int(np.abs(np.diff(mean[near])).argmax())
    half = int(reach)
    return np.asarray(mean[edge - half : edge + half])


def _clipped(light: Light, found: FoundStrip) -> tuple[bool, bool]:
    """Whether the paper is pure white, and the darkest patch pure black."""
    top = float(np.mean(light[::7, ::7] >= _FULL * WHITE))
    corners = np.array(found.patches[-1])
    inner = corners.mean(axis=0) + 0.6 * (corners - corners.mean(axis=0))
    x, y = np.clip(inner.min(axis=0), 0, None).astype(int)
    right, foot = inner.max(axis=0).astype(int) + 1
    patch = light[y:foot, x:right]
    black = float(np.mean(patch <= _EMPTY * WHITE)) if patch.size else 0.0
    return top > _CLIPPED, black > _CLIPPED


def _combed(light: Light) -> bool:
    """Whether levels of an 8-bit scan are missing between levels that are used."""
    every = max(1, int(np.sqrt(light.size / _MOST_CODES)))
    code = 255.0 * srgb_from_linear(light[::every, ::every].ravel() / WHITE)
    whole = np.round(code)
    if np.abs(code - whole)[whole > 20].max(initial=0.0) > 0.04:
        return False  # 16 bits, or colours: nothing can be told of it
    counts = np.bincount(whole.astype(np.intp), minlength=256)
    low, high = np.searchsorted(np.cumsum(counts) / counts.sum(), [0.02, 0.98])
    used = counts[low : high + 1]
    if used.size < 40:
        return False
    expected = np.minimum(used[:-2], used[2:])
    missing = (used[1:-1] == 0) & (expected > 3)
    return float(missing.mean()) > _GAPS
