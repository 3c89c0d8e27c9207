"""Numbers of picture, tones, brush and hand."""

from toneladder.borders.values import Soft
from toneladder.handbook.explained import Explained, Source
from toneladder.lines.values import Lines
from toneladder.order.values import Rates
from toneladder.quantities import (
    name_apart,
    write_apart,
    write_bite,
    write_drawn,
    write_length,
    write_number,
    write_painted,
)
from toneladder.tones.values import Brush, ToneChoice
from toneladder.wording import say

_DARKNESS = 10.0  # L* to one of darkness


def tone_numbers() -> dict[str, Explained]:
    """How far apart tones are, and what of the picture becomes paper and black."""
    gap = name_apart(ToneChoice().gap_lightness)
    return {
        "gap": Explained(
            say(
                "Neighbouring tones are at least {gap} apart, if there is room.",
                gap=gap,
            ),
            Source.ASSUMED,
        ),
        "alike": Explained(
            say(
                "Tones less than {apart} apart are called too close to tell apart.",
                apart=name_apart(2.3),
            ),
            Source.PUBLISHED,
            say("It is what a viewer can tell on two swatches; doubt about them is added."),
        ),
        "first": Explained(
            say(
                "A first tone less than {apart} darker than wiped white drowns in plate tone.",
                apart=write_apart(5.0),
            ),
            Source.MEMORY,
        ),
        "paper_from": Explained(
            say("Empty, the lightest half per cent of the picture becomes paper."),
            Source.ASSUMED,
            say("Type a tone of the picture to decide it yourself."),
        ),
        "black_from": Explained(
            say("Empty, the darkest half per cent of the picture prints darkest."),
            Source.ASSUMED,
            say("Type a tone of the picture to decide it yourself."),
        ),
        "squint": Explained(
            say("How much detail is let go; half the smallest dot unless you say otherwise."),
            Source.ASSUMED,
        ),
        "enough": Explained(
            say(
                "Tones are enough when one more brings less than {least} of darkness.",
                least=write_number(0.1),
            ),
            Source.ASSUMED,
        ),
    }


def brush_numbers() -> dict[str, Explained]:
    """What a hand can paint."""
    usual = Brush()
    return {
        "mark_mm": Explained(
            say(
                "The smallest dot of varnish a brush can set; usually {size}.",
                size=write_length(usual.mark_mm),
            ),
            Source.MEMORY,
            say("Try your own brush and type what it can do."),
        ),
        "gap_mm": Explained(
            say(
                "The smallest opening a brush can leave between two dots; usually {size}.",
                size=write_length(usual.gap_mm),
            ),
            Source.MEMORY,
            say("An opening is harder to leave than a dot is to paint."),
        ),
        "varnish": Explained(
            say("The varnish decides drying: spirit 10 min, acrylic 20 min, asphaltum 40 min."),
            Source.MEMORY,
            say("Every varnish is taken to run {far} past the brush.", far=write_length(0.3)),
        ),
    }


def soft_numbers() -> dict[str, Explained]:
    """What counts as a soft passage."""
    usual = Soft()
    return {
        "steepest": Explained(
            say(
                "A border is soft where the picture changes by less than {slope} of darkness to"
                " the millimetre.",
                slope=write_number(usual.steepest / _DARKNESS),
            ),
            Source.ASSUMED,
        ),
        "shortest_mm": Explained(
            say(
                "Soft stretches shorter than {size} are let pass.",
                size=write_length(usual.shortest_mm),
            ),
            Source.ASSUMED,
        ),
        "remedy": Explained(
            say("What the trade does where a hard border would show."), Source.PRACTICE
        ),
    }


def line_numbers() -> dict[str, Explained]:
    """What is a pen line, and how it is bitten."""
    usual = Lines()
    return {
        "widest_mm": Explained(
            say(
                "A dark ridge up to this width is a line, not a tone; usually {size}.",
                size=write_length(usual.widest_mm),
            ),
            Source.ASSUMED,
        ),
        "contrast": Explained(
            say(
                "A line is so much darker than what lies beside it; usually {dark}.",
                dark=write_number(usual.contrast / _DARKNESS),
            ),
            Source.ASSUMED,
        ),
        "bites": Explained(
            say("Empty, the heaviest lines get the usual bite of metal and bath, finer ones half."),
            Source.ASSUMED,
            say("The usual bite itself is published for most baths; see the Lines sheet."),
        ),
        "twice": Explained(
            say("Lines need at least twice the longest total bite of the tones."), Source.MEMORY
        ),
    }


def order_numbers() -> dict[str, Explained]:
    """Bites that a hand can time."""
    from toneladder.order.rounding import DIP_STEP_S, LONGEST_DIP_S, LOWERING_MM_PER_S, SHORTEST_S

    return {
        "rounding": Explained(
            say(
                "Bites are rounded to {s} s up to a minute, coarser above.",
                s=write_number(DIP_STEP_S),
            ),
            Source.ASSUMED,
            say("The tones shown are those that the rounded bites print."),
        ),
        "shortest": Explained(
            say(
                "No bite is shorter than {bite}; a tall plate needs longer, for it goes in at"
                " {far} a second.",
                bite=write_bite(SHORTEST_S),
                far=write_length(LOWERING_MM_PER_S),
            ),
            Source.ASSUMED,
        ),
        "dips": Explained(
            say(
                "Bites over {bite} are split, with a look between.", bite=write_bite(LONGEST_DIP_S)
            ),
            Source.PRACTICE,
        ),
        "second_grain": Explained(
            say("How dark two grains print together, as if their openings fell at random."),
            Source.ASSUMED,
            say("No strip of two grains was found."),
        ),
    }


def pace_numbers() -> dict[str, Explained]:
    """How fast the etcher works, by the names of the rates."""
    usual, yours = Rates(), say("Time yourself once, and type your own.")

    def assumed(sentence: str) -> Explained:
        return Explained(sentence, Source.ASSUMED, yours)

    return {
        "fill_cm2_per_min": assumed(
            say(
                "Varnish that a hand lays in a minute, away from borders; usually {area}.",
                area=write_painted(usual.fill_cm2_per_min),
            )
        ),
        "border_cm_per_min": assumed(
            say(
                "Border that a hand draws in a minute; usually {length}.",
                length=write_drawn(usual.border_cm_per_min),
            )
        ),
        "place_s": assumed(
            say(
                "Finding the next place and beginning it; usually {n} s.",
                n=write_number(usual.place_s),
            )
        ),
        "between_min": assumed(
            say(
                "Rinsing, blotting and looking, once a step; usually {n} min.",
                n=write_number(usual.between_min),
            )
        ),
        "dry_min": Explained(
            say(
                "Empty, as long as the varnish usually dries: spirit 10, acrylic 20, asphaltum 40."
            ),
            Source.MEMORY,
            yours,
        ),
        "rest_every_min": assumed(
            say(
                "Work after which a rest is due; usually {n} min.",
                n=write_number(usual.rest_every_min),
            )
        ),
        "rest_min": assumed(
            say("How long a rest is; usually {n} min.", n=write_number(usual.rest_min))
        ),
    }


def edition_numbers() -> dict[str, Explained]:
    """What an edition takes, by the names of its questions."""
    from toneladder.order.edition import USUAL_DAY_HOURS, USUAL_PULL_MIN, Edition

    spoilt = 100.0 * Edition().spoilt_share
    return {
        "artist_proofs": Explained(
            say("Artist's proofs; usually one to ten prints of the edition."), Source.PRACTICE
        ),
        "spoilt_share": Explained(
            say("Prints that go wrong, of all; usually {n} %.", n=write_number(spoilt)),
            Source.ASSUMED,
        ),
        "pull_min": Explained(
            say(
                "Inking, wiping, printing and laying away one sheet; usually {n} min.",
                n=write_number(USUAL_PULL_MIN),
            ),
            Source.ASSUMED,
        ),
        "day_hours": Explained(
            say("Hours of printing in a day; usually {n}.", n=write_number(USUAL_DAY_HOURS)),
            Source.ASSUMED,
        ),
    }
