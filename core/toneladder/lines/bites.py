"""How long lines are bitten through a hard ground, before anybody has tried it on this plate."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from toneladder.bite.starting_points import STARTING_TEMPERATURE_C, Mark
from toneladder.bite.today import rate_today
from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.lines.values import Lines
from toneladder.wording import say

_ROUND_S = ((300.0, 30.0), (1800.0, 60.0), (float("inf"), 300.0))


@dataclass(frozen=True, slots=True)
class LineStart:
    """The bite of a plate's heaviest lines at 20 °C, and how well it is known."""

    usual_s: float
    mark: Mark
    source: str


def line_start(conditions: Conditions) -> LineStart | None:
    """Where the line bite of a metal and a mordant starts; None where nothing is known."""
    return _known_starts().get((conditions.metal, conditions.mordant))


def line_bites(lines: Lines, conditions: Conditions) -> tuple[float, ...]:
    """Total bites of all line depths, the finest first, clock seconds in today's bath.

    The etcher's own, or the starting point: the heaviest lines get the usual bite and each
    finer depth half as long as the next, an assumption. Empty where nothing is known.
    """
    if lines.bites_s:
        return lines.bites_s
    start = line_start(conditions)
    if start is None:
        return ()
    usual = start.usual_s / rate_today(conditions.temperature_c, STARTING_TEMPERATURE_C)
    return tuple(_timed(usual / 2.0 ** (lines.depths - k)) for k in range(1, lines.depths + 1))


def stays(totals_s: Sequence[float]) -> tuple[float, ...]:
    """The bites between total bites."""
    return tuple(after - before for before, after in pairwise((0.0, *totals_s)))


def _timed(bite_s: float) -> float:
    """A bite as roughly as a starting point is known."""
    step = next(step for limit, step in _ROUND_S if bite_s <= limit)
    return max(round(bite_s / step), 1) * step


def _known_starts() -> Mapping[tuple[Metal, Mordant], LineStart]:
    return {
        (Metal.COPPER, Mordant.FERRIC_CHLORIDE): LineStart(
            3600.0,
            Mark.PUBLISHED,
            say("published by a college's print studio: 60 to 90 min in 42 to 45 °Bé"),
        ),
        (Metal.COPPER, Mordant.FERRIC_CITRIC): LineStart(
            1800.0,
            Mark.PUBLISHED,
            say(
                "published by one studio, for soft ground in 25 °Bé: faint at 10 min, like pencil"
                " at 25 to 30, like charcoal at 45; for hard ground an assumption"
            ),
        ),
        (Metal.ZINC, Mordant.NITRIC_ACID): LineStart(
            720.0, Mark.PUBLISHED, say("published by one etcher: about 12 min")
        ),
        (Metal.ZINC, Mordant.COPPER_SULPHATE_SALT): LineStart(
            1200.0,
            Mark.PUBLISHED,
            say("published home trials: 20 min in one, 10 min and then 15 min more in another"),
        ),
        (Metal.ALUMINIUM, Mordant.COPPER_SULPHATE_SALT): LineStart(
            300.0,
            Mark.ASSUMED,
            say(
                "an assumption: no line times were found, and in a published test hard ground"
                " began to fail on aluminium within 5 min"
            ),
        ),
    }
