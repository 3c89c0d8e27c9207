"""What can hurt somebody, for one metal, mordant, grain and varnish.

Sources: data sheets and school rules collected by the safety offices of universities, the
Health and Safety Executive and the International Labour Organization; a working person's
memory where they are silent.
"""

from toneladder.bite.values import Conditions, GrainKind, Metal, Mordant, Varnish
from toneladder.wording import say

_FERRIC = frozenset({Mordant.FERRIC_CHLORIDE, Mordant.FERRIC_CITRIC})


def cautions(conditions: Conditions) -> tuple[str, ...]:
    """Short cautions for what was chosen, the gravest first; the last one is always the same."""
    return (
        *_of_bath(conditions.metal, conditions.mordant),
        *_of_grain(conditions.grain),
        *_of_varnish(conditions.varnish),
        *_of_washing_soda(conditions),
        say("Oily and solvent rags heat themselves: into a lidded metal can, emptied daily."),
        say("Laptop and foot switch stay dry."),
        say(
            "Follow the safety data sheets, your studio's rules and your local law; ask your waste"
            " authority before disposing of a bath or its rinse water."
        ),
    )


def _of_bath(metal: Metal, mordant: Mordant) -> tuple[str, ...]:
    said = [say("Goggles and gloves at every lift, eyewash in reach.")]
    if mordant is Mordant.NITRIC_ACID:
        said += [
            say("Nitric acid: acid into water, never water into acid. Never alone."),
            say(
                "Bite under extraction: nitric fume warns poorly, and its harm to the lungs may"
                " show hours later."
            ),
        ]
    if mordant in _FERRIC:
        said.append(
            say("Ferric chloride harms eyes for good: rinse a splash at once, for 15 minutes.")
        )
    if mordant is Mordant.COPPER_SULPHATE_SALT:
        said.append(say("Copper sulphate harms eyes and is very toxic to water life."))
    if mordant is Mordant.OTHER or metal is Metal.OTHER:
        said.append(say("Read the data sheets of this metal and this bath before they meet."))
    if metal in {Metal.ZINC, Metal.ALUMINIUM}:
        said.append(say("The bite may give off hydrogen: no lid on the bath, no flame, no spark."))
    if metal is Metal.ALUMINIUM and mordant is Mordant.COPPER_SULPHATE_SALT:
        said.append(say("Aluminium heats this bath: watch the bath temperature."))
    said.append(say("The tank carries the name of its metal: no other metal goes into it."))
    return tuple(said)


def _of_grain(grain: GrainKind) -> tuple[str, ...]:
    match grain:
        case GrainKind.ROSIN:
            return (
                say(
                    "Rosin dust explodes: no flame, spark or smoking in the room with the box,"
                    " ever. Box shut; melt elsewhere, under extraction."
                ),
                say(
                    "Rosin dust and hot fume cause asthma: fitted particle mask; people with"
                    " asthma stay out."
                ),
            )
        case GrainKind.SPRAY:
            return (say("Spray under extraction, with a respirator made for that spray."),)


def _of_varnish(varnish: Varnish) -> tuple[str, ...]:
    match varnish:
        case Varnish.SPIRIT:
            return (
                say(
                    "The stop-out's alcohol is the longest exposure of the day: fresh air, no"
                    " flame, no hot dryer on wet spirit varnish."
                ),
            )
        case Varnish.ASPHALTUM:
            return (
                say(
                    "The stop-out's solvent is the longest exposure of the day: fresh air, no"
                    " flame, no hot dryer on wet varnish."
                ),
            )
        case Varnish.ACRYLIC:
            return ()


def _of_washing_soda(conditions: Conditions) -> tuple[str, ...]:
    if conditions.varnish is not Varnish.ACRYLIC and conditions.grain is not GrainKind.SPRAY:
        return ()
    if conditions.mordant in _FERRIC:
        return (
            say("A washing-soda bath foams with ferric chloride or vinegar: rinse well between."),
        )
    return (say("A washing-soda bath foams with vinegar: rinse well between."),)
