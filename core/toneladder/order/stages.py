"""What is bitten apart from the aquatint's own steps: lines before it, a second grain after it."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class LineStep:
    """Line step n stops out lines of depth n-1; its bite makes the lines of depth n.

    ``stop_out`` are the depths painted over, none in step 1; ``length_cm`` is how much line of
    depth n there is. ``dips_s`` are the stays in the bath, with a look between. ``sentences``
    say what is done, in order: the first step's begin with laying the ground, the last one's end
    with taking it off. Lines are bitten on a day of their own.
    """

    step: int
    stop_out: tuple[int, ...]
    length_cm: float
    bite_s: float
    total_bite_s: float
    dips_s: tuple[float, ...]
    paint_min: float
    dry_min: float
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class GrainStep:
    """One bite in the second grain; before the first, all but the darkest tones are stopped out.

    ``makes`` is the lightest tone that the bite finishes; ``total_bite_s`` counts within the
    second grain alone.
    """

    step: int
    stop_out: tuple[int, ...]
    makes: int
    bite_s: float
    total_bite_s: float
    dips_s: tuple[float, ...]
    paint_min: float
    dry_min: float


@dataclass(frozen=True, slots=True)
class GrainedTone:
    """What a tone prints after both grains, CIE L*; never lighter than after the first."""

    tone: int
    lightness: float


@dataclass(frozen=True, slots=True)
class SecondStage:
    """The second grain as it is worked: its tones, its steps, what is done before and after.

    ``work_min`` are the minutes it takes, on a day of its own; ``sentences`` say what is done
    before its first bite.
    """

    tones: tuple[GrainedTone, ...]
    steps: tuple[GrainStep, ...]
    sentences: tuple[str, ...]
    work_min: float
