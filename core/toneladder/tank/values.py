"""What happens at the tank, what is known of the plate there, and what is to be said now."""

from dataclasses import dataclass
from enum import StrEnum

from toneladder.bite.today import USUAL_Q
from toneladder.bite.values import BiteCurve
from toneladder.order.rounding import LONGEST_DIP_S
from toneladder.order.values import Order, Rates


@dataclass(frozen=True, slots=True)
class Moment:
    """One instant as two clocks show it.

    ``boottime_s`` counts seconds since the machine was started, also through its sleep; nobody
    can set it, but it begins anew with every start, of which ``boot`` is the name. ``utc_s``
    counts seconds since 1970, UTC, and can be set.
    """

    boottime_s: float
    utc_s: float
    boot: str = ""

    def later(self, seconds: float) -> "Moment":
        """The instant so many seconds later, on both clocks."""
        return Moment(self.boottime_s + seconds, self.utc_s + seconds, self.boot)


class Stage(StrEnum):
    """What is bitten; each has its own day, its own ground, and its own stay at the tank."""

    LINES = "lines"
    TONES = "tones"
    SECOND = "second grain"


class Kind(StrEnum):
    """What can happen at the tank; in brackets what the event carries."""

    CHECKED = "checked"
    COUNTING = "count-in begun"
    NOT_YET = "not yet"
    STARTED = "started"  # (seconds: how long ago)
    ASKED = "asked whether it is out"
    LEFT_IN = "left in"
    PROPOSED = "lift proposed"
    MOVED = "answer moved"  # (seconds: later, or earlier if negative)
    LIFTED = "lifted"  # (seconds: how long ago)
    ASSUMED = "lift assumed"  # (seconds: how long ago)
    STILL_IN = "it was still in"
    GIVEN = "bite given"  # (seconds: its length)
    ENDED_HERE = "ended here"
    SEEN = "seen"
    POINTED = "next choice"  # (of: how many on)
    CHOSE = "chose"  # (text: the remedy)
    STOPPING_OUT = "stopping out"
    PAINTED = "painted"
    DRY = "dry"
    SKIP_ASKED = "asked to skip"
    SKIPPED = "skipped"
    KEPT = "kept"
    TEMPERATURE = "temperature read"  # (reading: degrees Celsius)
    CHECK_PATCH = "check patch read"  # (seconds: its bite; reading: its lightness L*)
    WRONG_TONE = "varnish on the wrong tone"  # (of: the tone)
    TOO_LATE = "varnish too late"  # (of: the tone)
    NOTE = "note"  # (text)
    UNDONE = "undone"  # (of: the event's number)
    SLEPT = "the computer slept"
    CLOCK_SET = "the clock was set"
    NO_SOUND = "no sound"
    BACK = "back"  # (seconds: how long nothing was seen)
    CLOSED = "closed"


@dataclass(frozen=True, slots=True)
class Event:
    """One thing that happened; events are only ever added.

    ``number`` counts from 0 within a session. What ``seconds``, ``reading``, ``of`` and ``text``
    mean depends on the kind.
    """

    number: int
    kind: Kind
    at: Moment
    seconds: float = 0.0
    reading: float = 0.0
    of: int = 0
    text: str = ""


@dataclass(frozen=True, slots=True)
class Facts:
    """What the order was worked out with.

    ``rate`` is seconds on the curve per second on the clock at ``planned_c`` (degrees Celsius),
    ``q`` the rate gained over 10 °C, ``count_in_s`` how long the plate takes to the tank. Lines
    and a second grain have no ``curve``: they are planned by their total bites alone, and their
    ``rate`` is 1. ``longest_dip_s`` is how long the plate stays in without a look.

    ``bare_cm2`` is the metal that each tone, or line depth, lays open to the bath, and
    ``um_per_min`` how deep that bites it at ``planned_c``: estimates both, for the bath's use
    alone. Nothing is known of it where they are empty and 0.
    """

    curve: BiteCurve | None
    rate: float
    planned_c: float
    rates: Rates = Rates()
    q: float = USUAL_Q
    count_in_s: float = 10.0
    stage: Stage = Stage.TONES
    longest_dip_s: float = LONGEST_DIP_S
    bare_cm2: tuple[float, ...] = ()
    um_per_min: float = 0.0


@dataclass(frozen=True, slots=True)
class Dip:
    """One stay in the bath: planned and real seconds on the clock.

    ``warmth`` is the rate that the bath's temperature gave it, seconds on the curve per second
    on the clock, ``strength`` what a check patch found on top of that. ``assumed`` if nobody
    said when it ended.
    """

    step: int
    planned_s: float
    bitten_s: float
    warmth: float
    strength: float = 1.0
    assumed: bool = False

    @property
    def effective_s(self) -> float:
        """Seconds on the curve that it was worth."""
        return self.bitten_s * self.warmth * self.strength


class Remedy(StrEnum):
    """What can be done for tones that will print alike."""

    LEAVE = "leave it"
    ONE = "make one"
    ANEW = "space anew"


class State(StrEnum):
    """What stands on the screen."""

    CHECK = "check"
    READY = "ready"
    SKIP = "skip"
    COUNT_IN = "count-in"
    BITING = "biting"
    ASKED = "asked"
    LAST_TEN = "last ten"
    LIFT = "lift"
    WHEN = "when"
    OUT_EARLY = "out early"
    OUT = "out"
    WORKED_OUT = "worked out"
    LOST_TONE = "lost tone"
    STOP_OUT = "stop out"
    DRYING = "drying"
    BACK = "back"
    CLOCKS = "clocks"
    NO_SOUND = "no sound"
    ELSEWHERE = "elsewhere"
    END = "end"
    CLOSED = "closed"


class Act(StrEnum):
    """What a hand can do: nothing else acts."""

    MAIN = "main"
    SECOND = "second"
    EARLIER = "earlier"
    LATER = "later"


@dataclass(frozen=True, slots=True)
class Offer:
    """What an act would do: the words on it, and the event it logs.

    A lift's ``seconds`` grow while nobody presses, if ``runs``: it was under the rinse then, not
    now.
    """

    label: str
    kind: Kind
    seconds: float = 0.0
    reading: float = 0.0
    of: int = 0
    text: str = ""
    runs: bool = False


@dataclass(frozen=True, slots=True)
class Figure:
    """The one large figure: seconds, and the words beside it.

    ``up`` if it counts upwards; ``still`` if it does not run: it is rounded as sentences are.
    """

    seconds: float
    words: str = ""
    up: bool = False
    still: bool = False


@dataclass(frozen=True, slots=True)
class Standing:
    """Where the plate stands now: what to say, what to show, what an act would do.

    ``then`` says what comes next, ``then_utc_s`` at about what time. ``changes_in_s`` is when
    the screen changes by itself, None if it waits. ``zero`` is the instant to which sounds are
    counted (into the bath, under the rinse, dry), ``length_s`` the bite's length before it;
    ``answered`` if a lift was acknowledged. ``order`` is what remains to be done, with the done
    steps as they really were; ``orders`` are all orders of this session, the first one first.
    ``bite_name`` is what the bite at hand is called, as within a sentence; ``silent`` if nothing
    can be heard here.
    ``due`` are events that came by themselves and are not logged yet; log them first.
    """

    state: State
    now: Moment
    step: int
    sentence: str
    figure: Figure | None = None
    then: str = ""
    then_utc_s: float | None = None
    main: Offer | None = None
    second: Offer | None = None
    earlier: Offer | None = None
    later: Offer | None = None
    changes_in_s: float | None = None
    in_bath: bool = False
    zero: Moment | None = None
    length_s: float = 0.0
    answered: bool = False
    bitten_s: float = 0.0
    apart_s: float = 0.0
    bath_c: float = 0.0
    said: tuple[str, ...] = ()
    order: Order | None = None
    orders: tuple[Order, ...] = ()
    dips: tuple[Dip, ...] = ()
    effective_s: tuple[float, ...] = ()
    silent: bool = False
    next_number: int = 0
    due: tuple[Event, ...] = ()
    bite_name: str = ""
    pressed: Moment | None = None
