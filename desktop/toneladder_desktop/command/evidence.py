"""What the times of a plan stand on, in words of the command line: strips, a check patch."""

import argparse
from dataclasses import replace
from pathlib import Path

from toneladder.bite.values import Conditions
from toneladder.errors import QuantityError, RefusedPairError
from toneladder.plan.memory import Memory
from toneladder.plan.standing import curve_of
from toneladder.plate.values import Plate
from toneladder.quantities import read_bite, read_day
from toneladder.strip.values import CheckPatch, Edge, Evidence, MarginStrip, Strip
from toneladder.wording import say
from toneladder_desktop.command.words import conditions_of, number, one_of, read


def evidence_words(words: argparse.ArgumentParser) -> None:
    """Strips, the check patch, and the day of graining."""
    add = words.add_argument
    add(
        "--strip",
        action="append",
        default=[],
        metavar="STRIP",
        help=say("a strip of this bath; say it again for another, the newest last"),
    )
    add(
        "--check",
        type=read(read_check),
        metavar="BITE,LIGHTNESS",
        help=say(
            "a check patch of today's bath, such as 1:00,62; an hour or two: grain, clean, ink, "
            "pull, dry"
        ),
    )
    add(
        "--grained-on",
        type=read(read_day),
        metavar="DATE",
        help=say("when the plate was grained, such as 2026-03-15"),
    )
    along = say("a strip of all tones along this edge of the plate")
    add("--margin-strip", **one_of({edge: say(edge.value) for edge in Edge}, told=along))


def strip_day_words(words: argparse.ArgumentParser) -> None:
    """The day on which a strip was grained: it stands for a plate of the same day."""
    words.add_argument(
        "--grained-on",
        type=read(read_day),
        metavar="DATE",
        help=say("when the strip was grained, such as 2026-03-15"),
    )


def evidence_of(chosen: argparse.Namespace) -> Evidence:
    """The strips and the check patch that were named.

    Raises
    ------
    StripError
        A strip that cannot be read.
    """
    from toneladder.strip.file import read_strip

    strips = tuple(read_strip(Path(name)) for name in chosen.strip)
    check = chosen.check
    if check is not None:
        check = replace(check, temperature_c=bath_of(chosen, strips).temperature_c)
    return Evidence(strips, check)


def margin_strip_of(chosen: argparse.Namespace) -> MarginStrip | None:
    """The strip in the plate's margin, if one was named."""
    return None if chosen.margin_strip is None else MarginStrip(Edge(chosen.margin_strip))


def bath_of(chosen: argparse.Namespace, strips: tuple[Strip, ...]) -> Conditions:
    """The bath of the day: that of the newest strip but for what was said of it.

    Raises
    ------
    RefusedPairError
        Another metal or mordant than the strip's was named.
    """
    own = strips[-1].conditions if strips else Conditions()
    conditions = conditions_of(chosen, own)
    if strips and (conditions.metal, conditions.mordant) != (own.metal, own.mordant):
        raise RefusedPairError(
            say(
                "The strip is {metal} in {mordant}; it tells nothing about another metal or "
                "mordant. Nothing was written. Leave them out, or choose another strip.",
                metal=say(own.metal.value),
                mordant=say(own.mordant.value),
            )
        )
    return conditions


def require_telling(plate: Plate, memory: Memory) -> None:
    """Refuse a check patch that tells nothing.

    Raises
    ------
    StripError
        The curve is too flat where the patch was read.
    """
    from toneladder.strip.checking import checked_rate

    if plate.evidence.check is not None:
        checked_rate(plate.evidence.check, curve_of(plate, memory))


def read_check(text: str) -> CheckPatch:
    """A bite and the lightness that it printed, with a comma between."""
    bite, comma, lightness = text.partition(",")
    if not comma:
        raise QuantityError(
            say("“{text}” is not a bite and a lightness with a comma between", text=text[:40])
        )
    return CheckPatch(read_bite(bite), number(lightness))


def read_bites(text: str) -> tuple[float, ...]:
    """Bites with commas between, seconds."""
    return tuple(read_bite(bite) for bite in text.split(","))
