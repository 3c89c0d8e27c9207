"""The decisions about tones and brush."""

from dataclasses import dataclass
from enum import StrEnum

FEWEST_TONES = 2
MOST_TONES = 12


class Choice(StrEnum):
    """How the lightness of each tone is chosen."""

    EVEN = "even"
    PICTURE = "picture"
    STRIP = "strip"


@dataclass(frozen=True, slots=True)
class Range:
    """What of the picture becomes paper and what becomes deepest.

    ``paper_from`` and ``black_from`` are picture lightness, CIE L* (0..100); None takes the
    picture's own 99.5 and 0.5 percentiles. ``middle`` bends the greys between: 0 leaves them,
    -1..1 makes them darker or lighter.
    """

    paper_from: float | None = None
    black_from: float | None = None
    middle: float = 0.0


@dataclass(frozen=True, slots=True)
class ToneChoice:
    """How many tones, white included, and how they are chosen.

    ``gap_lightness`` is the least distance between neighbours, L*. ``held_partings`` are
    printed lightness L* at which two tones must part; ``held_bites`` are pairs (tone, total
    bite in seconds). ``patches_s`` are the bites of the strip's own patches that become tones,
    where they are chosen from the strip; empty takes the best of them.
    """

    count: int = 5
    choice: Choice = Choice.EVEN
    gap_lightness: float = 6.0
    darkest_kept: bool = True
    range: Range = Range()
    held_partings: tuple[float, ...] = ()
    held_bites: tuple[tuple[int, float], ...] = ()
    patches_s: tuple[float, ...] = ()


class Wish(StrEnum):
    """What a note on the print asks of its place."""

    RUNGS = "rungs"
    LIGHTNESS = "lightness"
    PAPER = "paper"
    DEEPEST = "deepest"


@dataclass(frozen=True, slots=True)
class Note:
    """A note on the print: a place, and what the etcher wants there.

    ``rings`` are closed outlines (even-odd) in shares of the whole picture's width and height,
    so that a note outlives another crop; ``wider_mm`` lets the place grow (or shrink, below 0)
    on the plate. What was meant is kept, so that a note outlives another number of tones:
    ``rungs`` darker (lighter, below 0), a printed ``lightness`` (CIE L*), paper (stopped out
    first) or deepest (never stopped out).
    """

    rings: tuple[tuple[tuple[float, float], ...], ...]
    wish: Wish
    rungs: int = 0
    lightness: float = 0.0
    wider_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Brush:
    """What a hand can paint.

    ``mark_mm`` is the smallest dot of varnish, ``gap_mm`` the smallest opening between two,
    ``smallest_area_mm2`` the smallest place worth painting or leaving (0: the brush's own disc).
    """

    mark_mm: float = 1.5
    gap_mm: float = 2.0
    smallest_area_mm2: float = 0.0


@dataclass(frozen=True, slots=True)
class Painting:
    """What one step's stopping out asks of the hand.

    ``area_cm2`` of varnish over ``places`` separate areas; ``border_cm`` is the line between
    all that is covered so far and what stays open, without the plate's edge, and
    ``new_border_cm`` what of it this step draws; ``small_darks`` counts small openings that
    must be painted around.
    """

    area_cm2: float
    places: int
    border_cm: float
    new_border_cm: float = 0.0
    small_darks: int = 0
