"""Every decision that makes a plate, as one frozen value without arrays or picture bytes."""

from dataclasses import dataclass

from toneladder.bite.values import Conditions
from toneladder.borders.values import Soft
from toneladder.lines.values import Lines
from toneladder.order.values import Rates, SecondGrain
from toneladder.picture.values import Laying, PictureRef, PlateSize
from toneladder.preview.values import InkAndPaper
from toneladder.strip.values import Evidence, MarginStrip
from toneladder.tones.values import Brush, Note, ToneChoice


@dataclass(frozen=True, slots=True)
class Plate:
    """One plate as the etcher decided it.

    ``squint_mm`` None means half the brush's smallest mark. ``start`` is the time of day at
    which work begins, "HH:MM", or None. ``keeps_edges`` squints without softening edges.
    ``bath`` is the name of the bath in the studio book, ``grained_on`` the day the plate was
    grained (``YYYY-MM-DD``); both may be empty. ``identity`` tells this plate from every other,
    whatever becomes of its title; empty if it was never given one. ``given_s`` are the total
    bites that its tones really got at the tank, tone 0 first, as seconds in a bath of the
    plate's own conditions; empty if it was not there yet. ``lines_given_s`` and
    ``second_given_s`` are the same of line depths, depth 0 (the ground) first, and of what the
    tones got in a second grain.
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
    keeps_edges: bool = False
    notes: tuple[Note, ...] = ()
    soft: Soft = Soft()
    lines: Lines | None = None
    second_grain: SecondGrain | None = None
    evidence: Evidence = Evidence()
    margin_strip: MarginStrip | None = None
    bath: str = ""
    grained_on: str = ""
    identity: str = ""
    given_s: tuple[float, ...] = ()
    lines_given_s: tuple[float, ...] = ()
    second_given_s: tuple[float, ...] = ()
