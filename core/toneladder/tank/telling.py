"""What is said in each state: one sentence, what comes next, and the words on the acts."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta, tzinfo

from toneladder.order.values import Step
from toneladder.quantities import write_bite
from toneladder.tank.course import Course
from toneladder.tank.values import Figure, Kind, Offer, Remedy, State
from toneladder.tank.working_out import next_dip
from toneladder.wording import say, say_number

TAKEN_BACK_WITHIN_S = 60.0
AS_PLANNED_S = 1.0
SAID_LATER_S = 30.0


@dataclass(frozen=True, slots=True)
class View:
    """What there is to tell: the course, and the time.

    ``left_s`` is what remains of the dip (negative once over), ``since_s`` how long the phase
    has lasted, ``apart_s`` by how much the clocks disagree.
    """

    course: Course
    utc_s: float
    zone: tzinfo
    since_s: float
    bitten_s: float = 0.0
    left_s: float = 0.0
    apart_s: float = 0.0

    def time_of_day(self, in_s: float) -> str:
        """The time on the wall so many seconds from now."""
        at = datetime.fromtimestamp(self.utc_s, UTC) + timedelta(seconds=in_s)
        return f"{at.astimezone(self.zone):%H:%M}"


@dataclass(frozen=True, slots=True)
class Told:
    """Sentence, figure, what comes next (in how many seconds, if known), and the acts."""

    sentence: str
    figure: Figure | None = None
    then: str = ""
    then_in_s: float | None = None
    main: Offer | None = None
    second: Offer | None = None
    earlier: Offer | None = None
    later: Offer | None = None
    extra: tuple[str, ...] = field(default=())


def tell(state: State, view: View) -> Told:
    """Everything that is said in ``state``."""
    return _TELLERS[state](view)


def listed(numbers: tuple[int, ...]) -> str:
    """Tones as people list them.

    >>> listed((3, 4, 5))
    '3, 4 and 5'
    """
    *first, last = map(str, numbers)
    return say("{some} and {last}", some=", ".join(first), last=last) if first else last


def tones_word(tones: tuple[int, ...]) -> str:
    """*Tone 3*, or *Tones 3, 4 and 5*."""
    return say_number("Tone {tones}", "Tones {tones}", len(tones), tones=listed(tones))


def remedies(course: Course, since_s: float) -> tuple[str, ...]:
    """What can be chosen for lost tones, in the order in which it is offered."""
    kinds = [Remedy.LEAVE.value, Remedy.ONE.value, Remedy.ANEW.value]
    if course.before_lift is not None and since_s <= TAKEN_BACK_WITHIN_S:
        kinds.append(Kind.STILL_IN.value)
    return tuple(kinds)


def _check(_view: View) -> Told:
    return Told(
        say("Back and edges protected, plate clean? Then press."),
        main=Offer(say("All is well"), Kind.CHECKED),
    )


def _ready(view: View) -> Told:
    course = view.course
    step = course.now_step
    covered = _covered(course)
    if not covered or (step.step == course.order.steps[0].step and not step.painting.area_cm2):
        asked = say("Nothing to stop out.")
    else:
        asked = say_number(
            "Tone {tones} stopped out and dry?",
            "Tones {tones} stopped out and dry?",
            len(covered),
            tones=", ".join(map(str, covered)),
        )
    bite = next_dip(course.rest_s)
    return Told(
        say(
            "Step {step}. {asked} Press, then walk to the tank.",
            step=step.step,
            asked=asked,
        ),
        figure=Figure(bite),
        then=say("Then: a bite of {bite}.", bite=write_bite(bite)),
        then_in_s=course.facts.count_in_s + bite,
        main=Offer(say("Begin the count-in"), Kind.COUNTING),
        second=Offer(say("Skip this step"), Kind.SKIP_ASKED),
        earlier=Offer(say("cooler"), Kind.TEMPERATURE, reading=course.bath_c - 0.5),
        later=Offer(say("warmer"), Kind.TEMPERATURE, reading=course.bath_c + 0.5),
    )


def _covered(course: Course) -> tuple[int, ...]:
    """Every tone that lies under varnish at the step at hand."""
    early = {tone for tone, _ in course.kept_s}
    stopped = {t for s in course.order.steps if s.step <= course.step for t in s.stop_out}
    return tuple(sorted(stopped | early))


def _open(course: Course) -> tuple[int, ...]:
    """Every tone that bites at the step at hand."""
    covered = _covered(course)
    return tuple(t.tone for t in course.base.tones if t.tone not in covered)


def _skip(view: View) -> Told:
    step = view.course.step
    return Told(
        say(
            "Skip step {step}? Tone {tone} will print like tone {before}.",
            step=step,
            tone=step,
            before=step - 1,
        ),
        figure=Figure(next_dip(view.course.rest_s)),
        main=Offer(say("No, keep it"), Kind.KEPT),
        second=Offer(say("Skip it"), Kind.SKIPPED),
    )


def _count_in(view: View) -> Told:
    left = view.course.facts.count_in_s - view.since_s
    return Told(
        say("Into the bath on the long tone."),
        figure=Figure(max(left, 0.0)),
        then=say("Three short tones, then the long one."),
        then_in_s=left,
        main=Offer(say("Not yet"), Kind.NOT_YET),
    )


def _biting(view: View) -> Told:
    tones = _open(view.course)
    said = say_number(
        "Leave it in. Tone {tones} is biting.",
        "Leave it in. Tones {tones} are biting.",
        len(tones),
        tones=listed(tones),
    )
    return _in_bath(view, _warned(view) or said)


def _warned(view: View) -> str:
    """What a warning said, for as long as it is news."""
    length, left = view.course.dip_s, view.left_s
    if length < 120.0:
        return say("Half way. Stay by the tank.") if left <= length / 2.0 else ""
    if left <= 30.0:
        return say("Half a minute more. Stay by the tank.")
    return say("One more minute.") if left <= 60.0 else ""


def _in_bath(view: View, sentence: str) -> Told:
    return Told(
        sentence,
        figure=Figure(view.left_s, say("to go")),
        then=_after_lift(view.course),
        then_in_s=view.left_s,
        main=Offer(say("Is it out?"), Kind.ASKED),
    )


def _after_lift(course: Course) -> str:
    if course.rest_s - course.dip_s > 1.0:
        return say("Then: rinse and look, and in again.")
    coming = course.next_step
    if coming is None:
        return say("Then: rinse, blow dry. It is the last lift.")
    return say("Then: rinse, blow dry, stop out {tones}.", tones=_lower(coming))


def _lower(step: Step) -> str:
    return say_number(
        "tone {tones}", "tones {tones}", len(step.stop_out), tones=listed(step.stop_out)
    )


def _asked(view: View) -> Told:
    return Told(
        say("Still biting. Is the plate out already?"),
        figure=Figure(view.left_s, say("to go")),
        then_in_s=view.left_s,
        main=Offer(say("No, it is in"), Kind.LEFT_IN),
        second=Offer(say("Hold: it is out"), Kind.LIFTED),
    )


def _last_ten(view: View) -> Told:
    return Told(
        say("Get ready. Lift on the short tones, rinse on the long one."),
        figure=Figure(view.left_s, say("to go")),
        then=_after_lift(view.course),
        then_in_s=view.left_s,
        main=Offer(say("It is under the rinse"), Kind.PROPOSED),
    )


def _lift(view: View) -> Told:
    over = -view.left_s
    late = over > SAID_LATER_S
    quick = over <= 3.0
    return Told(
        say("Lift now. If it is out already, press.")
        if late
        else say("Lift now, straight under the rinse."),
        figure=Figure(over, say("over"), up=True),
        then=say("Press when your hands are free."),
        main=Offer(
            say("It is under the rinse"),
            Kind.LIFTED if quick else Kind.PROPOSED,
            seconds=over if quick else 0.0,
            runs=quick,
        ),
    )


def _when(view: View) -> Told:
    course = view.course
    answer = course.proposed_s + course.moved_s
    over = answer - course.dip_s
    ago = view.bitten_s - answer
    early = view.left_s > 0.0
    just_now = Offer(say("Just now"), Kind.LIFTED, seconds=ago, runs=True)
    on_tone = Offer(say("On the tone"), Kind.LIFTED, seconds=-view.left_s, runs=True)
    still_in = Offer(say("It is still in"), Kind.LEFT_IN)
    return Told(
        say("When was it under the rinse?"),
        figure=Figure(abs(over), say("over") if over >= 0.0 else say("early"), up=over >= 0.0),
        then=say("Arrows: a little earlier, a little later."),
        main=just_now if early else on_tone,
        second=still_in if early else just_now,
        earlier=Offer(say("earlier"), Kind.MOVED, seconds=-5.0) if answer > 0.0 else None,
        later=Offer(say("later"), Kind.MOVED, seconds=5.0) if ago > 0.0 else None,
    )


def _out_early(view: View) -> Told:
    course = view.course
    dip = course.dips[-1]
    looked = dip.bitten_s >= dip.planned_s - 10.0
    back = Offer(say("It was still in"), Kind.STILL_IN)
    here = Offer(say("End the bite here"), Kind.ENDED_HERE)
    fresh = course.before_lift is not None and view.since_s <= TAKEN_BACK_WITHIN_S
    return Told(
        say(
            "Out with {rest} to go. Rinse and look; press to put it back.",
            rest=write_bite(course.rest_s),
        ),
        figure=Figure(next_dip(course.rest_s)),
        main=Offer(say("Put it back"), Kind.COUNTING),
        second=back if looked and fresh else here,
        extra=course.said,
    )


def _out(view: View) -> Told:
    course = view.course
    had = [dip for dip in course.dips if dip.step == course.step]
    bitten = sum(dip.bitten_s for dip in had)
    planned = course.dips[-1].planned_s + bitten - course.dips[-1].bitten_s if had else 0.0
    if any(dip.assumed for dip in had):
        said = say("Out after {bite}, assumed.", bite=write_bite(bitten))
    elif abs(bitten - planned) <= AS_PLANNED_S:
        said = say("Out after {bite}, as planned.", bite=write_bite(bitten))
    else:
        said = say("Out after {bite}.", bite=write_bite(bitten))
    return Told(
        say("{out} Rinse well, blow dry.", out=said),
        figure=Figure(bitten),
        then=_after_out(course),
        main=_stop_out_offer(course),
        second=_taken_back(view),
        extra=course.said,
    )


def _after_out(course: Course) -> str:
    coming = course.next_step
    if coming is None:
        return say("It was the last lift.")
    return say("Then: stop out {tones}.", tones=_lower(coming))


def _stop_out_offer(course: Course) -> Offer:
    coming = course.next_step
    if coming is None:
        return Offer(say("Done"), Kind.STOPPING_OUT)
    return Offer(say("Stop out {tones}", tones=_lower(coming)), Kind.STOPPING_OUT)


def _taken_back(view: View) -> Offer | None:
    if view.course.before_lift is None or view.since_s > TAKEN_BACK_WITHIN_S:
        return None
    return Offer(say("It was still in"), Kind.STILL_IN)


def _worked_out(view: View) -> Told:
    dip = view.course.dips[-1] if view.course.dips else None
    return Told(
        " ".join(view.course.said),
        figure=Figure(dip.bitten_s) if dip else None,
        then=_after_out(view.course),
        main=Offer(say("Seen"), Kind.SEEN),
        second=_taken_back(view),
        extra=view.course.said,
    )


def _lost_tone(view: View) -> Told:
    course = view.course
    pairs = tuple(sorted({tone for lighter in course.lost for tone in (lighter, lighter + 1)}))
    choices = remedies(course, view.since_s)
    at = course.pointed % len(choices)
    chosen = choices[at]
    kept = chosen == Kind.STILL_IN.value
    return Told(
        say("{tones} will print alike. Choose what to do.", tones=tones_word(pairs)),
        then=say("Or: {others}.", others=", ".join(say(c) for c in choices if c != chosen)),
        main=Offer(say("It was still in"), Kind.STILL_IN)
        if kept
        else Offer(say(chosen).capitalize(), Kind.CHOSE, text=chosen),
        second=Offer(say("Another choice"), Kind.POINTED, of=1),
        earlier=Offer(say("the choice before"), Kind.POINTED, of=-1),
        later=Offer(say("the next choice"), Kind.POINTED, of=1),
        extra=course.said,
    )


def _stop_out(view: View) -> Told:
    step = view.course.next_step or view.course.now_step
    left = step.paint_min * 60.0 - view.since_s
    places = say_number("{n} place", "{n} places", step.painting.places)
    return Told(
        say(
            "Stop out {tones}: {places}, about {n} min.",
            tones=_lower(step),
            places=places,
            n=max(1, round(step.paint_min)),
        )
        if step.stop_out
        else say("Nothing new to stop out. Look at the old varnish."),
        figure=Figure(max(left, 0.0), say("left, about")),
        then=say("Go over old varnish, edges, pinholes. Then let it dry."),
        then_in_s=max(left, 0.0),
        main=Offer(say("All painted: let it dry"), Kind.PAINTED),
    )


def _drying(view: View) -> Told:
    step = view.course.next_step or view.course.now_step
    left = step.dry_min * 60.0 - view.since_s
    sentence = (
        say("Let it dry until about {time}.", time=view.time_of_day(max(left, 0.0)))
        if left > 0.0
        else say("It should be dry. Touch the thickest place.")
    )
    return Told(
        sentence,
        figure=Figure(max(left, 0.0)),
        then=say(
            "Then: step {step}, a bite of {bite}.", step=step.step, bite=write_bite(step.bite_s)
        ),
        then_in_s=max(left, 0.0),
        main=Offer(say("It is dry"), Kind.DRY),
    )


def _back(view: View) -> Told:
    out_s = view.course.back[1] if view.course.back else 0.0
    away = say("The power was out for {time}. The bite ran on.", time=write_bite(out_s))
    inner = _biting(view) if view.left_s > 0.0 else _lift(view)
    order = say("Leave it in.") if view.left_s > 0.0 else say("Lift now.")
    return Told(
        say("{away} {order}", away=away, order=order),
        figure=inner.figure,
        then=inner.then,
        then_in_s=inner.then_in_s,
        main=inner.main,
        second=inner.second,
    )


def _clocks(view: View) -> Told:
    apart = view.apart_s
    rough = 60.0 if abs(apart) >= 90.0 else 1.0
    by = write_bite(rough * round(abs(apart) / rough))
    words = say("to go") if view.left_s > 0.0 else say("over")
    figure = Figure(abs(view.left_s), words, up=view.left_s <= 0.0)
    if apart < 0.0:
        return Told(
            say("The clock was set back by {time}. The bite is timed without it.", time=by),
            figure=figure,
            then=_after_lift(view.course),
            then_in_s=view.left_s,
            main=Offer(say("Seen"), Kind.CLOCK_SET),
        )
    return Told(
        say("The clocks disagree by {time}. Was the computer asleep?", time=by),
        figure=figure,
        then=say("Until you answer, the longer bite is counted."),
        then_in_s=view.left_s,
        main=Offer(say("Yes: real time"), Kind.SLEPT),
        second=Offer(say("No: ask a watch"), Kind.CLOCK_SET),
    )


def _no_sound(_view: View) -> Told:
    return Told(
        say("No sound here. Watch the screen, or set an alarm beside you."),
        main=Offer(say("Seen"), Kind.SEEN),
    )


def _end(_view: View) -> Told:
    return Told(
        say("Last lift done. Take off varnish and grain, then pull a proof."),
        main=Offer(say("Close"), Kind.CLOSED),
    )


def _closed(_view: View) -> Told:
    return Told(say("This session is over. Everything is in the record."))


_TELLERS: Mapping[State, Callable[[View], Told]] = {
    State.CHECK: _check,
    State.READY: _ready,
    State.SKIP: _skip,
    State.COUNT_IN: _count_in,
    State.BITING: _biting,
    State.ASKED: _asked,
    State.LAST_TEN: _last_ten,
    State.LIFT: _lift,
    State.WHEN: _when,
    State.OUT_EARLY: _out_early,
    State.OUT: _out,
    State.WORKED_OUT: _worked_out,
    State.LOST_TONE: _lost_tone,
    State.STOP_OUT: _stop_out,
    State.DRYING: _drying,
    State.BACK: _back,
    State.CLOCKS: _clocks,
    State.NO_SOUND: _no_sound,
    State.END: _end,
    State.CLOSED: _closed,
}
