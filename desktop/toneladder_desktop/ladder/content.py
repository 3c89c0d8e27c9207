"""What the ladder shows: a plate's tones, partings and bites as one frozen value."""

from dataclasses import dataclass, replace
from enum import StrEnum

from toneladder.order.values import Tone
from toneladder.tones.values import Choice


class Side(StrEnum):
    """On which rail a peg stands."""

    PARTING = "parting"
    BITE = "bite"


@dataclass(frozen=True, slots=True)
class Peg:
    """One peg by its step: parting n divides tones n-1 and n, bite n is tone n's total bite."""

    side: Side
    step: int


@dataclass(frozen=True, slots=True)
class HeldParting:
    """A held parting to be let go, by its printed lightness L*."""

    lightness: float


@dataclass(frozen=True, slots=True)
class HeldBite:
    """A held total bite to be let go, by the tone's number as it was asked for."""

    tone: int


class Remark(StrEnum):
    """What must be said of one rung."""

    LIGHTER = "prints lighter than its place in the picture"
    DARKER = "prints darker than its place in the picture"
    EMPTY = "nothing of the picture"
    SHORT = "wanted a bite too short for a hand"
    UNTESTED = "not tested"


@dataclass(frozen=True, slots=True)
class Rung:
    """One tone on the ladder.

    ``asked`` is its number before the brush joined any tones. ``places`` and ``minutes`` are
    what its step has to stop out, None while that is being worked out.
    """

    tone: Tone
    asked: int
    bite_s: float
    held: bool
    places: int | None
    minutes: float | None
    remarks: tuple[Remark, ...]


@dataclass(frozen=True, slots=True)
class Parting:
    """Where two tones divide: printed lightness L*, and whether it is held."""

    lightness: float
    held: bool


@dataclass(frozen=True, slots=True)
class Content:
    """Everything on the ladder.

    ``partings[n - 1]`` divides tones n-1 and n. ``alike`` names the lighter of each pair that
    prints alike. ``histogram`` has the picture's share in each tenth of printed darkness, the
    fullest 1; ``paper`` and ``deepest`` are the ends of what the picture asks for, L*.
    ``tested_s`` is the longest tested bite and ``end_s`` the end of the right rail, seconds in
    today's bath; ``shortest_s`` is the shortest bite a hand can time on this plate.
    ``swatches`` are the colours, ``#rrggbb``, in which the tones print. ``set_aside`` counts
    what is held and finds no place among these tones.
    """

    rungs: tuple[Rung, ...]
    partings: tuple[Parting, ...]
    alike: tuple[int, ...]
    histogram: tuple[float, ...]
    paper: float
    deepest: float
    tested_s: float
    end_s: float
    shortest_s: float
    untested: bool
    choice: Choice
    asked_tones: int
    swatches: tuple[str, ...]
    set_aside: int = 0

    @property
    def count(self) -> int:
        """Number of tones, white included."""
        return len(self.rungs)

    @property
    def held(self) -> int:
        """Number of held pegs."""
        return sum(r.held for r in self.rungs) + sum(p.held for p in self.partings)

    def pegs(self) -> tuple[Peg, ...]:
        """Every peg: partings from the lightest, then bites from the shortest."""
        return tuple(Peg(side, n) for side in Side for n in range(1, self.count))

    def value(self, peg: Peg) -> float:
        """Printed lightness L* of a parting, or seconds of a total bite."""
        if peg.side is Side.PARTING:
            return self.partings[peg.step - 1].lightness
        return self.rungs[peg.step].tone.total_bite_s

    def is_held(self, peg: Peg) -> bool:
        """Whether the peg stays where a hand put it."""
        holder = self.partings[peg.step - 1] if peg.side is Side.PARTING else self.rungs[peg.step]
        return holder.held

    def with_value(self, peg: Peg, value: float) -> "Content":
        """The same ladder with one peg elsewhere, held; nothing else is worked out anew."""
        if peg.side is Side.PARTING:
            partings = list(self.partings)
            partings[peg.step - 1] = Parting(value, held=True)
            return replace(self, partings=tuple(partings))
        rungs = list(self.rungs)
        rung = rungs[peg.step]
        rungs[peg.step] = replace(rung, tone=replace(rung.tone, total_bite_s=value), held=True)
        return replace(self, rungs=tuple(rungs))
