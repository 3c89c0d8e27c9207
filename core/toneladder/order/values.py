"""The stop-out order: tones with their total bites, steps with their work."""

from dataclasses import dataclass
from enum import StrEnum

from toneladder.bite.values import Fineness, GrainKind
from toneladder.order.stages import LineStep, SecondStage
from toneladder.tones.values import Painting


@dataclass(frozen=True, slots=True)
class Tone:
    """One tone of the plate; tone 0 is white.

    Lightness is CIE L*; ``low`` and ``high`` are the 90 % band for the next plate;
    ``total_bite_s`` is clock seconds in today's bath, ``shortest_s`` and ``longest_s`` the 90 %
    range it may need; ``share`` is its part (0..1) of the plate.
    """

    tone: int
    target_lightness: float
    lightness: float
    lightness_low: float
    lightness_high: float
    total_bite_s: float
    share: float
    shortest_s: float = 0.0
    longest_s: float = 0.0


@dataclass(frozen=True, slots=True)
class Rates:
    """How fast the etcher works: assumptions, all of them, until the etcher changes them.

    ``between_min`` is for rinsing, blotting and looking under the loupe, once a step;
    ``dry_min`` lets the varnish dry, None for as long as that varnish usually takes.
    """

    fill_cm2_per_min: float = 3.0
    border_cm_per_min: float = 6.0
    place_s: float = 20.0
    between_min: float = 5.0
    rest_every_min: float = 120.0
    rest_min: float = 15.0
    dry_min: float | None = None


@dataclass(frozen=True, slots=True)
class Step:
    """Step n stops out tone n-1; its bite makes tone n.

    ``dips_s`` are the lengths of the dips into which the bite is split, clock seconds;
    ``lift_after_s`` counts from the start of the day; ``shortest_s`` and ``longest_s`` are the
    90 % range of what the bite may need. ``remedies`` are what is done at soft passages then.
    """

    step: int
    stop_out: tuple[int, ...]
    bite_s: float
    total_bite_s: float
    painting: Painting
    paint_min: float
    dry_min: float
    dips_s: tuple[float, ...]
    lift_after_s: float
    shortest_s: float = 0.0
    longest_s: float = 0.0
    remedies: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SecondGrain:
    """A fresh grain for a richer black, after the first is cleaned off.

    Only the ``darkest`` tones stay open; ``bites_s`` are the total bites they receive in it,
    clock seconds, rising with darkness, one for each; empty repeats the longest bite of the
    starting points.
    """

    darkest: int = 1
    bites_s: tuple[float, ...] = ()
    grain: GrainKind = GrainKind.ROSIN
    fineness: Fineness = Fineness.FINE


class Doing(StrEnum):
    """What a stretch of the day is spent on."""

    LOOK = "rinse, blot, look"
    PAINT = "stop out"
    DRY = "let the varnish dry"
    BITE = "bite"
    REST = "rest"


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of the day, seconds from its start."""

    step: int
    doing: Doing
    start_s: float
    end_s: float


@dataclass(frozen=True, slots=True)
class Task:
    """Something to do on the day before, and its minutes; 0 for what takes care of itself."""

    doing: str
    minutes: float


@dataclass(frozen=True, slots=True)
class Companion:
    """A strip grained beside the plate, and bitten on the day before it.

    ``bites_s`` are the total bites of its patches, rising from 0, and ``stays_s`` the stays in
    the bath between them, seconds; ``stepping`` says how to do it.
    """

    bites_s: tuple[float, ...]
    stays_s: tuple[float, ...]
    tasks: tuple[Task, ...]
    stepping: tuple[str, ...]

    @property
    def work_min(self) -> float:
        """Minutes that the day before takes, the night not counted."""
        return sum(task.minutes for task in self.tasks)


@dataclass(frozen=True, slots=True)
class Order:
    """The stop-out order of one plate, with every sentence that goes with it.

    ``companion`` is the strip of the day before, where no strip stands for the plate.
    ``line_steps`` come on a day before the first step, ``second_grain`` after the last; ``tones``,
    ``steps`` and ``day`` tell of the first grain alone.
    """

    asked_tones: int
    tones: tuple[Tone, ...]
    steps: tuple[Step, ...]
    before: tuple[str, ...]
    within: tuple[str, ...]
    after: tuple[str, ...]
    cautions: tuple[str, ...]
    warnings: tuple[str, ...]
    day: tuple[Stretch, ...] = ()
    companion: Companion | None = None
    line_steps: tuple[LineStep, ...] = ()
    second_grain: SecondStage | None = None
