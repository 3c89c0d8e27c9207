"""The stop-out order: tones with their total bites, steps with their work."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Tone:
    """One tone of the plate; tone 0 is white.

    Lightness is CIE L*; ``low`` and ``high`` are the 90 % band for the next plate;
    ``total_bite_s`` is clock seconds in today's bath; ``share`` is its part (0..1) of the plate.
    """

    tone: int
    target_lightness: float
    lightness: float
    lightness_low: float
    lightness_high: float
    total_bite_s: float
    share: float


@dataclass(frozen=True, slots=True)
class Painting:
    """What one step's stopping out asks of the hand.

    ``area_cm2`` of varnish over ``places`` separate areas; ``border_cm`` is the line between
    all that is covered so far and what stays open, without the plate's edge; ``small_darks``
    counts small openings that must be painted around.
    """

    area_cm2: float
    places: int
    border_cm: float
    small_darks: int = 0


@dataclass(frozen=True, slots=True)
class Rates:
    """How fast the etcher paints: all three are assumptions until the etcher changes them."""

    fill_cm2_per_min: float = 3.0
    border_cm_per_min: float = 6.0
    place_s: float = 20.0
    rest_every_min: float = 120.0
    rest_min: float = 15.0


@dataclass(frozen=True, slots=True)
class Step:
    """Step n stops out tone n-1; its bite makes tone n.

    ``dips_s`` are the lengths of the dips into which the bite is split, clock seconds;
    ``lift_after_s`` counts from the start of the day.
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


@dataclass(frozen=True, slots=True)
class Order:
    """The stop-out order of one plate, with every sentence that goes with it."""

    asked_tones: int
    tones: tuple[Tone, ...]
    steps: tuple[Step, ...]
    before: tuple[str, ...]
    within: tuple[str, ...]
    after: tuple[str, ...]
    cautions: tuple[str, ...]
    warnings: tuple[str, ...]
