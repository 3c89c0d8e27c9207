"""What changes the rest: a reading of the bath, a mishap with the varnish, a choice."""

from collections.abc import Collection
from dataclasses import replace

from toneladder.errors import StripError
from toneladder.order.values import Order
from toneladder.quantities import write_bite, write_temperature, written
from toneladder.quantities.bath import COLDEST_C, WARMEST_C
from toneladder.strip.checking import checked_rate
from toneladder.strip.values import CheckPatch
from toneladder.tank.clocks import Elapsed
from toneladder.tank.course import IN_BATH, Course, warmth_at
from toneladder.tank.naming import made_names
from toneladder.tank.reworking import aims_anew, chosen, reworked
from toneladder.tank.values import Event, Remedy, Stage
from toneladder.tank.working_out import without
from toneladder.wording import begins, say

_BEYOND_BELIEF = 10.0  # so many times faster or slower is a slip of the pen


def pointed(course: Course, event: Event, _at: Elapsed) -> Course:
    """Another choice is looked at."""
    return replace(course, pointed=course.pointed + event.of)


def chose(course: Course, event: Event, _at: Elapsed) -> Course:
    """What is to become of lost tones."""
    if not course.lost or event.text not in set(Remedy):
        return course
    remedy = Remedy(event.text)
    if remedy is Remedy.ANEW and aims_anew(course) is None:
        return course
    return chosen(course, remedy)


def temperature(course: Course, event: Event, _at: Elapsed) -> Course:
    """The bath was read; a dip under way keeps its rate, the reading counts from the next."""
    if not COLDEST_C <= event.reading <= WARMEST_C:
        return course
    warmed = replace(course, bath_c=event.reading)
    if course.phase in IN_BATH:
        return warmed
    said = say("The bath is at {bath}.", bath=write_temperature(event.reading))
    return reworked(warmed, (said,))


def check_patch(course: Course, event: Event, _at: Elapsed) -> Course:
    """A check patch was read: the first tells of the whole day, a later one of what follows."""
    if course.facts.curve is None:
        said = say("A check patch tells of the tones alone. It was noted, not counted.")
        return replace(course, said=(*course.said, said))
    patch = CheckPatch(event.seconds, event.reading, temperature_c=course.bath_c)
    try:
        checked = checked_rate(patch, course.facts.curve)
    except StripError as refused:
        return replace(course, said=(*course.said, str(refused)))
    strength = checked.rate / warmth_at(course.bath_c, course.facts)
    if not 1.0 / _BEYOND_BELIEF < strength < _BEYOND_BELIEF:
        said = say("No bath is so far off as this check patch says. It was noted, not counted.")
        return replace(course, said=(*course.said, said))
    dips = course.dips
    if not course.patched:
        dips = tuple(replace(dip, strength=strength) for dip in dips)
    read = replace(course, strength=strength, patched=True, dips=dips)
    said = say(
        "The bath bites {ratio} times as fast as planned.",
        ratio=written().rounded(read.rate / course.facts.rate, 2),
    )
    return read if course.phase in IN_BATH else reworked(read, (said,))


def wrong_tone(course: Course, event: Event, _at: Elapsed) -> Course:
    """Varnish lies on a tone that was to bite on: it stays as dark as it is now."""
    tone = event.of
    coming = course.coming_step
    if course.phase in IN_BATH or coming is None:
        return course
    if not coming.step <= tone < len(course.base.tones):
        return course
    base = _never_made(course.base, tone, {kept for kept, _ in course.kept_s})
    if any(dip.step == tone for dip in course.dips) or not base.steps:
        return course
    said = _under_varnish(course, tone)
    reached = sum(dip.effective_s for dip in course.dips)
    return reworked(
        replace(
            course,
            base=base,
            kept_s=(*course.kept_s, (tone, reached)),
            settled=(*course.settled, tone - 1, tone),
        ),
        (said,),
    )


def too_late(course: Course, event: Event, _at: Elapsed) -> Course:
    """A tone bit on after it should have been stopped out: it is as dark as the plate is now."""
    tone = event.of
    if course.phase in IN_BATH or not 0 <= tone < course.step or not course.dips:
        return course
    said = _came_late(course, tone)
    reached = sum(dip.effective_s for dip in course.dips)
    return reworked(
        replace(
            course,
            kept_s=(*course.kept_s, (tone, reached)),
            settled=(*course.settled, *range(tone, course.step)),
        ),
        (said,),
    )


def _under_varnish(course: Course, tone: int) -> str:
    if course.facts.stage is Stage.TONES:
        return say(
            "Tone {tone} is under varnish and stays as it is. The rest follows; a later grain can "
            "darken it.",
            tone=tone,
        )
    made = begins(made_names(course.facts, course.planned, (tone,)))
    return say("{made}: under varnish, no bite any more. The rest follows.", made=made)


def _came_late(course: Course, tone: int) -> str:
    if course.facts.stage is Stage.TONES:
        return say(
            "Tone {tone} was stopped out late and prints as dark as tone {now}. No bite can be "
            "taken back: the rest follows.",
            tone=tone,
            now=course.dips[-1].step,
        )
    made = begins(made_names(course.facts, course.planned, (tone,)))
    had = sum(dip.bitten_s for dip in course.dips)
    return say(
        "{made}: stopped out late, bitten {bite}. No bite can be taken back: the rest follows.",
        made=made,
        bite=write_bite(had),
    )


def _never_made(base: Order, tone: int, kept: Collection[int]) -> Order:
    """The order in which no bite is given to this tone alone, and no step stops it out."""
    owner = max((s.step for s in base.steps if s.step <= tone), default=tone)
    ends = min((s.step for s in base.steps if s.step > owner), default=len(base.tones))
    alone = all(one == tone or one in kept for one in range(owner, ends))
    shorter = without(base, owner) if alone else base
    steps = tuple(
        replace(s, stop_out=tuple(t for t in s.stop_out if t != tone)) for s in shorter.steps
    )
    return replace(shorter, steps=steps)
