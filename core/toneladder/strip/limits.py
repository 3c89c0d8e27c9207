"""What a strip may be: the bounds of everything in it, said in sentences."""

from collections.abc import Iterator, Sequence
from datetime import date

from toneladder.errors import RefusedPairError
from toneladder.quantities.bath import COLDEST_C, WARMEST_C
from toneladder.records import bounds
from toneladder.strip.values import Patch, Strip
from toneladder.wording import say

LONGEST_BITE_S = 360_000.0
MOST_PATCHES = 64
MOST_PROOFS = 100
LONGEST_LINE = 400
LONGEST_NOTE = 20_000
MOST_PULLS = 10_000
WIDEST_SPREAD = 30.0


def faults(strip: Strip) -> tuple[str, ...]:
    """Everything in ``strip`` that is out of bounds, a sentence each; empty if nothing is."""
    return tuple(_faults(strip))


def _faults(strip: Strip) -> Iterator[str]:
    yield from _patch_faults(strip.patches)
    warm = say("The bath temperature")
    yield from bounds(warm, strip.conditions.temperature_c, COLDEST_C, WARMEST_C, unit=" °C")
    yield from bounds(say("The number of the pull"), strip.pull, 1, MOST_PULLS)
    if strip.plates_before is not None:
        yield from bounds(say("The count of plates before"), strip.plates_before, 0, 1_000_000)
    yield from date_faults(say("The day of biting"), strip.bitten_on)
    yield from date_faults(say("The day of graining"), strip.grained_on)
    for text in (strip.ink, strip.paper, strip.bath, strip.conditions.strength):
        yield from short_faults(text, LONGEST_LINE)
    yield from short_faults(strip.note, LONGEST_NOTE)
    yield from bounds(say("The number of proofs"), len(strip.proofs), 0, MOST_PROOFS)
    for proof in strip.proofs:
        yield from _patch_faults(proof.patches)
        yield from bounds(warm, proof.temperature_c, COLDEST_C, WARMEST_C, unit=" °C")
        yield from short_faults(proof.name, LONGEST_LINE)
    from toneladder.bite.starting_points import require_safe_pair

    try:
        require_safe_pair(strip.conditions.metal, strip.conditions.mordant)
    except RefusedPairError as refused:
        yield str(refused)


def _patch_faults(patches: Sequence[Patch]) -> Iterator[str]:
    yield from bounds(say("The number of patches"), len(patches), 1, MOST_PATCHES)
    for number, patch in enumerate(patches, start=1):
        named = {"n": number}
        bite = say("The bite of patch {n}", **named)
        yield from bounds(bite, patch.total_bite_s, 0.0, LONGEST_BITE_S, unit=" s")
        yield from bounds(say("The lightness of patch {n}", **named), patch.lightness, 0.0, 100.0)
        yield from bounds(say("The spread of patch {n}", **named), patch.spread, 0.0, WIDEST_SPREAD)


def date_faults(name: str, written: str) -> Iterator[str]:
    """What is wrong with a date that was noted, or with none."""
    if not written:
        return
    try:
        plain = date.fromisoformat(written).isoformat() == written
    except ValueError:
        plain = False
    if not plain:
        yield say("{name} is no date; write it like 2026-03-15.", name=name)


def short_faults(text: str, most: int) -> Iterator[str]:
    """What is wrong with a text of more than ``most`` letters."""
    if len(text) > most:
        yield say("A text of {n} letters is longer than {most}.", n=len(text), most=most)
    elif any("\ud800" <= sign <= "\udfff" for sign in text):  # halves of letters
        yield say("A text holds signs that cannot be written.")
