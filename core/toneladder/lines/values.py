"""The decisions about pen lines: what a line is, and how lines are bitten."""

from dataclasses import dataclass

MOST_DEPTHS = 4


@dataclass(frozen=True, slots=True)
class Lines:
    """Lines are bitten first, through a hard ground, and left out of the tones.

    ``widest_mm`` is the widest dark ridge, on the plate, that is a line and no tone;
    ``contrast`` how much darker (CIE L*) than what lies beside it. ``depths`` is the number of
    line bites; fine lines are stopped out first. ``bites_s`` are their total bites, clock
    seconds, rising, one for each depth; empty takes the starting points of metal and mordant.
    ``stopped_out`` says that lines are painted over before the tones are bitten, so that they
    do not deepen with them.
    """

    widest_mm: float = 1.0
    contrast: float = 12.0
    depths: int = 1
    bites_s: tuple[float, ...] = ()
    stopped_out: bool = False
