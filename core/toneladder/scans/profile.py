"""The tones along a band of the page, from one end to the other and a little beyond."""

from dataclasses import dataclass

import numpy as np

from toneladder.scans.bands import Band
from toneladder.scans.page import FloatArray, Raster

POINTS = 168
"""Points along the band itself."""

_BEYOND = 0.75  # of the band's length, at both ends: patches as light as paper lie there
_ACROSS = np.linspace(0.14, 0.86, 24)[:, None]
_BESIDE = np.array([-0.22, -0.14, 1.14, 1.22])[:, None]
_CLUTTER = 2.0
_LIKE_PAPER = 6.0


@dataclass(frozen=True, slots=True, eq=False)
class Profile:
    """CIE L* along a band; nan where the page ends or something else lies.

    ``tones`` (n,) are medians across the band, ``strays`` (n,) how far the middle half of the
    tones across lies apart; ``along`` (n,) are places along the band, 0 to 1 inside it.
    ``bare`` (n,) is the share (0 to 1) of what lies beside it that is paper, ``paper`` (n,) how
    light that paper is.
    """

    along: FloatArray
    tones: FloatArray
    strays: FloatArray
    bare: FloatArray
    paper: FloatArray

    @property
    def pitch(self) -> float:
        """How far its points lie apart."""
        return float(self.along[1] - self.along[0])


def profile_of(tone: Raster, band: Band, paper: float) -> Profile:
    """The tones along ``band``; ``tone`` (height, width) is CIE L* of the evened page."""
    from scipy import ndimage

    more = round(_BEYOND * POINTS)
    along = (np.arange(-more, POINTS + more) + 0.5) / POINTS
    x, y = band.to_page(along[None, :], _ACROSS)
    seen = ndimage.map_coordinates(tone, [y - 0.5, x - 0.5], order=1, cval=np.nan)
    tones = np.median(seen, axis=0)
    soft = ndimage.uniform_filter1d(np.nan_to_num(seen, nan=paper), max(1, POINTS // 20), axis=1)
    low, high = np.quantile(soft, [0.25, 0.75], axis=0)
    tones = _without_clutter(tones, paper - band.drop - _CLUTTER, more)
    x, y = band.to_page(along[None, :], _BESIDE)
    beside = ndimage.map_coordinates(tone, [y - 0.5, x - 0.5], order=1, cval=np.nan)
    like_paper = np.abs(beside - paper) < _LIKE_PAPER
    level = _level(np.where(like_paper, beside, np.nan), paper)
    return Profile(along, tones, high - low, like_paper.mean(axis=0), level)


def _level(beside: FloatArray, paper: float) -> FloatArray:
    """The paper's lightness along a band, smooth, from what was seen of it beside."""
    from scipy import ndimage

    seen = np.isfinite(beside).any(axis=0)
    if not seen.any():
        return np.full(beside.shape[1], paper)
    at = np.arange(beside.shape[1])
    known = np.interp(at, at[seen], np.nanmean(beside[:, seen], axis=0))
    return np.asarray(ndimage.median_filter(known, POINTS // 3, mode="nearest"))


def _without_clutter(tones: FloatArray, darkest: float, more: int) -> FloatArray:
    """Beyond its ends a band is lighter than inside; what is dark again is something else."""
    clean = tones.copy()
    slack = max(2, POINTS // 40)
    other = ~(tones > darkest)
    behind = np.flatnonzero(other[len(tones) - more + slack :])
    if behind.size:
        clean[len(tones) - more + slack + behind[0] :] = np.nan
    before = np.flatnonzero(other[: more - slack])
    if before.size:
        clean[: before[-1] + 1] = np.nan
    return _ended(clean, more, slack)


def _ended(tones: FloatArray, more: int, slack: int) -> FloatArray:
    """Nothing but a little paper behind the dark end: pale patches lie at the other one."""
    end = POINTS // 8
    first, last = np.median(tones[more : more + end]), np.median(tones[-more - end : -more])
    if first < last:
        tones[: more - slack] = np.nan
    else:
        tones[len(tones) - more + slack :] = np.nan
    return tones
