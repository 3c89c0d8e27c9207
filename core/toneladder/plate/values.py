"""Every decision that makes a plate, as one frozen value without arrays or picture bytes."""

from dataclasses import dataclass

from toneladder.bite.values import Conditions
from toneladder.order.values import Rates
from toneladder.picture.values import Laying, PictureRef, PlateSize
from toneladder.proof.values import InkAndPaper
from toneladder.tones.values import Brush, ToneChoice


@dataclass(frozen=True, slots=True)
class Plate:
    """One plate as the etcher decided it.

    ``squint_mm`` None means half the brush's smallest mark. ``start`` is the time of day at
    which work begins, "HH:MM", or None.
    """

    title: str
    picture: PictureRef
    size: PlateSize
    laying: Laying = Laying()
    squint_mm: float | None = None
    tones: ToneChoice = ToneChoice()
    brush: Brush = Brush()
    conditions: Conditions = Conditions()
    rates: Rates = Rates()
    printing: InkAndPaper = InkAndPaper()
    start: str | None = None
