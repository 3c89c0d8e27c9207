"""Reads the patches that were found: how dark each one printed, and how surely."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from toneladder.bite.fitting.values import Patch
from toneladder.errors import StripError
from toneladder.optics import lightness, luminance
from toneladder.picture.light import Light
from toneladder.scans.doubts import doubts
from toneladder.scans.greys import straightening
from toneladder.scans.page import BARE_PAPER, BoolArray, FloatArray, Page, Raster, lamp, page_of
from toneladder.scans.values import Corners, FoundStrip, GreyScale, Reading
from toneladder.wording import say

SCAN_SPREAD, SCALED_SPREAD, PHOTOGRAPH_SPREAD = 0.5, 0.35, 1.2
"""CIE L* by which a scanner, one with a grey scale, and a telephone stray: assumptions."""

_INNER = 0.18  # of a patch at each side, where ink creeps and the scan is soft
_SAMPLES = 48
_BLOCKS = 4
_ROUNDS = 3
_NEAR, _OFF = 1.0, 0.12  # paper is looked for so far round the strip, in heights of the strip
_LEAST_BARE = 400
_UNBITTEN_GAP = 12.0


@dataclass(frozen=True, slots=True)
class _Tone:
    lightness: float
    spread: float


def read_patches(
    light: Light,
    found: FoundStrip,
    bites_s: Sequence[float],
    *,
    scale: GreyScale | None = None,
    paper: float | None = None,
    photograph: bool = False,
) -> Reading:
    """The lightness of every patch of a strip on a scan.

    The bare paper round the strip evens the light and is taken to have its stated lightness;
    a grey scale of known densities straightens the tones first and says how light they are.

    Parameters
    ----------
    light : (height, width) array
        Linear luminance of the scan, 0 to 65535.
    found : FoundStrip
        Where the patches lie.
    bites_s : sequence of float
        Total bite of each patch, clock seconds, in the order of the patches. If that order runs
        from the dark end, it is turned round.
    scale : GreyScale, optional
        What the steps in ``found`` are.
    paper : float, optional
        CIE L* of the bare paper; :data:`BARE_PAPER`, or as the grey scale says.
    photograph : bool
        A photograph strays more than a scan.

    Returns
    -------
    Reading
        Spreads are standard deviations, CIE L*: of the device, and of the patch itself.

    Raises
    ------
    StripError
        If there are not as many bites as patches, or the grey scale is none.
    """
    if len(bites_s) != len(found.patches):
        raise StripError(
            say(
                "{patches} patches were found and {bites} bites were given. Nothing was read."
                " Give one bite for every patch.",
                patches=len(found.patches),
                bites=len(bites_s),
            )
        )
    page = page_of(light)
    even = _even_light(page, found, scale, paper)
    base = PHOTOGRAPH_SPREAD if photograph else SCALED_SPREAD if scale else SCAN_SPREAD
    tones = [_tone(even, _on_page(quad, page), base) for quad in found.patches]
    if _runs_from_dark(bites_s, tones):
        tones.reverse()
    patches = tuple(
        Patch(float(bite), round(tone.lightness, 2), round(tone.spread, 2))
        for bite, tone in zip(bites_s, tones, strict=True)
    )
    remarks = [*found.notes, *doubts(light, found), *_remarks(patches, paper or BARE_PAPER)]
    if photograph and scale is None:
        remarks.append(
            say(
                "Without a grey scale the tones are what the telephone makes of them. Lay one"
                " beside the strip, or scan it."
            )
        )
    return Reading(patches, tuple(remarks))


def _even_light(
    page: Page, found: FoundStrip, scale: GreyScale | None, paper: float | None
) -> Raster:
    """The page in even light (0..1), its tones straightened if there is a grey scale."""
    bare = _paper_round(found, page)
    if scale is None or not found.steps:
        glow = lamp(page.light, bare)
        return page.light / glow * np.float32(luminance(BARE_PAPER if paper is None else paper))
    steps = [_on_page(quad, page) for quad in found.steps]
    middles = np.array([np.mean(quad, axis=0) for quad in steps])
    seen = np.array([np.median(_inner(page.light, quad)) for quad in steps])
    known = 10.0 ** -np.array(scale.densities)
    glow, level = lamp(page.light, bare), 1.0
    straight = page.light
    for _ in range(_ROUNDS):
        level = float(np.mean(glow[bare])) if bare.any() else float(glow.mean())
        lit = glow[_pixels(middles, glow.shape)] / level
        straight = straightening(seen, known * lit)(page.light)
        glow = lamp(straight, bare)
    level = float(np.mean(glow[bare])) if bare.any() else float(glow.mean())
    if paper is None and scale.absolute:
        return straight / glow * np.float32(level)
    return straight / glow * np.float32(luminance(BARE_PAPER if paper is None else paper))


def _pixels(middles: FloatArray, shape: tuple[int, ...]) -> tuple[np.ndarray, np.ndarray]:
    columns, rows = middles.astype(np.intp).T
    return np.clip(rows, 0, shape[0] - 1), np.clip(columns, 0, shape[1] - 1)


def _on_page(quad: Corners, page: Page) -> FloatArray:
    return np.asarray(quad, dtype=np.float64) / page.scale


def _paper_round(found: FoundStrip, page: Page) -> BoolArray:
    """Where bare paper may be: about the strip and the grey scale, off their edges."""
    from scipy import ndimage
    from skimage.draw import polygon2mask

    rows = [found.patches, found.steps] if found.steps else [found.patches]
    covered = np.zeros(page.light.shape, dtype=bool)
    height = 1.0
    for row in rows:
        for quad in row:
            x, y = _on_page(quad, page).T
            covered |= polygon2mask(page.light.shape, np.stack([y, x], axis=1))
        ends = _on_page(row[0], page)
        height = max(height, float(np.linalg.norm(ends[3] - ends[0])))
    away = ndimage.distance_transform_edt(~covered)
    bare = (away > _OFF * height) & (away < _NEAR * height)
    return np.asarray(bare if bare.sum() > _LEAST_BARE else away > 0)


def _inner(light: Raster, quad: FloatArray) -> FloatArray:
    """Light (samples, samples) at even places in the inner part of a patch."""
    from scipy import ndimage

    at = _INNER + (1.0 - 2.0 * _INNER) * (np.arange(_SAMPLES) + 0.5) / _SAMPLES
    s, t = at[None, :, None], at[:, None, None]
    a, b, c, d = quad
    places = (1 - s) * (1 - t) * a + s * (1 - t) * b + s * t * c + (1 - s) * t * d
    seen = ndimage.map_coordinates(
        light, [places[..., 1] - 0.5, places[..., 0] - 0.5], order=1, mode="nearest"
    )
    return np.asarray(seen, dtype=np.float64)


def _tone(light: Raster, quad: FloatArray, base: float) -> _Tone:
    inner = _inner(light, quad)
    middle = float(lightness(np.median(inner)))
    side = _SAMPLES // _BLOCKS
    blocks = inner.reshape(_BLOCKS, side, _BLOCKS, side).swapaxes(1, 2).reshape(_BLOCKS**2, -1)
    parts = lightness(np.median(blocks, axis=1))
    low, high = np.quantile(parts, [0.16, 0.84])
    uneven = float(high - low) / 2.0
    return _Tone(min(max(middle, 0.0), 100.0), float(np.hypot(base, uneven)))


def _runs_from_dark(bites_s: Sequence[float], tones: Sequence[_Tone]) -> bool:
    """Whether the longest bite was named first: a longer bite is darker."""
    rank = np.argsort(np.argsort(bites_s, kind="stable"))
    shade = np.array([tone.lightness for tone in tones])
    return float(np.dot(rank - rank.mean(), shade - shade.mean())) > 0.0


def _remarks(patches: Sequence[Patch], paper: float) -> list[str]:
    said = []
    lightest = min(patches, key=lambda patch: patch.total_bite_s)
    if lightest.total_bite_s == 0.0 and paper - lightest.lightness > _UNBITTEN_GAP:
        said.append(
            say(
                "The unbitten patch is much darker than the paper. Look whether every bite stands"
                " at its patch."
            )
        )
    return said
