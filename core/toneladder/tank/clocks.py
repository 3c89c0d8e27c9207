"""Elapsed time from two clocks: right through sleep, a set clock, a restart; or a doubt, said.

One clock counts since the machine was started and cannot be set, but dies with the machine,
and on some machines stands still while they sleep. The other survives, but can be set. Time
zones and summer time never enter: both clocks count plain seconds.
"""

from dataclasses import dataclass

from toneladder.tank.values import Moment

AGREE_WITHIN_S = 0.5
SLEWED = 5e-4
"""Seconds per second by which a clock may be drawn towards the true time without a jump: at
the most 500 parts in a million are usual (from memory)."""


@dataclass(frozen=True, slots=True)
class Elapsed:
    """Seconds that passed by the clock that cannot be set, and by the clock on the wall."""

    steady_s: float = 0.0
    wall_s: float = 0.0

    def __add__(self, more: "Elapsed") -> "Elapsed":
        """Both, one after the other."""
        return Elapsed(self.steady_s + more.steady_s, self.wall_s + more.wall_s)

    def __sub__(self, less: "Elapsed") -> "Elapsed":
        """What is left of it."""
        return Elapsed(self.steady_s - less.steady_s, self.wall_s - less.wall_s)

    @property
    def apart_s(self) -> float:
        """How much more time passed on the wall."""
        return self.wall_s - self.steady_s


def elapsed(since: Moment, until: Moment) -> Elapsed:
    """What passed between two moments.

    Within one start of the machine each clock tells its own. Across a restart only the clock on
    the wall can; but the machine has been running since, and no less time than that has passed.
    """
    wall = until.utc_s - since.utc_s
    if since.boot == until.boot:
        return Elapsed(until.boottime_s - since.boottime_s, wall)
    return Elapsed(max(wall, until.boottime_s), wall)


def agree(apart_s: float, over_s: float) -> bool:
    """Whether two clocks that differ by ``apart_s`` after ``over_s`` seconds are both right."""
    return abs(apart_s) <= AGREE_WITHIN_S + SLEWED * abs(over_s)
