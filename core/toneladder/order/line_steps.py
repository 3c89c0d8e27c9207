"""Lines first: their steps through a hard ground, and what may become of them under the tones.

Common practice, no source, except where a line says more.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import ceil

from toneladder.bite.values import Conditions
from toneladder.lines.bites import line_bites, line_start, stays
from toneladder.lines.values import Lines
from toneladder.order.rounding import dips
from toneladder.order.stages import LineStep
from toneladder.order.values import Order, Rates
from toneladder.quantities import write_bite, write_minutes
from toneladder.wording import say

LONGEST_LINE_DIP_S = 900.0
"""A quarter of an hour, an assumption: then the ground is looked at."""

TIMES_THE_DARKEST = 2.0
"""A line's bite beside the longest total bite of the tones, from memory."""


def with_lines(
    order: Order, lines: Lines, lengths_cm: Sequence[float], conditions: Conditions, rates: Rates
) -> Order:
    """``order`` with the lines before it: their steps, boxes to tick, warnings and cautions.

    Parameters
    ----------
    order : Order
        Of the tones alone.
    lines, lengths_cm, conditions, rates
        As for :func:`line_steps`.
    """
    steps = line_steps(lines, conditions, lengths_cm, rates, order.steps[0].dry_min)
    longest = order.tones[-1].total_bite_s
    return replace(
        order,
        line_steps=steps,
        before=(*lines_before(lines), *order.before),
        warnings=(*order.warnings, *line_warnings(lines, conditions, steps, longest)),
        cautions=(*order.cautions[:-1], *line_cautions(), *order.cautions[-1:]),
    )


def line_steps(
    lines: Lines,
    conditions: Conditions,
    lengths_cm: Sequence[float],
    rates: Rates,
    dry_min: float,
) -> tuple[LineStep, ...]:
    """The steps of the lines; none where neither the etcher nor anybody else knows their bites.

    Parameters
    ----------
    lines : Lines
        Depths and bites.
    conditions : Conditions
        Metal and bath.
    lengths_cm : sequence of float
        Length of the lines of each depth, finest first.
    rates : Rates
        How fast this etcher paints.
    dry_min : float
        What the varnish takes to dry.
    """
    totals = line_bites(lines, conditions)
    made = []
    for k, (total, bite) in enumerate(zip(totals, stays(totals), strict=True), start=1):
        covered = (k - 1,) if k > 1 else ()
        made.append(
            LineStep(
                step=k,
                stop_out=covered,
                length_cm=lengths_cm[k - 1],
                bite_s=bite,
                total_bite_s=total,
                dips_s=dips(bite, LONGEST_LINE_DIP_S),
                paint_min=sum(lengths_cm[d - 1] for d in covered) / rates.border_cm_per_min,
                dry_min=dry_min if covered else 0.0,
                sentences=tuple(_sentences(k, len(totals), bite)),
            )
        )
    if made and lines.stopped_out:
        painting = sum(lengths_cm) / rates.border_cm_per_min
        made[-1] = replace(made[-1], sentences=(*made[-1].sentences, _painted_over(painting)))
    return tuple(made)


def line_minutes(steps: Sequence[LineStep], rates: Rates) -> float:
    """Minutes that the lines take in all, from the grounded plate to the last lift."""
    bitten = sum(step.bite_s for step in steps) / 60.0
    worked = sum(step.paint_min + step.dry_min + rates.between_min for step in steps)
    return bitten + worked


def line_warnings(
    lines: Lines, conditions: Conditions, steps: Sequence[LineStep], longest_tone_s: float
) -> Iterator[str]:
    """What may go wrong with lines under tones, a sentence each."""
    if not steps:
        yield say(
            "There is no starting point for lines in this metal and bath: their bites are not"
            " planned. Bite a line trial, and give the line bites yourself."
        )
        return
    if not lines.bites_s and (start := line_start(conditions)) is not None:
        yield say("The line bites are untested: {source}.", source=start.source)
    wanted = TIMES_THE_DARKEST * longest_tone_s
    shallow = [step for step in steps if step.total_bite_s < wanted]
    if shallow:
        yield say(
            "Lines bitten {bite} are shallow beside tones bitten {longest}: they may be lost in"
            " the darks. Bite them {twice} or longer, or plan lighter darks.",
            bite=write_bite(shallow[0].total_bite_s),
            longest=write_bite(longest_tone_s),
            twice=write_bite(60.0 * ceil(wanted / 60.0)),
        )
    if not lines.stopped_out:
        yield say(
            "Lines stay open under the grain and deepen with the tones round them, until those"
            " are stopped out. Paint the lines over first if they are to stay as they are."
        )


def lines_before(lines: Lines) -> tuple[str, ...]:
    """Boxes to tick for the lines before the aquatint's first bite."""
    proofed = say("lines bitten, proofed, clean")
    return (proofed, say("lines painted over")) if lines.stopped_out else (proofed,)


def line_cautions() -> tuple[str, ...]:
    """What can hurt somebody who grounds a plate."""
    return (
        say(
            "Hard ground and what takes it off give off vapour: fresh air, no flame; warm the"
            " plate on a closed hot plate, never over a flame."
        ),
    )


def depth_words(depth: int, depths: int) -> str:
    """What lines of a depth are called, where there are so many."""
    if depths == 1:
        return say("all lines")
    if depth == 1:
        return say("the finest lines")
    if depth == depths:
        return say("the heaviest lines")
    return say("lines of depth {depth}", depth=depth)


def _sentences(k: int, depths: int, bite_s: float) -> Iterator[str]:
    if k == 1:
        yield say("Lay a hard ground, transfer the drawing mirrored, draw every line to the metal.")
        yield say("Cover back and edges.")
    else:
        yield say("Rinse and dry the plate before the varnish.")
    if bite_s > LONGEST_LINE_DIP_S:
        yield say("Look between the dips: where the ground lifts, mend it.")
    if k == depths:
        yield say("Take the ground off, pull a proof of the lines, clean and degrease the plate.")
        yield say("Then lay the grain.")


def _painted_over(minutes: float) -> str:
    return say(
        "Paint the lines over with varnish before the first tone is bitten: about {time},"
        " which are not in the day's length.",
        time=write_minutes(max(5 * round(minutes / 5.0), 5)),
    )
