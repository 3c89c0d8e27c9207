"""Where the picture fades and a plan's tones would show a hard border."""

from collections.abc import Sequence

from toneladder.borders.arcs import Arc, trace
from toneladder.borders.remedies import Passage
from toneladder.borders.soft import soft_passages
from toneladder.picture.placing import placing_of
from toneladder.plan.preparing import Prepared
from toneladder.plate.values import Plate
from toneladder.tones.parting import ToneArray


def passages_in(
    plate: Plate,
    prepared: Prepared,
    tones: ToneArray,
    count: int,
    arcs: Sequence[Arc] | None = None,
) -> tuple[Passage, ...]:
    """The soft passages of a plate's tones, with the remedies that were chosen by hand.

    Parameters
    ----------
    plate : Plate
        Its ``soft`` says what is soft, its laying where the picture lies.
    prepared : Prepared
        The picture as it was squinted at.
    tones : (height, width) of uint8
        The tone of every cell, as the print is seen.
    count : int
        Number of tones.
    arcs : sequence of Arc, optional
        The borders of ``tones``, if they are traced already.
    """
    px_per_mm = prepared.grid.px_per_mm
    picture = plate.picture
    placing = placing_of(plate.laying, plate.size, (picture.width, picture.height))
    return soft_passages(
        trace(tones, px_per_mm) if arcs is None else arcs,
        prepared.lattice.lightness()[prepared.asked],
        px_per_mm,
        plate.soft,
        count,
        placing.to_picture,
    )
