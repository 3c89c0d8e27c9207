"""One colour for each of the 256 steps of a plate's lattice: another table, another picture."""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from toneladder.optics import luminance
from toneladder.preview.colour import bytes_of, palette
from toneladder.preview.preview import lightness_after
from toneladder.preview.values import InkAndPaper

if TYPE_CHECKING:
    from toneladder.plan.choosing import Chosen
    from toneladder.tones.lattice import Lattice

ColourTable = NDArray[np.uint8]


def of_tones(chosen: "Chosen", printing: InkAndPaper, step: int | None) -> ColourTable:
    """What each tone prints if the plate is stopped after ``step`` (None: finished).

    Returns
    -------
    (n, 3) array of uint8, sRGB.
    """
    lightness = [tone.lightness for tone in chosen.ladder.tones]
    if step is not None:
        lightness = list(lightness_after(lightness, min(step, len(lightness) - 1)))
    return palette(lightness, printing)


def of_steps(chosen: "Chosen", printing: InkAndPaper, step: int | None) -> ColourTable:
    """The same for each of the 256 steps of the lattice, (256, 3)."""
    colours: ColourTable = of_tones(chosen, printing, step)[np.array(chosen.parted.table)]
    return colours


def of_picture(lattice: "Lattice") -> ColourTable:
    """The picture's own greys, (256, 3)."""
    grey = bytes_of(luminance(lattice.lightness()))
    return np.repeat(grey[:, None], 3, axis=1)


def packed(table: ColourTable) -> list[int]:
    """The table as Qt reads it: 0xFFRRGGBB for every entry, filled up to 256."""
    full = np.zeros((256, 3), dtype=np.uint32)
    full[: len(table)] = table
    return [int(c) for c in 0xFF000000 | full[:, 0] << 16 | full[:, 1] << 8 | full[:, 2]]
