"""From the chosen tones to the tones as printed: small places, notes, the strip in the margin."""

from dataclasses import dataclass, field, replace

import numpy as np

from toneladder.order.ladder import Ladder
from toneladder.plan.choosing import Chosen
from toneladder.plan.preparing import Prepared, placing_on
from toneladder.plate.values import Plate
from toneladder.strip.margin import with_margin
from toneladder.tones.notes import NoteTold, Scene, apply_notes
from toneladder.tones.parting import ToneArray
from toneladder.tones.small import without_small


@dataclass(frozen=True, slots=True, eq=False)
class Corrected:
    """The tone of every cell, (height, width) of uint8, as printed; what became of each note."""

    tones: ToneArray = field(repr=False)
    told: tuple[NoteTold, ...]


def corrected(prepared: Prepared, chosen: Chosen, plate: Plate) -> Corrected:
    """The tones that ``chosen`` paints, without small places, as the plate's notes want them.

    Notes come after the limit of size, which overrules no hand; a strip in the margin comes last.
    """
    tones, px_per_mm = chosen.parted.paint(prepared.cleaned), prepared.grid.px_per_mm
    area_mm2 = plate.brush.smallest_area_mm2
    if area_mm2:
        tones = without_small(tones, chosen.count, area_mm2 * px_per_mm**2)
    tones, told = apply_notes(tones, plate.notes, scene_of(prepared, chosen, plate))
    return Corrected(with_margin(tones, plate.margin_strip, px_per_mm, chosen.count), told)


def scene_of(prepared: Prepared, chosen: Chosen, plate: Plate) -> Scene:
    """What notes need to know of ``plate``."""
    return Scene(
        placing=placing_on(plate),
        px_per_mm=prepared.grid.px_per_mm,
        partings=chosen.parted.partings,
        brush=plate.brush,
    )


def with_shares(ladder: Ladder, tones: ToneArray) -> Ladder:
    """``ladder`` with the share of the plate that every tone has in ``tones``."""
    cells = np.bincount(tones.ravel(), minlength=len(ladder.tones))
    shared = (
        replace(tone, share=int(number) / tones.size)
        for tone, number in zip(ladder.tones, cells, strict=True)
    )
    return replace(ladder, tones=tuple(shared))
