"""What the trade does about a hard border that the picture does not have, and when.

Common practice, no source.
"""

from dataclasses import dataclass

import numpy as np

from toneladder.borders.values import Remedy
from toneladder.optics import FloatArray
from toneladder.quantities import Manner, write_length
from toneladder.wording import say

_LIGHT = 60.0  # L* from which varnish is drawn with: what lies beside it is light
_HIGH = 0.5  # of the plate, from its top: where skies are
_LONG = 1.0 / 3.0  # of the plate's width
_LEVEL = 3.0  # times as wide as it is high


@dataclass(frozen=True, slots=True, eq=False)
class Passage:
    """A stretch of the border of ``step`` where the picture fades and the plate would not.

    ``points`` are (n, 2), mm as the print is seen, along the border; ``slope`` is how fast the
    picture changes across it, L* per mm, the median along it; ``lightness`` is the picture's
    there, mean CIE L*. ``share_xy`` is its middle in shares of the whole picture. ``last`` says
    that the border is that of the last step. ``remedy`` is the one ``suggested``, unless the
    etcher chose another ``by_hand``.
    """

    number: int
    step: int
    points: FloatArray
    length_mm: float
    slope: float
    lightness: float
    suggested: Remedy
    remedy: Remedy
    share_xy: tuple[float, float]
    last: bool = False
    by_hand: bool = False


def suggested(
    points: FloatArray, lightness: float, plate_mm: tuple[float, float], *, last: bool
) -> Remedy:
    """The remedy for a passage, by where it is and how light.

    The last border parts the two darkest tones: burnished once the proof shows it. In the
    lights, a long level passage in the upper half of the plate is a sky: a creeping bite; a
    shorter one is drawn with lithographic crayon. All else, in the middle tones and darks or
    too long to be drawn, is spit bite.

    Parameters
    ----------
    points : (n, 2) array, millimetres
        Along the passage, as the print is seen.
    lightness : float
        Of the picture along it, CIE L*.
    plate_mm : (float, float)
        Width and height of the plate.
    last : bool
        Whether the border is that of the last step.
    """
    if last:
        return Remedy.BURNISH
    if lightness < _LIGHT:
        return Remedy.SPIT_BITE
    width, height = np.ptp(points, axis=0).tolist()
    if width < _LONG * plate_mm[0]:
        return Remedy.CRAYON if height < _LONG * plate_mm[0] else Remedy.SPIT_BITE
    level = width >= _LEVEL * height
    high = float(points[:, 1].mean()) < _HIGH * plate_mm[1]
    return Remedy.CREEPING_BITE if level and high else Remedy.SPIT_BITE


def moment(passage: Passage, manner: Manner | None = None) -> tuple[int | None, str]:
    """The step at which a passage has its remedy, and what is done there, in words.

    Step None is after the last bite. Spit bite comes before the border is varnished, the
    crayon with the varnish, the creeping bite in the bath.
    """
    step = None if passage.remedy is Remedy.BURNISH else passage.step
    return step, say(
        _SENTENCES[passage.remedy],
        number=passage.number,
        length=write_length(round(passage.length_mm), manner),
        lighter=passage.step - 1,
        darker=passage.step,
    )


_SENTENCES = {
    Remedy.NONE: "Passage {number} ({length}) keeps its hard border.",
    Remedy.SPIT_BITE: (
        "Before you stop out: spit bite along passage {number} ({length}), mordant brushed on "
        "the grain of tone {lighter} and thinned with water away from tone {darker}; gloves and "
        "goggles on. Rinse, dry, then stop out."
    ),
    Remedy.CRAYON: (
        "While you stop out: end tone {lighter} at passage {number} ({length}) with lithographic "
        "crayon in place of varnish, lighter and lighter strokes towards tone {darker}."
    ),
    Remedy.CREEPING_BITE: (
        "Leave passage {number} ({length}) without varnish and let this bite creep over it: "
        "tilt the plate, or let the bath rise, so that the side of tone {darker} bites longest."
    ),
    Remedy.BURNISH: (
        "After the proof: burnish the side of tone {darker} along passage {number} ({length}) "
        "until it fades into tone {lighter}."
    ),
}
