"""Finds a strip on a scan, and the grey scale beside it."""

from collections.abc import Sequence

import numpy as np

from toneladder.errors import StripError
from toneladder.optics import lightness
from toneladder.picture.light import Light
from toneladder.scans.page import evened, lamp, page_of
from toneladder.scans.rows import EITHER_WAY, Row, rows_on
from toneladder.scans.values import Corners, FoundStrip, GreyScale
from toneladder.wording import say

FEWEST, MOST = 2, 24
"""Patches that are looked for on a strip."""

_SCALE_STRAYS = 15.0


def find_strip(light: Light, *, patches: int, scale: GreyScale | None = None) -> FoundStrip:
    """The strip of a number of patches on a scan, at any angle and either way up.

    The light end comes first. Patches are taken to be about as wide as each other; borders that
    are seen say where they part, and where two tones print alike the even width does. A first
    patch as light as the paper is found by the width of the others.

    Parameters
    ----------
    light : (height, width) array
        Linear luminance of the scan, 0 to 65535.
    patches : int
        How many patches the strip has.
    scale : GreyScale, optional
        A grey scale that lies on the same page, and is looked for too.

    Raises
    ------
    StripError
        No strip is there, or one with another number of patches, or no grey scale.
    """
    if not FEWEST <= patches <= MOST:
        raise StripError(
            say(
                "{n} patches were asked for; between {few} and {most} can be found on a scan."
                " Nothing was read. Type the readings instead.",
                n=patches,
                few=FEWEST,
                most=MOST,
            )
        )
    page = page_of(light)
    tone = lightness(evened(page.light, lamp(page.light))).astype(np.float32)
    rows = rows_on(tone)
    greys = _grey_scale(rows, scale)
    strips = [row for row in rows if row is not greys]
    if not strips:
        raise StripError(_no_strip())
    fitting = [row for row in strips if row.may_have(patches)]
    if not fitting:
        raise StripError(_other_number(strips[0].steps, patches))
    chosen = fitting[0]
    return FoundStrip(
        chosen.whole(patches, page.scale),
        chosen.quads(patches, page.scale),
        _confidence(chosen, patches),
        tuple(_notes(chosen, fitting, patches)),
        greys.quads(len(scale.densities), page.scale) if greys and scale else (),
    )


def strip_between(corners: Corners, patches: int) -> FoundStrip:
    """A strip laid by hand: ``patches`` of even width between four corners, light end first."""
    first, last, foot, start = (np.array(corner) for corner in corners)
    ends = np.linspace(0.0, 1.0, patches + 1)
    tops = first + ends[:, None] * (last - first)
    feet = start + ends[:, None] * (foot - start)
    quads = tuple(
        (_point(tops[k]), _point(tops[k + 1]), _point(feet[k + 1]), _point(feet[k]))
        for k in range(patches)
    )
    return FoundStrip(corners, quads)


def _point(place: np.ndarray) -> tuple[float, float]:
    return float(place[0]), float(place[1])


def _grey_scale(rows: Sequence[Row], scale: GreyScale | None) -> Row | None:
    if scale is None:
        return None
    steps = len(scale.densities)
    near = [row for row in rows if row.doubt_of(steps) <= _SCALE_STRAYS]
    if not near:
        raise StripError(
            say(
                "The grey scale of {n} steps was not found on this scan. Nothing was read. Lay it"
                " beside the strip, whole, with paper between, and scan again.",
                n=steps,
            )
        )
    # a grey scale goes on falling where ink has long reached its black
    return min(near, key=lambda row: row.doubt_of(steps) + row.tones(steps).min())


def _confidence(row: Row, patches: int) -> float:
    fits = 1.0 - 0.5 * row.fault(patches)
    return round(float(np.clip(fits - row.doubt_of(patches) / (8.0 * EITHER_WAY), 0.0, 1.0)), 2)


def _notes(chosen: Row, fitting: Sequence[Row], patches: int) -> list[str]:
    notes = []
    if len(fitting) > 1:
        notes.append(
            say(
                "{n} strips of {patches} patches lie on this page; the largest was taken.",
                n=len(fitting),
                patches=patches,
            )
        )
    if chosen.steps < patches:
        notes.append(
            say(
                "{seen} of {patches} patches stand out; the others are as light as the paper, or"
                " were taken to be as wide as their neighbours. Look where they lie.",
                seen=chosen.steps,
                patches=patches,
            )
        )
    return notes


def _no_strip() -> str:
    return say(
        "No strip was found on this scan: no row of even tones with paper around it. Nothing was"
        " read. Scan the whole strip with a hand's breadth of bare paper, or type the readings."
    )


def _other_number(found: int, wanted: int) -> str:
    return say(
        "The strip on this scan shows {found} patches and {wanted} bites were given. Nothing was"
        " read. Give one bite for every patch, the unbitten one too.",
        found=found,
        wanted=wanted,
    )
