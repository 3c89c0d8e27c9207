"""Numbers of bath, strip, tank and proof."""

from toneladder.bite.today import USUAL_Q
from toneladder.handbook.explained import Explained, Source
from toneladder.quantities import (
    name_apart,
    name_tone,
    write_between,
    write_bite,
    write_grain,
    write_number,
    write_percent,
    write_warmer,
)
from toneladder.wording import say

_DARKNESS = 10.0  # L* to one of darkness


def curve_numbers() -> dict[str, Explained]:
    """Total bites, what they print, and the doubt about both."""
    return {
        "untested": Explained(
            say(
                "Total bites and their ranges are starting points: a model of grain and ink, set"
                " by the few times that were published."
            ),
            Source.ASSUMED,
            say("Bite and read a strip to have your own."),
        ),
        "tested": Explained(
            say("Total bites and their ranges stand on the strips and proofs that you read."),
            Source.READ,
            say("Nine plates in ten are expected within the range."),
        ),
        "scatter": Explained(
            say(
                "Plates of one bath stray by {share} of the bite and {apart}, nine in ten.",
                share=write_percent(0.2),
                apart=name_apart(3.0),
            ),
            Source.MEMORY,
            say("Strips and proofs of your own take its place."),
        ),
        "q": Explained(
            say(
                "A bath {warmer} warmer is taken to bite {q} times as fast.",
                warmer=write_warmer(10.0),
                q=write_number(USUAL_Q),
            ),
            Source.ASSUMED,
            say(
                "Published for stirred copper in ferric chloride: {range}.",
                range=write_between(write_number(1.1), write_number(1.5)),
            ),
        ),
        "strength": Explained(
            say("Strength is a label and changes no bite: stronger can be slower."),
            Source.PUBLISHED,
        ),
        "movement": Explained(
            say(
                "A moving bath is taken to bite {times} times as fast as a still one.",
                times=write_number(1.3),
            ),
            Source.ASSUMED,
            say("That it bites faster is published, without a number."),
        ),
        "fineness": Explained(
            say(
                "Fine, medium and coarse grains are taken as {fine}, {medium} and {coarse} across.",
                fine=write_grain(0.05),
                medium=write_grain(0.075),
                coarse=write_grain(0.1),
            ),
            Source.MEMORY,
        ),
    }


def reading_numbers() -> dict[str, Explained]:
    """How strips are planned, bitten and read."""
    from toneladder.bite.session import USUAL_SPREAD
    from toneladder.scans.page import BARE_PAPER
    from toneladder.strip.planning import LIFT_MIN, USUAL_PATCHES

    return {
        "patches": Explained(
            say("A strip has {n} patches, unless you say otherwise.", n=USUAL_PATCHES),
            Source.ASSUMED,
        ),
        "lift": Explained(
            say("Lifting, rinsing and taping take {n} min a patch.", n=write_number(LIFT_MIN)),
            Source.ASSUMED,
        ),
        "spread": Explained(
            say(
                "A reading is good to {apart}, unless it says otherwise.",
                apart=name_apart(USUAL_SPREAD),
            ),
            Source.ASSUMED,
        ),
        "paper": Explained(
            say("Bare paper in a scan is taken as {tone}.", tone=name_tone(BARE_PAPER)),
            Source.PRACTICE,
        ),
    }


def strip_numbers() -> dict[str, Explained]:
    """When a strip stands for a plate."""
    from toneladder.strip.staleness import MANY_PLATES

    return {
        "apart": Explained(
            say(
                "A bath more than {noted} away is noted, {check} want a check patch, {new} a new"
                " strip.",
                noted=write_warmer(1.0),
                check=write_warmer(2.0),
                new=write_warmer(3.0),
            ),
            Source.ASSUMED,
        ),
        "plates": Explained(
            say("After {n} plates a bath is another one.", n=MANY_PLATES), Source.ASSUMED
        ),
        "grained_on": Explained(
            say("A strip stands for plates that were grained together with it."),
            Source.PRACTICE,
        ),
        "check": Explained(
            say("One small patch bitten today tells how fast the bath is, against the curve."),
            Source.READ,
        ),
    }


def tank_numbers() -> dict[str, Explained]:
    """The clock at the tank, and proofs."""
    from toneladder.proof.places import LEAST_DIFFERENCE
    from toneladder.tank.sounds import LONG_BITE_S, WARNED_S

    return {
        "count_in": Explained(say("The way from the key to the tank takes 10 s."), Source.ASSUMED),
        "warned": Explained(
            say(
                "Bites of {bite} and more are warned of {first} and {second} before the lift.",
                bite=write_bite(LONG_BITE_S),
                first=write_bite(WARNED_S[0]),
                second=write_bite(WARNED_S[1]),
            ),
            Source.ASSUMED,
        ),
        "strayed": Explained(
            say(
                "A place of a proof is named if it strays by {apart} from its tone.",
                apart=name_apart(LEAST_DIFFERENCE),
            ),
            Source.MEMORY,
            say("Wiping alone does as much from pull to pull."),
        ),
    }
