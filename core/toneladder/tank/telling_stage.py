"""What is said otherwise of lines, of the tones, and of a second grain."""

from toneladder.order.values import Step
from toneladder.quantities import write_minutes
from toneladder.tank.course import Course
from toneladder.tank.naming import bite_name, listed, made_names
from toneladder.tank.values import Stage
from toneladder.tank.view import covered, stopped_out_by, uncovered
from toneladder.wording import begins, say, say_number


def bite_at_hand(course: Course) -> str:
    """What the bite at hand is called, as within a sentence."""
    return bite_name(course.facts, course.planned, course.step)


def is_all_well(stage: Stage) -> str:
    """What is looked at before anything is bitten."""
    return {
        Stage.LINES: say("Ground whole, lines drawn to the metal, back covered? Then press."),
        Stage.TONES: say("Back and edges protected, plate clean? Then press."),
        Stage.SECOND: say("Old grain off, fresh grain laid, back and edges covered? Then press."),
    }[stage]


def is_it_covered(course: Course) -> str:
    """What must lie under dry varnish before the bite at hand."""
    step, under = course.now_step, covered(course)
    if course.facts.stage is Stage.LINES:
        if not under:
            return say("All lines open.")
        lines = begins(made_names(course.facts, course.planned, under))
        return say("{lines}: stopped out and dry?", lines=lines)
    if not under or (step.step == course.order.steps[0].step and not step.painting.area_cm2):
        return say("Nothing to stop out.")
    return say_number(
        "Tone {tones} stopped out and dry?",
        "Tones {tones} stopped out and dry?",
        len(under),
        tones=listed(under),
    )


def what_bites(course: Course) -> str:
    """What lies open in the bath."""
    tones = uncovered(course)
    if course.facts.stage is Stage.LINES:
        if len(tones) == len(course.base.tones) - 1:
            return say("Leave it in. All lines are biting.")
        return say("Leave it in. The lines still open are biting.")
    return say_number(
        "Leave it in. Tone {tones} is biting.",
        "Leave it in. Tones {tones} are biting.",
        len(tones),
        tones=listed(tones),
    )


def what_to_stop_out(course: Course, step: Step) -> str:
    """What is painted now, and about how long that takes."""
    if not step.stop_out:
        return say("Nothing new to stop out. Look at the old varnish.")
    what, time = stopped_out_by(course, step), write_minutes(max(1.0, step.paint_min))
    if course.facts.stage is Stage.LINES:
        return begins(say("Stop out {tones}: about {time}.", tones=what, time=time))
    said = say(
        "Stop out {tones}: {places}, about {time}.",
        tones=what,
        places=say_number("{n} place", "{n} places", step.painting.places),
        time=time,
    )
    return begins(said)


def is_it_skipped(course: Course) -> str:
    """What becomes of a bite that is left out."""
    tone, facts, planned = course.step, course.facts, course.planned
    if facts.stage is Stage.TONES:
        return say(
            "Skip step {step}? Tone {tone} will print like tone {before}.",
            step=tone,
            tone=tone,
            before=tone - 1,
        )
    before = max((s.step for s in course.base.steps if s.step < tone), default=0)
    made = begins(made_names(facts, planned, (tone,)))
    if not before:
        skipped = bite_at_hand(course)
        return say("Skip {bite}? {made}: not bitten at all.", bite=skipped, made=made)
    return say(
        "Skip {bite}? {made}: bitten like {before}.",
        bite=bite_at_hand(course),
        made=made,
        before=made_names(facts, planned, (before,)),
    )


def will_be_alike(stage: Stage, tones: tuple[int, ...]) -> str:
    """Tones, or line depths, between which no bite is left."""
    return {
        Stage.LINES: say(
            "Lines of depth {tones} will be bitten alike. Choose what to do.", tones=listed(tones)
        ),
        Stage.TONES: say("Tones {tones} will print alike. Choose what to do.", tones=listed(tones)),
        Stage.SECOND: say(
            "Tones {tones} will be deepened alike. Choose what to do.", tones=listed(tones)
        ),
    }[stage]


def all_is_bitten(stage: Stage) -> str:
    """What is done after the last lift."""
    return {
        Stage.LINES: say("Last lift done. Take the ground off, then pull a proof of the lines."),
        Stage.TONES: say("Last lift done. Take off varnish and grain, then pull a proof."),
        Stage.SECOND: say("Last lift done. Take off varnish and grain, then pull a proof."),
    }[stage]
