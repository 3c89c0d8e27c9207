"""The stop-out order in plain sentences, to be read aloud."""

import re
from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from toneladder.bite.values import Standing
from toneladder.order.stages import GrainStep, LineStep
from toneladder.order.values import Order, Rates, Step
from toneladder.plate.values import Plate
from toneladder.quantities import rough_range, scale_name, write_bite, write_temperature
from toneladder.sheets.order_foot import day_before_words
from toneladder.sheets.order_words import (
    conditions_words,
    in_dips,
    likely_bite,
    likely_tone,
    painting_lines,
    standing_sentence,
    stopped_out,
    written_date,
)
from toneladder.sheets.stage_words import (
    grain_made,
    grain_words,
    line_made,
    line_words,
    lines_head,
    painting_words,
    printed_words,
    second_head,
)
from toneladder.wording import begins, say, say_number

_STROKED, _STROKES = re.compile(r"(\d+)(h|′|″)"), {"h": "h", "′": "min", "″": "s"}
_UNIT = re.compile(r"\b(\d+)\s(s|min|h|mm)\b")


def order_text(
    plate: Plate,
    order: Order,
    *,
    standing: Standing,
    source: str,
    made_on: date,
    bath_bites: Mapping[float, Sequence[float]] | None = None,
) -> str:
    """What the sheet by the tank says, as paragraphs without tables or signs.

    Parameters
    ----------
    plate, order, standing, source, made_on, bath_bites
        As for ``order_sheet``.

    Returns
    -------
    str
        One paragraph to a step, units and signs spelled out, an empty line between paragraphs.
    """
    title = " ".join(plate.title.split()) or say("Untitled plate")
    paragraphs = [
        say("{title}. Tank sheet of {date}.", title=title, date=written_date(made_on)),
        _standing(standing, source),
        _sentence(", ".join(conditions_words(plate.size, plate.conditions))),
        _count(order),
        *_lines(order, plate.rates),
        *_day_before(order),
        say("Before the first bite, check: {boxes}.", boxes="; ".join(order.before)),
        say("At every step: {doings}", doings=" ".join(order.within)),
        *(_step(step, order, bath_bites or {}) for step in order.steps),
        say("Tone {tone} is never stopped out.", tone=len(order.tones) - 1),
        say("After the last bite: {doings}", doings=" ".join(order.after)),
        *_second_grain(order),
        *(say("About this plate: {warning}", warning=warning) for warning in order.warnings),
        *(say("Caution: {caution}", caution=caution) for caution in order.cautions),
    ]
    return "\n\n".join(spoken(paragraph) for paragraph in paragraphs) + "\n"


def _day_before(order: Order) -> Iterator[str]:
    tasks = day_before_words(order)
    if tasks:
        yield say("The day before, a companion strip: {tasks}", tasks=" ".join(tasks))


def spoken(text: str) -> str:
    """``text`` with its units and signs in words.

    >>> spoken("1 min 15 s at 20 °C, 200 × 150 mm")
    '1 minute 15 seconds at 20 degrees Celsius, 200 by 150 millimetres'
    """
    words = {
        "×": say("by"),
        "°Bé": say("degrees Baumé"),
        "°C": say("degrees Celsius"),
        "°F": say("degrees Fahrenheit"),
        "–": say("to"),
        "L*": say("lightness"),
        " · ": ", ",
    }
    plain = _STROKED.sub(lambda found: f"{found[1]} {_STROKES[found[2]]} ", text)
    plain = plain.replace("D\N{NO-BREAK SPACE}", say("density") + " ")
    plain = " ".join(plain.split()).replace(" .", ".").replace(" ,", ",")
    for sign, word in words.items():
        plain = plain.replace(sign, word)
    return _UNIT.sub(_unit_in_words, plain)


def _unit_in_words(found: re.Match[str]) -> str:
    amount = int(found[1])
    match found[2]:
        case "s":
            return say_number("{n} second", "{n} seconds", amount)
        case "min":
            return say_number("{n} minute", "{n} minutes", amount)
        case "h":
            return say_number("{n} hour", "{n} hours", amount)
        case _:
            return say_number("{n} millimetre", "{n} millimetres", amount)


def _standing(standing: Standing, source: str) -> str:
    head = standing_sentence(standing)
    return say("{head} The times: {source}", head=head, source=_sentence(source))


def _count(order: Order) -> str:
    tones, steps = len(order.tones), len(order.steps)
    bites = say_number("{n} bite", "{n} bites", steps)
    return say(
        "{tones} tones, {bites}. Tone 0 is white. Step n stops out tone n less 1, and its bite "
        "makes tone n.",
        tones=tones,
        bites=bites,
    )


def _step(step: Step, order: Order, bath_bites: Mapping[float, Sequence[float]]) -> str:
    return " ".join(_step_sentences(step, order, bath_bites))


def _step_sentences(
    step: Step, order: Order, bath_bites: Mapping[float, Sequence[float]]
) -> Iterator[str]:
    yield say("Step {step}.", step=step.step)
    yield say(
        "Stop out {what}: {work}.",
        what=stopped_out(step, order.tones),
        work="; ".join(painting_lines(step, order)),
    )
    yield from step.remedies
    yield say("Head of the plate up.") if step.step % 2 else say("Foot of the plate up.")
    yield say("Bite {bite}.", bite=write_bite(step.bite_s))
    if dips := in_dips(step.dips_s):
        yield _sentence(dips)
    tone = order.tones[step.step]
    if bites := likely_bite(step):
        low, high = (write_bite(end) for end in rough_range(*bites))
        yield say("It may need from {low} to {high}.", low=low, high=high)
    else:
        yield say("It may print at {scale} {range}.", scale=scale_name(), range=likely_tone(tone))
    yield say(
        "This makes tone {tone}, bitten {total} in all.",
        tone=step.step,
        total=write_bite(step.total_bite_s),
    )
    baths = [
        say("{bite} at {bath}", bite=write_bite(bites[step.step - 1]), bath=write_temperature(bath))
        for bath, bites in sorted(bath_bites.items())
    ]
    if baths:
        yield say("By the bath's temperature, a guess: {baths}.", baths="; ".join(baths))


def _lines(order: Order, rates: Rates) -> Iterator[str]:
    """The line bites, a paragraph each."""
    steps = order.line_steps
    if steps:
        yield _sentence(lines_head(steps, rates))
    for step in steps:
        what, made = line_words(step, len(steps)), line_made(step, len(steps))
        done = (what, painting_words(step), *step.sentences)
        yield _bitten(say("Line bite {n}.", n=step.step), done, step, made)


def _second_grain(order: Order) -> Iterator[str]:
    """The second grain, a paragraph for each of its bites."""
    stage = order.second_grain
    if stage is None:
        return
    head = _sentence(second_head(stage))
    yield " ".join((head, *stage.sentences, printed_words(stage, order)))
    for step in stage.steps:
        done = (grain_words(step), painting_words(step))
        name = say("Second grain, bite {n}.", n=step.step)
        yield _bitten(name, done, step, grain_made(step, stage))


def _bitten(name: str, done: Sequence[str], step: LineStep | GrainStep, made: str) -> str:
    bite = say("Bite {bite}.", bite=write_bite(step.bite_s))
    rest = [_sentence(words) for words in (made, in_dips(step.dips_s)) if words]
    return " ".join((name, *(_sentence(words) for words in done if words), bite, *rest))


def _sentence(words: str) -> str:
    """``words`` with a capital and a full stop."""
    return f"{begins(words).rstrip('.')}."
