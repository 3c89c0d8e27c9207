"""What is said while the plate is out of the bath."""

from toneladder.order.rounding import dips
from toneladder.quantities import write_bite
from toneladder.tank.course import Course
from toneladder.tank.naming import bite_name
from toneladder.tank.remarks import STRAYED_S
from toneladder.tank.reworking import aims_anew
from toneladder.tank.telling_stage import (
    all_is_bitten,
    bite_at_hand,
    is_all_well,
    is_it_covered,
    is_it_skipped,
    what_to_stop_out,
    will_be_alike,
)
from toneladder.tank.values import Figure, Kind, Offer, Remedy
from toneladder.tank.view import TAKEN_BACK_WITHIN_S, Told, View, stopped_out_by
from toneladder.wording import begins, say

LONGEST = 90
"""Letters of a sentence that can be read from two metres, on two lines."""


def check(view: View) -> Told:
    """Before the first bite."""
    return Told(
        is_all_well(view.course.facts.stage),
        main=Offer(say("All is well"), Kind.CHECKED),
    )


def ready(view: View) -> Told:
    """A step can begin."""
    course = view.course
    bite = course.next_dip_s
    return Told(
        say(
            "{step}. {asked} Press, then walk to the tank.",
            step=begins(bite_at_hand(course)),
            asked=is_it_covered(course),
        ),
        figure=Figure(bite, still=True),
        then=say("{bite} Arrows: bath cooler, warmer.", bite=_bite_to_come(course)),
        then_in_s=course.facts.count_in_s + bite,
        main=Offer(say("Begin the count-in"), Kind.COUNTING),
        second=_skip_offer(course),
        earlier=Offer(say("cooler"), Kind.TEMPERATURE, reading=course.bath_c - 0.5),
        later=Offer(say("warmer"), Kind.TEMPERATURE, reading=course.bath_c + 0.5),
    )


def _skip_offer(course: Course) -> Offer | None:
    """The only bite there is cannot be left out."""
    if len(course.base.steps) < 2:
        return None
    return Offer(say("Hold: skip this step"), Kind.SKIP_ASKED)


def _bite_to_come(course: Course) -> str:
    """How long the step bites, and in how many dips: the figure shows the next dip alone."""
    rest_s = course.rest_s
    number = len(dips(rest_s, course.facts.longest_dip_s))
    if number < 2:
        return say("Then: a bite of {bite}.", bite=write_bite(rest_s))
    return say("Then: a bite of {bite} in {n} dips.", bite=write_bite(rest_s), n=number)


def skip(view: View) -> Told:
    """A step shall be left out."""
    return Told(
        is_it_skipped(view.course),
        figure=Figure(view.course.next_dip_s, still=True),
        main=Offer(say("No, keep it"), Kind.KEPT),
        second=Offer(say("Hold: skip it"), Kind.SKIPPED),
    )


def out_early(view: View) -> Told:
    """The plate is out before its bite is over, or for a look."""
    course = view.course
    dip = course.dips[-1]
    looked = dip.bitten_s >= dip.planned_s - 10.0
    back = view.taken_back(say("Hold: it was still in")) if looked else None
    here = Offer(say("Hold: end it here"), Kind.ENDED_HERE)
    return Told(
        say(
            "Out with {rest} to go. Rinse and look; press to put it back.",
            rest=write_bite(course.rest_s),
        ),
        figure=Figure(course.next_dip_s, still=True),
        main=Offer(say("Put it back"), Kind.COUNTING),
        second=back or here,
    )


def out(view: View) -> Told:
    """The bite is over."""
    course = view.course
    had = [dip for dip in course.dips if dip.step == course.step]
    bitten = course.had_s
    planned = course.dips[-1].planned_s + bitten - course.dips[-1].bitten_s if had else 0.0
    on_time = abs(bitten - planned) < STRAYED_S
    if any(dip.assumed for dip in had):
        said = say("Out after {bite}, assumed.", bite=write_bite(bitten))
    elif on_time:
        said = _out_on_time(course, write_bite(bitten))
    else:
        said = say("Out after {bite}.", bite=write_bite(bitten))
    return Told(
        say("{out} Rinse well, blow dry.", out=said),
        figure=Figure(bitten, still=True),
        then=_after_out(course),
        main=_stop_out_offer(course),
        second=view.taken_back(say("Hold: it was later") if on_time else _another_time()),
    )


def _out_on_time(course: Course, bite: str) -> str:
    """What was noted of a lift in time; a bite that was entered had no signal."""
    if course.before_lift is None:
        return say("Out after {bite}, as planned.", bite=bite)
    if course.silent:
        return say("Noted: out after {bite}, on time.", bite=bite)
    return say("Noted: out after {bite}, on the signal.", bite=bite)


def _another_time() -> str:
    """A lift that was noted at the wrong time is asked about again."""
    return say("Hold: another time")


def _after_out(course: Course) -> str:
    coming = course.next_step
    if coming is None:
        return say("It was the last lift.")
    return say("Then: stop out {tones}.", tones=stopped_out_by(course, coming))


def _stop_out_offer(course: Course) -> Offer:
    coming = course.next_step
    if coming is None:
        return Offer(say("Done"), Kind.STOPPING_OUT)
    tones = stopped_out_by(course, coming)
    return Offer(say("Stop out {tones}", tones=tones), Kind.STOPPING_OUT)


def worked_out(view: View) -> Told:
    """The bite strayed, and the rest was put right."""
    said = view.course.said
    first = next((n for n in range(len(said), 1, -1) if len(" ".join(said[:n])) <= LONGEST), 1)
    return Told(
        " ".join(said[:first]),
        figure=Figure(view.course.had_s, still=True) if view.course.dips else None,
        then=" ".join(said[first:]) or _after_out(view.course),
        main=Offer(say("Seen"), Kind.SEEN),
        second=view.taken_back(_another_time()),
    )


def lost_tone(view: View) -> Told:
    """Tones will print alike."""
    course = view.course
    pairs = tuple(sorted({tone for lighter in course.lost for tone in (lighter, lighter + 1)}))
    choices = remedies(course, view.since_s)
    at = course.pointed % len(choices)
    chosen = choices[at]
    kept = chosen is Kind.STILL_IN
    return Told(
        will_be_alike(course.facts.stage, pairs),
        then=say("Or: {others}.", others=", ".join(_choice(c) for c in choices if c is not chosen)),
        main=Offer(say("Set another time"), Kind.STILL_IN)
        if kept
        else Offer(say(chosen.value).capitalize(), Kind.CHOSE, text=chosen.value),
        second=Offer(say("Hold: next choice"), Kind.POINTED, of=1),
        earlier=Offer(say("the choice before"), Kind.POINTED, of=-1),
        later=Offer(say("the next choice"), Kind.POINTED, of=1),
    )


def _choice(choice: Remedy | Kind) -> str:
    """A choice within a sentence; to take the lift back is to say when it was."""
    return say("set another time") if choice is Kind.STILL_IN else say(choice.value)


def remedies(course: Course, since_s: float) -> tuple[Remedy | Kind, ...]:
    """What can be chosen for lost tones, in the order in which it is offered."""
    kinds: list[Remedy | Kind] = [Remedy.LEAVE, Remedy.ONE]
    if aims_anew(course) is not None:
        kinds.append(Remedy.ANEW)
    if course.before_lift is not None and since_s <= TAKEN_BACK_WITHIN_S:
        kinds.append(Kind.STILL_IN)
    return tuple(kinds)


def stop_out(view: View) -> Told:
    """The brush works; nothing waits for the clock."""
    step = view.course.next_step or view.course.now_step
    left = step.paint_min * 60.0 - view.since_s
    return Told(
        what_to_stop_out(view.course, step),
        figure=Figure(left, say("left, about")) if left > 0.0 else _time_is_up(),
        then=step.remedies[0]
        if step.remedies
        else say("Go over old varnish, edges, pinholes. Then let it dry."),
        then_in_s=max(left, 0.0),
        main=Offer(say("All painted: let it dry"), Kind.PAINTED),
    )


def drying(view: View) -> Told:
    """The varnish dries."""
    course = view.course
    step = course.next_step or course.now_step
    left = step.dry_min * 60.0 - view.since_s
    sentence = (
        say("Let it dry until about {time}.", time=view.time_of_day(max(left, 0.0)))
        if left > 0.0
        else say("It should be dry. Touch the thickest place.")
    )
    return Told(
        sentence,
        figure=Figure(left) if left > 0.0 else _time_is_up(),
        then=say(
            "Then: {step}, a bite of {bite}.",
            step=bite_name(course.facts, course.planned, step.step),
            bite=write_bite(step.bite_s),
        ),
        then_in_s=max(left, 0.0),
        main=Offer(say("It is dry"), Kind.DRY),
    )


def _time_is_up() -> Figure:
    """No figure: nothing waits for the clock any more."""
    return Figure(0.0, say("time is up"), still=True)


def no_sound(_view: View) -> Told:
    """Nothing can be heard."""
    return Told(
        say("No sound here. Watch the screen, or set an alarm beside you."),
        main=Offer(say("Seen"), Kind.SEEN),
    )


def end(view: View) -> Told:
    """The last lift is done."""
    return Told(
        all_is_bitten(view.course.facts.stage),
        main=Offer(say("Close"), Kind.CLOSED),
    )


def closed(_view: View) -> Told:
    """The session is over."""
    return Told(say("This session is over. Everything is in the record."))
