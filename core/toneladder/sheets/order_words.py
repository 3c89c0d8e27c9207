"""What the sheet by the tank says, in the words of the trade."""

from datetime import date

from toneladder.bite.values import Conditions, Standing
from toneladder.order.values import Order, Step, Tone
from toneladder.picture.values import PlateSize
from toneladder.quantities import (
    scale_name,
    write_bite,
    write_minutes,
    write_range,
    write_size,
    write_temperature,
    write_tones,
)
from toneladder.wording import begins, say, say_number

_TOLD_IN_TIME = 30.0  # a range whose ends are further apart says nothing in time
_MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


def written_date(day: date) -> str:
    """The day as people write it, the month as a word."""
    return say(
        "{day} {month} {year}", day=day.day, month=say(_MONTHS[day.month - 1]), year=day.year
    )


def likely_bite(step: Step) -> tuple[float, float] | None:
    """The range the step's bite may need, seconds.

    None where its ends are so far apart that it says nothing in time: there the doubt is told
    in darkness.
    """
    short, long = step.shortest_s, step.longest_s
    if not 0.0 < long <= _TOLD_IN_TIME * short:
        return None
    return max(short, 1.0), long


def likely_tone(tone: Tone) -> str:
    """Between what the tone is likely to print."""
    return write_tones(tone.lightness_high, tone.lightness_low)


def doubt(step: Step, tone: Tone) -> str:
    """How far the tone's bite or, where that says nothing, its darkness is in doubt."""
    bites = likely_bite(step)
    if bites is None:
        return say("{scale} perhaps {range}", scale=scale_name(), range=likely_tone(tone))
    return say("perhaps {range}", range=write_range(*bites))


def stopped_out(step: Step, tones: tuple[Tone, ...]) -> str:
    """The head of a step: what varnish goes over."""
    bare = all(tones[tone].share <= 0.0 for tone in step.stop_out)
    if step.step == 1:
        return say("bevel, edges") if bare else say("bevel, edges, whites")
    return say("tone {tone}", tone=", ".join(str(tone) for tone in step.stop_out))


def painting_lines(step: Step, order: Order) -> tuple[str, ...]:
    """What a step asks of the brush: places, minutes, and what to go over again."""
    bare = all(order.tones[tone].share <= 0.0 for tone in step.stop_out)
    places = say_number("{n} place", "{n} places", step.painting.places)
    lines = [say("nothing of the picture to stop out") if bare else places]
    lines.append(
        say(
            "paint about {paint}, dry {dry}",
            paint=write_minutes(about(step.paint_min)),
            dry=write_minutes(step.dry_min),
        )
    )
    if step.step > 1:
        lines.append(say("go over old varnish, edges, pinholes"))
    return tuple(lines)


def in_dips(dips_s: tuple[float, ...]) -> str:
    """How a long bite is split; nothing if it is one dip."""
    if len(dips_s) < 2:
        return ""
    number = say_number("{n} dip", "{n} dips", len(dips_s))
    if len(set(dips_s)) == 1:
        return say("{dips} of {each}, look between", dips=number, each=write_bite(dips_s[0]))
    if len(dips_s) == 2:
        first, last = (write_bite(dip) for dip in dips_s)
        return say(
            "{dips}: {first}, then {last}; look between", dips=number, first=first, last=last
        )
    return say(
        "{dips} of {each}, the last {last}; look between",
        dips=number,
        each=write_bite(dips_s[0]),
        last=write_bite(dips_s[-1]),
    )


def conditions_words(size: PlateSize, conditions: Conditions) -> tuple[str, ...]:
    """Metal, bath, ground and varnish, each in a few words."""
    bath = say(
        "{mordant}, {movement}, {temperature}",
        mordant=f"{say(conditions.mordant.value)} {conditions.strength}".strip(),
        movement=say(conditions.movement.value),
        temperature=write_temperature(conditions.temperature_c),
    )
    metal = say(conditions.metal.value)
    return (
        say(
            "{metal} {size}",
            metal=begins(metal),
            size=write_size(size.width_mm, size.height_mm),
        ),
        bath,
        say(
            "{grain}, {fineness}",
            grain=say(conditions.grain.value),
            fineness=say(conditions.fineness.value),
        ),
        say("{varnish} varnish", varnish=say(conditions.varnish.value)),
    )


def standing_words(standing: Standing) -> tuple[str, str]:
    """What the times rest on: the words in the box, and what follows from them."""
    if standing is Standing.UNTESTED:
        return (
            say("STARTING POINTS, UNTESTED"),
            say("No strip of this bath was read. Bite a companion strip first."),
        )
    return (say("From a strip"), "")


def standing_sentence(standing: Standing) -> str:
    """The same in calm sentences."""
    words, advice = standing_words(standing)
    calm = words.capitalize() if words.isupper() else words
    return f"{calm}. {advice}".strip()


def about(minutes: float) -> int:
    """Minutes as roughly as they are known."""
    step = 1 if minutes < 10 else 5
    return max(step * round(minutes / step), 1)
