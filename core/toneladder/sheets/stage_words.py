"""What the sheet by the tank says of lines and second grain, in the words of the trade."""

from collections.abc import Sequence

from toneladder.order.line_steps import depth_words, line_minutes
from toneladder.order.stages import GrainStep, LineStep, SecondStage
from toneladder.order.values import Order, Rates
from toneladder.quantities import write_bite, write_minutes, write_tone
from toneladder.sheets.order_words import about
from toneladder.wording import say


def lines_head(steps: Sequence[LineStep], rates: Rates) -> str:
    """The head of the line bites."""
    return say("Lines first, on a day of their own: {time}", time=_span(line_minutes(steps, rates)))


def line_words(step: LineStep, depths: int) -> str:
    """What goes under varnish before a line bite."""
    if not step.stop_out:
        return say("all lines open")
    return say("stop out {lines}", lines=depth_words(step.stop_out[-1], depths))


def line_made(step: LineStep, depths: int) -> str:
    """What a line bite finishes."""
    return say(
        "makes {lines}, {total} in all",
        lines=depth_words(step.step, depths),
        total=write_bite(step.total_bite_s),
    )


def second_head(stage: SecondStage) -> str:
    """The head of the second grain."""
    return say("Second grain, on a day of its own: {time}", time=_span(stage.work_min))


def grain_words(step: GrainStep) -> str:
    """What goes under varnish before a bite in the second grain."""
    return say("stop out {what}", what=_tones(step.stop_out[0], step.stop_out[-1]))


def grain_made(step: GrainStep, stage: SecondStage) -> str:
    """What a bite in the second grain finishes."""
    after = [later.makes for later in stage.steps if later.step > step.step]
    last = after[0] - 1 if after else stage.tones[-1].tone
    return say(
        "deepens {tones}, {total} in this grain",
        tones=_tones(step.makes, last),
        total=write_bite(step.total_bite_s),
    )


def printed_words(stage: SecondStage, order: Order) -> str:
    """What both grains print together, and how far to trust it."""
    prints = "; ".join(
        say(
            "tone {tone} about {both}, not {first}",
            tone=tone.tone,
            both=write_tone(tone.lightness),
            first=write_tone(order.tones[tone.tone].lightness),
        )
        for tone in stage.tones
    )
    return say("Both grains together print, by estimate: {prints}.", prints=prints)


def painting_words(step: LineStep | GrainStep) -> str:
    """How long the varnish of a bite takes; nothing where none is painted."""
    if not step.stop_out:
        return ""
    return say(
        "paint about {paint}, dry {dry}",
        paint=write_minutes(about(step.paint_min)),
        dry=write_minutes(step.dry_min),
    )


def _tones(first: int, last: int) -> str:
    if first == last:
        return say("tone {tone}", tone=first)
    return say("tones {first} to {last}", first=first, last=last)


def _span(minutes: float) -> str:
    """A stretch of a day, as roughly as it is known."""
    return say("about {time}", time=write_minutes(5 * round(minutes / 5.0)))
