"""What a plate may be: the bounds of every decision, said in sentences."""

import re
from collections.abc import Iterator
from itertools import chain

from toneladder.borders.limits import soft_faults
from toneladder.lines.limits import line_faults
from toneladder.order.limits import second_grain_faults
from toneladder.order.values import Rates
from toneladder.plate.values import Plate
from toneladder.records import bounds
from toneladder.strip.limits import (
    LONGEST_BITE_S,
    LONGEST_LINE,
    WIDEST_SPREAD,
    date_faults,
    short_faults,
)
from toneladder.strip.limits import faults as strip_faults
from toneladder.strip.values import CheckPatch
from toneladder.tones.limits import note_faults
from toneladder.tones.values import FEWEST_TONES, MOST_TONES
from toneladder.wording import say

_TIME_OF_DAY = re.compile(r"([01][0-9]|2[0-3]):[0-5][0-9]")

SIDE_MM = (5.0, 3000.0)
BRUSH_MM = (0.3, 20.0)
TEMPERATURE_C = (0.0, 60.0)
LONGEST_TITLE = 4000
LONGEST_IDENTITY = 64
MOST_HELD = 2 * MOST_TONES
MOST_STRIPS = 40
GAINED = (1.0, 4.0)
MARGIN_STRIP_MM = (3.0, 60.0)


def faults(plate: Plate) -> tuple[str, ...]:
    """Every decision of ``plate`` that is out of bounds, a sentence each; empty if none is."""
    return tuple(_faults(plate))


def _faults(plate: Plate) -> Iterator[str]:
    yield from bounds(say("The plate's width"), plate.size.width_mm, *SIDE_MM, unit=" mm")
    yield from bounds(say("The plate's height"), plate.size.height_mm, *SIDE_MM, unit=" mm")
    yield from bounds(say("The smallest mark"), plate.brush.mark_mm, *BRUSH_MM, unit=" mm")
    yield from bounds(say("The smallest gap"), plate.brush.gap_mm, *BRUSH_MM, unit=" mm")
    area = plate.brush.smallest_area_mm2
    yield from bounds(say("The smallest area"), area, 0.0, 10_000.0, unit=" mm²")
    if plate.squint_mm is not None:
        yield from bounds(say("The squint"), plate.squint_mm, 0.0, 50.0, unit=" mm")
    yield from _tone_faults(plate)
    warmth = plate.conditions.temperature_c
    yield from bounds(say("The bath temperature"), warmth, *TEMPERATURE_C, unit=" °C")
    yield from rate_faults(plate.rates)
    yield from bounds(say("The paper's margin"), plate.printing.margin_mm, 0.0, 500.0)
    crop = plate.laying.crop
    if not (0 <= crop.x < 1 and 0 <= crop.y < 1 and crop.width > 0 and crop.height > 0):
        yield say("The crop lies outside the picture.")
    elif crop.x + crop.width > 1 + 1e-9 or crop.y + crop.height > 1 + 1e-9:
        yield say("The crop reaches beyond the picture.")
    yield from bounds(say("The turn"), plate.laying.turn_deg, -360.0, 360.0, unit="°")
    yield from _start_faults(plate.start)
    yield from note_faults(plate.notes)
    yield from _evidence_faults(plate)
    yield from soft_faults(plate.soft)
    if plate.lines is not None:
        yield from line_faults(plate.lines)
    if plate.second_grain is not None:
        yield from second_grain_faults(plate.second_grain)
    given = (plate.given_s, plate.lines_given_s, plate.second_given_s)
    if max(map(len, given)) > MOST_TONES:
        yield say("More bites were given than there can be tones.")
    for total_s in chain.from_iterable(given):
        yield from bounds(say("A bite given at the tank"), total_s, 0.0, LONGEST_BITE_S, unit=" s")
    if len(plate.identity) > LONGEST_IDENTITY or not plate.identity.isascii():
        yield say("The plate's identity is none that this program gives.")
    if len(plate.title) > LONGEST_TITLE:
        yield say("The title is longer than {most} letters.", most=LONGEST_TITLE)
    else:
        yield from short_faults(plate.title, LONGEST_TITLE)


def _start_faults(start: str | None) -> Iterator[str]:
    if start is not None and not _TIME_OF_DAY.fullmatch(start):
        yield say("The start of work is no time of day; write it like 09:30.")


def _tone_faults(plate: Plate) -> Iterator[str]:
    tones = plate.tones
    yield from bounds(say("The number of tones"), tones.count, FEWEST_TONES, MOST_TONES)
    yield from bounds(say("The least gap between tones"), tones.gap_lightness, 0.0, 50.0)
    yield from bounds(say("The middle greys"), tones.range.middle, -1.0, 1.0)
    white, black = tones.range.paper_from, tones.range.black_from
    for edge in (white, black):
        if edge is not None:
            yield from bounds(say("What is paper or black in the picture"), edge, 0.0, 100.0)
    if white is not None and black is not None and white <= black:
        yield say("What becomes paper must be lighter than what becomes black.")
    if len(tones.held_partings) > MOST_HELD or len(tones.held_bites) > MOST_HELD:
        yield say("More partings or bites are held than there are tones.")
    for parting in tones.held_partings:
        yield from bounds(say("A held parting"), parting, 0.0, 100.0)
    for tone, total_s in tones.held_bites:
        yield from bounds(say("A held bite's tone"), tone, 1, MOST_TONES - 1)
        yield from bounds(say("A held bite"), total_s, 0.0, 86_400.0, unit=" s")
    yield from bounds(say("The number of patches"), len(tones.patches_s), 0, MOST_TONES - 1)
    for bite in tones.patches_s:
        yield from bounds(say("The bite of a patch"), bite, 0.0, LONGEST_BITE_S, unit=" s")


def _evidence_faults(plate: Plate) -> Iterator[str]:
    """What is out of bounds in the strips, the check patch, the margin and the day of graining."""
    evidence = plate.evidence
    yield from bounds(say("The number of strips"), len(evidence.strips), 0, MOST_STRIPS)
    for strip in evidence.strips:
        yield from strip_faults(strip)
    yield from bounds(say("The rate gained over 10 °C"), evidence.q, *GAINED)
    if evidence.check is not None:
        yield from _check_faults(evidence.check)
    if plate.margin_strip is not None:
        width = plate.margin_strip.width_mm
        yield from bounds(say("The margin strip's width"), width, *MARGIN_STRIP_MM, unit=" mm")
    yield from date_faults(say("The day of graining"), plate.grained_on)
    yield from short_faults(plate.bath, LONGEST_LINE)


def _check_faults(check: CheckPatch) -> Iterator[str]:
    bite, spread = check.bite_s, check.spread
    yield from bounds(say("The bite of the check patch"), bite, 1.0, LONGEST_BITE_S, unit=" s")
    yield from bounds(say("The lightness of the check patch"), check.lightness, 0.0, 100.0)
    yield from bounds(say("The spread of the check patch"), spread, 0.0, WIDEST_SPREAD)
    warmth = check.temperature_c
    yield from bounds(say("The check patch's temperature"), warmth, *TEMPERATURE_C, unit=" °C")


def rate_faults(rates: Rates) -> Iterator[str]:
    """Every rate that nobody works at, a sentence each."""
    fill, border = rates.fill_cm2_per_min, rates.border_cm_per_min
    yield from bounds(say("The rate of filling"), fill, 0.1, 1000.0, unit=" cm²/min")
    yield from bounds(say("The rate along borders"), border, 0.1, 1000.0, unit=" cm/min")
    yield from bounds(say("The time for a place"), rates.place_s, 0.0, 3600.0, unit=" s")
    yield from bounds(say("The time between steps"), rates.between_min, 0.0, 600.0, unit=" min")
    yield from bounds(say("The time between rests"), rates.rest_every_min, 10.0, 1440.0)
    if rates.dry_min is not None:
        yield from bounds(say("The time to dry"), rates.dry_min, 0.0, 2880.0, unit=" min")
    yield from bounds(say("The length of a rest"), rates.rest_min, 0.0, 600.0, unit=" min")
