"""What is said from the count-in to the rinse."""

from toneladder.quantities import write_bite
from toneladder.tank.course import Course
from toneladder.tank.sounds import LONG_BITE_S
from toneladder.tank.telling_stage import what_bites
from toneladder.tank.values import Figure, Kind, Offer
from toneladder.tank.view import Told, View, stopped_out_by
from toneladder.wording import say

SAID_LATER_S = 30.0
QUICK_S = 3.0
"""A press so soon after the signal is the hand's own delay: the bite ended on the signal."""


def count_in(view: View) -> Told:
    """Ten seconds to walk to the tank."""
    left = view.course.facts.count_in_s - view.since_s
    silent = view.course.silent
    return Told(
        say("Into the bath at 0.") if silent else say("Into the bath on the long signal."),
        figure=Figure(max(left, 0.0)),
        then=say("Watch the figure: it counts down to 0.")
        if silent
        else say("Three short signals, then the long one."),
        then_in_s=left,
        main=Offer(say("Not yet"), Kind.NOT_YET),
    )


def biting(view: View) -> Told:
    """The plate is in the bath."""
    return _in_bath(view, _warned(view) or what_bites(view.course))


def _warned(view: View) -> str:
    """What a warning said, for as long as it is news."""
    length, left = view.course.dip_s, view.left_s
    if length < LONG_BITE_S:
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
    return say("Then: rinse, blow dry, stop out {tones}.", tones=stopped_out_by(course, coming))


def asked(view: View) -> Told:
    """A press while it bites ends nothing: it is asked first."""
    return Told(
        say("Still biting. Is the plate out already?"),
        figure=Figure(view.left_s, say("to go")),
        then_in_s=view.left_s,
        main=Offer(say("No, it is in"), Kind.LEFT_IN),
        second=Offer(say("Hold: it is out"), Kind.LIFTED),
    )


def last_ten(view: View) -> Told:
    """The lift is near."""
    return Told(
        say("Get ready. Lift at 3 s, under the rinse at 0.")
        if view.course.silent
        else say("Get ready. Lift on the short signals, rinse on the long one."),
        figure=Figure(view.left_s, say("to go")),
        then=_after_lift(view.course),
        then_in_s=view.left_s,
        main=Offer(say("It is under the rinse"), Kind.PROPOSED),
    )


def lift(view: View) -> Told:
    """The lift is due; the figure counts up."""
    over = -view.left_s
    doubted = view.course.doubted
    late = over > SAID_LATER_S or doubted
    quick = over <= QUICK_S and not doubted
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


def when(view: View) -> Told:
    """When the bite really ended."""
    course = view.course
    answer = min(course.proposed_s + course.moved_s, view.bitten_s)
    over = answer - course.dip_s
    ago = view.bitten_s - answer
    main, second = _answers(view, over, ago)
    words = say("over") if over >= 0.0 else say("early")
    return Told(
        say("When was it under the rinse?"),
        figure=Figure(abs(over), words, up=over >= 0.0, still=True),
        then=say("Arrows: a little earlier, a little later."),
        main=main,
        second=second,
        earlier=Offer(say("earlier"), Kind.MOVED, seconds=-5.0) if answer > 0.0 else None,
        later=Offer(say("later"), Kind.MOVED, seconds=5.0) if ago > 0.0 else None,
    )


def _answers(view: View, over: float, ago: float) -> tuple[Offer, Offer]:
    """The likely answer and the other one; a figure that was set is never thrown away."""
    course = view.course
    if view.left_s > 0.0:
        words = _set(course, over) if course.dated else say("Just now")
        return _ended(words, ago), Offer(say("Hold: it is still in"), Kind.LEFT_IN)
    if course.dated:
        other = say("Hold: on time") if course.silent else say("Hold: on the signal")
        return _ended(_set(course, over), ago), _ended(other, -view.left_s)
    return _ended(_on_time(course), -view.left_s), _ended(say("Hold: just now"), ago)


def _ended(words: str, ago_s: float) -> Offer:
    """It was under the rinse so long ago, and longer for every second without a press."""
    return Offer(words, Kind.LIFTED, seconds=ago_s, runs=True)


def _set(course: Course, over_s: float) -> str:
    """The figure that was set, as what is noted."""
    time = write_bite(abs(over_s))
    if time == write_bite(0.0):
        return _on_time(course)
    if over_s > 0.0:
        return say("{time} over: note it", time=time)
    return say("{time} early: note it", time=time)


def _on_time(course: Course) -> str:
    return say("On time") if course.silent else say("On the signal")


def back(view: View) -> Told:
    """After a crash or a power cut."""
    out_s = view.course.back[1] if view.course.back else 0.0
    away = say("The power was out for {time}. The bite ran on.", time=write_bite(out_s))
    inner = biting(view) if view.left_s > 0.0 else lift(view)
    order = say("Leave it in.") if view.left_s > 0.0 else say("Lift now.")
    return Told(
        say("{away} {order}", away=away, order=order),
        figure=inner.figure,
        then=inner.then,
        then_in_s=inner.then_in_s,
        main=inner.main,
        second=inner.second,
    )


def clocks(view: View) -> Told:
    """The clocks do not tell the same time."""
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
        second=Offer(say("Hold: ask a watch"), Kind.CLOCK_SET),
    )
