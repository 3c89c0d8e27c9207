"""What there is to tell at one moment, and what is told."""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, tzinfo

from toneladder.order.values import Step
from toneladder.tank.course import Course
from toneladder.tank.naming import to_stop_out
from toneladder.tank.values import Figure, Kind, Offer, Stage

TAKEN_BACK_WITHIN_S = 60.0


@dataclass(frozen=True, slots=True)
class View:
    """The course, and the time.

    ``since_s`` is how long the phase has lasted, ``bitten_s`` how long the dip, ``left_s`` what
    remains of it (negative once over), ``apart_s`` by how much the clocks disagree.
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

    @property
    def fresh_lift(self) -> bool:
        """Whether a lift was just made: it can be taken back for a minute."""
        return self.course.before_lift is not None and self.since_s <= TAKEN_BACK_WITHIN_S

    def taken_back(self, words: str) -> Offer | None:
        """The lift just made can be taken back: ``words`` say what it was."""
        return Offer(words, Kind.STILL_IN) if self.fresh_lift else None


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


def stopped_out_by(course: Course, step: Step) -> str:
    """*tone 3*, *tones 3 and 4*, *the finest lines*: what a step stops out."""
    return to_stop_out(course.facts, course.planned, step)


def covered(course: Course) -> tuple[int, ...]:
    """Every tone that lies under varnish at the step at hand."""
    early = {tone for tone, _ in course.kept_s}
    stopped = {t for s in course.order.steps if s.step <= course.step for t in s.stop_out}
    return tuple(sorted(stopped | early))


def uncovered(course: Course) -> tuple[int, ...]:
    """Every tone, or line depth, that bites at the step at hand."""
    under = covered(course)
    least = 1 if course.facts.stage is Stage.LINES else 0
    return tuple(t.tone for t in course.base.tones[least:] if t.tone not in under)
