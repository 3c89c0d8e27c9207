"""What the day says in words: its head, its lifts, and the whole of it read aloud."""

from collections.abc import Iterator

from toneladder.order.values import Doing, Order, Step
from toneladder.quantities import write_bite, write_minutes, write_time_of_day
from toneladder.quantities.manner import HARD_SPACE
from toneladder.wording import say, say_number

_DAY_MIN = 24 * 60


def start_minutes(start: str | None) -> int | None:
    """Minutes after midnight of "HH:MM"."""
    if start is None:
        return None
    hours, minutes = start.split(":")
    return int(hours) * 60 + int(minutes)


def clock(start_min: int | None, after_min: float) -> str:
    """The time of day so many minutes after the start; without a start, how long after it.

    >>> clock(9 * 60 + 30, 245.0)
    '13:35'
    >>> clock(None, 80.0).split()
    ['+', '1', 'h', '20', 'min']
    """
    if start_min is None:
        return say("+{space}{length}", space=HARD_SPACE, length=write_minutes(after_min))
    return write_time_of_day(start_min + round(after_min))


def heads_of(order: Order, start: str | None) -> tuple[str, ...]:
    """What stands beside the head, the fullest first, for as much room as there is."""
    start_min = start_minutes(start)
    last_min = order.steps[-1].lift_after_s / 60.0
    if start_min is None:
        began = say("begin at any time")
        lifted = say("last lift after {length}", length=write_minutes(last_min))
    else:
        began = say("begin {time}", time=clock(start_min, 0.0))
        lifted = say("last lift {time}", time=clock(start_min, last_min))
        later = (start_min + round(last_min)) // _DAY_MIN
        if later:
            lifted = say_number(
                "{lifted} the next day", "{lifted} {n} days later", later, lifted=lifted
            )
    if order.companion is not None:
        before = write_minutes(order.companion.work_min)
        began = say("the day before: a strip, {length} · {began}", length=before, began=began)
    if order.line_steps:
        lines = say_number("{n} line bite", "{n} line bites", len(order.line_steps))
        began = say("first {lines} · {began}", lines=lines, began=began)
    if order.second_grain is not None:
        after = write_minutes(order.second_grain.work_min)
        lifted = say("{lifted} · then a second grain, {length}", lifted=lifted, length=after)
    bath_s = sum(step.bite_s for step in order.steps)
    bath = say("{length} in the bath", length=write_minutes(bath_s / 60.0))
    worked_s = sum(s.end_s - s.start_s for s in order.day if s.doing in (Doing.PAINT, Doing.DRY))
    worked = say("{length} painting and drying", length=write_minutes(worked_s / 60.0))
    return (
        say(
            "{began} · {lifted} · {bath}, {worked}",
            began=began,
            lifted=lifted,
            bath=bath,
            worked=worked,
        ),
        say("{began} · {lifted} · {bath}", began=began, lifted=lifted, bath=bath),
        say("{began} · {lifted}", began=began, lifted=lifted),
        lifted,
    )


def step_words(step: Step, start: str | None) -> str:
    """One step, read aloud."""
    places = say_number("{n} place", "{n} places", step.painting.places)
    return say(
        "Step {step}: stop out tone {tone}, {places}, {paint}; dry {dry}; bite {bite}; "
        "lift {lift}.",
        step=step.step,
        tone=", ".join(str(tone) for tone in step.stop_out),
        places=places,
        paint=write_minutes(step.paint_min),
        dry=write_minutes(step.dry_min),
        bite=write_bite(step.bite_s),
        lift=_lifted(step, start),
    )


def day_words(order: Order, start: str | None) -> str:
    """The whole day as one description."""
    return " ".join(_sentences(order, start))


def _sentences(order: Order, start: str | None) -> Iterator[str]:
    yield heads_of(order, start)[0] + "."
    for bite in order.line_steps:
        yield say("Line bite {n}: {bite}.", n=bite.step, bite=write_bite(bite.bite_s))
    for step in order.steps:
        yield step_words(step, start)
    for last in () if order.second_grain is None else order.second_grain.steps:
        yield say("Second grain, bite {n}: {bite}.", n=last.step, bite=write_bite(last.bite_s))


def _lifted(step: Step, start: str | None) -> str:
    minutes, start_min = step.lift_after_s / 60.0, start_minutes(start)
    if start_min is None:
        return say("after {length}", length=write_minutes(minutes))
    return say("at {time}", time=clock(start_min, minutes))
