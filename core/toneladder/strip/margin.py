"""A strip in the plate's own margin: one patch of every tone, bitten with the plate."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from toneladder.picture.values import PlateSize
from toneladder.quantities import write_length
from toneladder.strip.values import Edge, MarginStrip
from toneladder.tones.parting import ToneArray
from toneladder.wording import say

LEAST_PATCH_MM = 5.0
"""A patch narrower than this is hardly painted and hardly read: an assumption."""

MOST_OF_PLATE = 1.0 / 3.0
"""The strip takes no more of the plate's breadth, however wide it was wished."""


@dataclass(frozen=True, slots=True)
class MarginPatch:
    """One patch: its tone and its cells, rows and columns of the plate's grid as printed."""

    tone: int
    rows: slice
    columns: slice


def margin_patches(
    strip: MarginStrip, shape: tuple[int, int], px_per_mm: float, count: int
) -> tuple[MarginPatch, ...]:
    """Where the patches of a margin strip lie, white first, from the left or from the top.

    Parameters
    ----------
    strip : MarginStrip
        Which edge, as the print is seen, and how wide.
    shape : (height, width), cells
        The plate's grid.
    px_per_mm : float
        Cells in a millimetre.
    count : int
        Tones, white included.
    """
    along_width = strip.edge in {Edge.TOP, Edge.BOTTOM}
    across, along = shape if along_width else shape[::-1]
    wide = max(1, min(round(strip.width_mm * px_per_mm), int(across * MOST_OF_PLATE)))
    band = slice(0, wide) if strip.edge in {Edge.TOP, Edge.LEFT} else slice(across - wide, across)
    ends = [round(along * tone / count) for tone in range(count + 1)]
    runs = [slice(first, last) for first, last in pairwise(ends)]
    return tuple(
        MarginPatch(tone, band, run) if along_width else MarginPatch(tone, run, band)
        for tone, run in enumerate(runs)
    )


def with_margin(
    tones: ToneArray, strip: MarginStrip | None, px_per_mm: float, count: int
) -> ToneArray:
    """``tones`` (height, width), as printed, with the strip's patches laid over its margin."""
    if strip is None:
        return tones
    laid = tones.copy()
    for patch in margin_patches(strip, (tones.shape[0], tones.shape[1]), px_per_mm, count):
        laid[patch.rows, patch.columns] = patch.tone
    return laid


def margin_notes(strip: MarginStrip | None, size: PlateSize, count: int) -> Iterator[str]:
    """What a margin strip costs the picture, and whether its patches can be read."""
    if strip is None:
        return
    along_width = strip.edge in {Edge.TOP, Edge.BOTTOM}
    across, along = size.height_mm, size.width_mm
    if not along_width:
        across, along = along, across
    wide = min(strip.width_mm, across * MOST_OF_PLATE)
    yield say(
        "The picture loses {width} along the {edge} edge to a strip of its tones. Trim it"
        " off the print, or cut it off the plate before the edition.",
        width=write_length(round(wide)),
        edge=say(strip.edge.value),
    )
    if min(along / count, wide) < LEAST_PATCH_MM:
        yield say(
            "The patches of that strip are only {size} wide: hard to paint and to read. Make"
            " the strip wider, or plan fewer tones.",
            size=write_length(round(min(along / count, wide))),
        )
