"""Why a strip may no longer stand for the plate at hand."""

from collections.abc import Iterator
from dataclasses import dataclass

from toneladder.bite.today import temperature_notes
from toneladder.bite.values import Conditions
from toneladder.quantities import write_day, write_percent
from toneladder.strip.values import CheckPatch, Dryness, Strip
from toneladder.wording import say, say_number

MANY_PLATES = 5
"""Plates after which a bath is another one: an assumption."""

MUCH_USED = 0.1
"""Share of its capacity after which a bath is another one: an assumption."""


@dataclass(frozen=True, slots=True)
class Today:
    """The plate at hand and its bath.

    ``grained_on`` is the day the plate was grained (``YYYY-MM-DD``, or empty);
    ``plates_before`` how many plates and strips the bath has bitten, None if nobody counted;
    ``used_since`` the share (0..1) of its capacity that it has lost since the strip. A
    ``check`` patch answers for temperature and use, whatever they were.
    """

    conditions: Conditions
    grained_on: str = ""
    plates_before: int | None = None
    used_since: float = 0.0
    check: CheckPatch | None = None


def why_stale(strip: Strip, today: Today) -> tuple[str, ...]:
    """Reasons, the gravest kind first, why ``strip`` does not stand for today's plate.

    Parameters
    ----------
    strip : Strip
        As it was kept.
    today : Today
        The plate and the bath of the day.

    Returns
    -------
    Sentences; none if the strip stands.
    """
    return (
        *_grain(strip, today),
        *(_rate(strip, today) if today.check is None else ()),
        *_bath(strip.conditions, today.conditions),
        *_reading(strip),
    )


def _grain(strip: Strip, today: Today) -> Iterator[str]:
    then, now = strip.conditions, today.conditions
    if (then.grain, then.fineness) != (now.grain, now.fineness):
        yield say(
            "The strip had a {fineness} {grain} ground, the plate has a {other} {kind} one:"
            " bite a strip of the plate's own ground.",
            fineness=say(then.fineness.value),
            grain=say(then.grain.value),
            other=say(now.fineness.value),
            kind=say(now.grain.value),
        )
    elif not (strip.grained_on and today.grained_on):
        yield say(
            "It is not noted that strip and plate were grained together: two grounds laid at"
            " different times bite differently."
        )
    elif strip.grained_on != today.grained_on:
        yield say(
            "The strip was grained on {then}, the plate on {now}: two grounds laid at different"
            " times bite differently. Bite a strip grained beside the plate.",
            then=write_day(strip.grained_on),
            now=write_day(today.grained_on),
        )


def _rate(strip: Strip, today: Today) -> Iterator[str]:
    yield from temperature_notes(today.conditions.temperature_c, strip.conditions.temperature_c)
    if strip.plates_before is not None and today.plates_before is not None:
        since = today.plates_before - strip.plates_before
        if since >= MANY_PLATES:
            yield say_number(
                "The bath has bitten one plate since the strip, and bites slower: bite a new"
                " strip, or at least one check patch.",
                "The bath has bitten {n} plates since the strip, and bites slower: bite a new"
                " strip, or at least one check patch.",
                since,
            )
            return
    if today.used_since > MUCH_USED:
        yield say(
            "The bath has lost about {share} of its strength since the strip, by estimate:"
            " bite a new strip, or at least one check patch.",
            share=write_percent(today.used_since),
        )


def _bath(then: Conditions, now: Conditions) -> Iterator[str]:
    if (then.metal, then.mordant) != (now.metal, now.mordant):
        yield say(
            "The strip is {metal} in {mordant}, the plate {other} in {bath}: the strip tells"
            " nothing about it.",
            metal=say(then.metal.value),
            mordant=say(then.mordant.value),
            other=say(now.metal.value),
            bath=say(now.mordant.value),
        )
        return
    if then.strength and now.strength and then.strength != now.strength:
        yield say(
            "The strip was bitten at {then}, the bath is now at {now}: how fast another strength"
            " bites can only be tried.",
            then=then.strength,
            now=now.strength,
        )
    if then.movement is not now.movement:
        yield say(
            "The strip was bitten in a {then} bath, the plate is to be bitten in a {now} one:"
            " moving liquid bites faster.",
            then=say(then.movement.value),
            now=say(now.movement.value),
        )


def _reading(strip: Strip) -> Iterator[str]:
    if strip.dryness is Dryness.WET:
        yield say(
            "The strip was read wet: it dries to other tones. Read it again when it is dry, a"
            " day later."
        )
