"""Numbers of bath, strip, tank and proof."""

from toneladder.bite.today import USUAL_Q
from toneladder.handbook.explained import Explained, Source
from toneladder.quantities import write_bite, write_number
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
            say("Plates of one bath stray by 20 % of the bite and 0.3 of darkness, nine in ten."),
            Source.MEMORY,
            say("Strips and proofs of your own take its place."),
        ),
        "q": Explained(
            say("A bath 10 °C warmer is taken to bite {q} times as fast.", q=write_number(USUAL_Q)),
            Source.ASSUMED,
            say("Published for stirred copper in ferric chloride: 1.1 to 1.5."),
        ),
        "strength": Explained(
            say("Strength is a label and changes no bite: stronger can be slower."),
            Source.PUBLISHED,
        ),
        "movement": Explained(
            say("A moving bath is taken to bite 1.3 times as fast as a still one."),
            Source.ASSUMED,
            say("That it bites faster is published, without a number."),
        ),
        "fineness": Explained(
            say("Fine, medium and coarse grains are taken as 0.05, 0.075 and 0.1 mm across."),
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
                "A reading is good to {dark} of darkness, unless it says otherwise.",
                dark=write_number(USUAL_SPREAD / _DARKNESS),
            ),
            Source.ASSUMED,
        ),
        "paper": Explained(
            say("Bare paper in a scan is taken as lightness {l}.", l=write_number(BARE_PAPER)),
            Source.PRACTICE,
        ),
    }


def strip_numbers() -> dict[str, Explained]:
    """When a strip stands for a plate."""
    from toneladder.strip.staleness import MANY_PLATES

    return {
        "apart": Explained(
            say("A bath more than 1 °C away is noted, 2 °C want a check patch, 3 °C a new strip."),
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
                "A place of a proof is named if it strays by {dark} of darkness from its tone.",
                dark=write_number(LEAST_DIFFERENCE / _DARKNESS),
            ),
            Source.MEMORY,
            say("Wiping alone does as much from pull to pull."),
        ),
    }
