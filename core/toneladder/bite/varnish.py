"""Facts of the stop-out varnishes and of taking the grain off again."""

from dataclasses import dataclass

from toneladder.bite.values import GrainKind, Varnish
from toneladder.wording import say

CREEP_MM = 0.3
"""How far varnish runs past the brush, on every border; from memory."""


@dataclass(frozen=True, slots=True)
class VarnishFacts:
    """What a stop-out varnish asks of the day.

    ``drying_min`` (minutes to dry) and ``creep_mm`` (how far it runs past the brush) are common
    practice, from memory; ``solvent`` is what takes the varnish off, said in the reader's
    language.
    """

    drying_min: float
    creep_mm: float
    solvent: str


def varnish_facts(varnish: Varnish) -> VarnishFacts:
    """Drying, creep and solvent of ``varnish``."""
    match varnish:
        case Varnish.SPIRIT:
            return VarnishFacts(10.0, CREEP_MM, say("alcohol"))
        case Varnish.ACRYLIC:
            return VarnishFacts(20.0, CREEP_MM, say("a washing-soda bath"))
        case Varnish.ASPHALTUM:
            return VarnishFacts(40.0, CREEP_MM, say("white spirit"))


def harm_to_grain(varnish: Varnish, grain: GrainKind) -> str | None:
    """Sentence of warning if the varnish's solvent eats the grain under the brush."""
    if varnish is not Varnish.SPIRIT:
        return None
    match grain:
        case GrainKind.ROSIN:
            return say(
                "Spirit varnish holds alcohol, and alcohol dissolves rosin: lay it in one stroke,"
                " never scrub, and never wipe a slip off with alcohol."
            )
        case GrainKind.SPRAY:
            return say(
                "Spirit varnish holds alcohol, and alcohol softens enamel spray: lay it in one"
                " stroke, and never wipe a slip off with alcohol."
            )


def grain_removal(grain: GrainKind) -> str:
    """What takes the grain off after the last bite.

    Rosin and enamel by alcohol, acrylic by washing soda: published by several studios.
    """
    match grain:
        case GrainKind.ROSIN:
            return say("Take the rosin off with alcohol.")
        case GrainKind.SPRAY:
            return say("Take enamel spray off with alcohol, acrylic spray in a washing-soda bath.")
