"""What the test strip says in words: row heads, figures, the caption, and what is read aloud."""

from typing import TYPE_CHECKING

from toneladder.bite.values import Standing
from toneladder.quantities import Manner, write_minutes
from toneladder.wording import say, say_number
from toneladder_desktop.how_many.content import Content
from toneladder_desktop.how_many.layout import Row

if TYPE_CHECKING:
    from toneladder.plan.comparing import Gain, Offer

WAITING = "…"
ALIKE = "≈"
_MINUS = "\N{MINUS SIGN}"
_SAME_BATH = 0.1
_MANY_HOURS = 100


def head_of(row: Row) -> tuple[str, str]:
    """What a row is, and a second line that says more."""
    return {
        Row.STEPS: (say("steps"), ""),
        Row.PAINTING: (say("painting"), ""),
        Row.PLACES: (say("places to stop out"), ""),
        Row.DAY: (say("whole day, with drying"), ""),
        Row.DISTANCE: (say("distance from the picture"), say("in darkness, on average")),
        Row.GAIN: (say("one more tone: nearer by"), say("and the day longer by")),
    }[row]


def figure_of(row: Row, content: Content, column: int, *, narrow: bool = False) -> str:
    """The figure of a row in one column; for ``GAIN`` between it and the next one."""
    if row is Row.GAIN:
        return _gain_of(content.gain(column), content.manner)[0]
    offer = content.offer(column)
    return WAITING if offer is None else _figure_of(row, offer, content.manner, narrow=narrow)


def longer_of(content: Content, column: int, *, narrow: bool = False) -> str:
    """How much longer one more tone makes the day."""
    return _gain_of(content.gain(column), content.manner, narrow=narrow)[1]


def duration(minutes: float, *, narrow: bool = False) -> str:
    """Minutes as hours and minutes.

    >>> duration(26.4).split(), duration(208.0).split(), duration(208.0, narrow=True).split()
    (['26', 'min'], ['3', 'h', '28', 'min'], ['3', 'h', '28'])
    """
    hours, rest = divmod(round(minutes), 60)
    if hours >= _MANY_HOURS:
        return write_minutes(60.0 * hours)
    if narrow and hours and rest:
        return say("{hours} h {minutes:02}", hours=hours, minutes=rest)
    return write_minutes(minutes)


def written(darkness: float, manner: Manner) -> str:
    """A distance, in darkness."""
    from toneladder.plan.comparing import write_distance

    return write_distance(darkness, manner)


def subtitle_of(content: Content) -> str:
    """What is compared, how long the bath takes, and what the times rest on."""
    parts = [
        say(
            "The same piece of the picture in {fewest} to {most} tones, as it would print.",
            fewest=content.counts[0],
            most=content.counts[-1],
        )
    ]
    baths = [o.bath_s / 60.0 for k in range(len(content.counts)) if (o := content.offer(k))]
    if baths and max(baths) - min(baths) <= _SAME_BATH * max(baths):
        parts.append(say("{minutes} in the bath with any of them.", minutes=duration(max(baths))))
    elif baths:
        parts.append(
            say(
                "{least} to {most} in the bath.",
                least=duration(min(baths)),
                most=duration(max(baths)),
            )
        )
    if content.standing is Standing.UNTESTED:
        parts.append(say("Starting points, untested."))
    return " ".join(parts)


def explained(content: Content) -> str:
    """What *enough* means, and what no number of tones can do."""
    means = say(
        "Enough means: one more tone would bring less than {least} of darkness (0 white, "
        "10 black).",
        least=content.manner.number(content.least_gain, 2),
    )
    if content.floor is None or round(content.floor, 2) <= 0.0:
        return means
    floor = written(content.floor, content.manner)
    return (
        means
        + " "
        + say("The brush alone keeps the print {floor} away, whatever the number.", floor=floor)
    )


def caption_of(content: Content) -> tuple[str, str]:
    """What the whole print shows, and what must be said of it or can be done with it."""
    tones = say_number("{n} tone", "{n} tones", content.counts[content.focus])
    remarks = remarks_of(content, content.focus)
    hint = " · ".join(remarks) if remarks else say("drag the frame to compare another place")
    return say("{tones}, whole picture", tones=tones), hint


def remarks_of(content: Content, column: int) -> list[str]:
    """What speaks against a number of tones."""
    offer = content.offer(column)
    if offer is None:
        return []
    remarks = []
    if offer.count < offer.asked:
        remarks.append(say("there is room for {n} only", n=offer.count))
    if len(offer.alike) == 1:
        a = offer.alike[0]
        remarks.append(say("tones {a} and {b} print alike", a=a, b=a + 1))
    elif offer.alike:
        remarks.append(say("some neighbouring tones print alike"))
    if offer.costs is not None and offer.costs.hard_to_paint:
        remarks.append(say("{n} places in one step are hard to paint", n=offer.costs.most_places))
    return remarks


def beside_number(content: Content, column: int) -> tuple[str, str]:
    """A sign, if some of a column's tones print alike; a word, if the plate has so many now."""
    offer = content.offer(column)
    return (
        ALIKE if offer is not None and offer.alike else "",
        say("now") if content.counts[column] == content.own else "",
    )


def act_of(content: Content) -> str:
    """What the act says: as many tones as one would get."""
    offer = content.offer(content.focus)
    count = content.counts[content.focus] if offer is None else offer.count
    return say_number("Take {n} tone", "Take {n} tones", count)


def spoken(content: Content, column: int) -> str:
    """One column in one sentence."""
    tones = say_number("{n} tone", "{n} tones", content.counts[column])
    offer = content.offer(column)
    if offer is None:
        return say("{tones}: being worked out.", tones=tones)
    parts = [say_number("{n} step", "{n} steps", offer.steps), *_costs_spoken(offer)]
    parts.append(
        say(
            "{distance} of darkness from the picture",
            distance=written(offer.distance, content.manner),
        )
    )
    parts += remarks_of(content, column)
    said = say("{tones}: {parts}.", tones=tones, parts=", ".join(parts))
    if content.is_enough(column):
        said += " " + say("Enough for this picture.")
    if content.counts[column] == content.own:
        said += " " + say("The plate has so many now.")
    return said


def _costs_spoken(offer: "Offer") -> list[str]:
    if offer.costs is None:
        return [say("costs are being worked out")]
    costs = offer.costs
    return [
        say("painting {time}", time=duration(costs.paint_min)),
        say_number("{n} place to stop out", "{n} places to stop out", costs.places),
        say("whole day {time}", time=duration(costs.day_s / 60.0)),
    ]


def _figure_of(row: Row, offer: "Offer", manner: Manner, *, narrow: bool) -> str:
    if row is Row.STEPS:
        return str(offer.steps)
    if row is Row.DISTANCE:
        return written(offer.distance, manner)
    if offer.costs is None:
        return WAITING
    if row is Row.PLACES:
        return str(offer.costs.places)
    painting = row is Row.PAINTING
    return duration(offer.costs.paint_min if painting else offer.costs.day_s / 60.0, narrow=narrow)


def _gain_of(gain: "Gain | None", manner: Manner, *, narrow: bool = False) -> tuple[str, str]:
    if gain is None:
        return "", ""
    nearer = written(gain.nearer, manner).replace("-", _MINUS)
    if gain.minutes is None:
        return nearer, WAITING
    sign = _MINUS if gain.minutes < 0 else ""
    return nearer, sign + duration(abs(gain.minutes), narrow=narrow)
