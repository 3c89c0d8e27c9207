"""What is worked out for the proof's page beside the window: laid over the plan, read."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import singledispatchmethod
from pathlib import Path
from typing import TYPE_CHECKING

from toneladder.errors import ProofError
from toneladder.wording import say
from toneladder_desktop.bench.background import Tell
from toneladder_desktop.bench.scanned import opened

if TYPE_CHECKING:
    from toneladder.picture.light import Light
    from toneladder.plan.planning import Plan
    from toneladder.proof.pulls import Pulls
    from toneladder.proof.values import Point, ProofReading


@dataclass(frozen=True, slots=True, eq=False)
class OpenProof:
    """A scan of a proof of this plan; ``second`` if it is another pull beside the first."""

    path: Path
    plan: "Plan"
    second: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class LayBetween:
    """The open scan again, the plate between these corners of it."""

    corners: "tuple[Point, ...]"
    plan: "Plan"


@dataclass(frozen=True, slots=True, eq=False)
class NotThis:
    """The scan does not look like this plate; corners can be marked by hand."""

    sentence: str


@dataclass(frozen=True, slots=True, eq=False)
class Read:
    """What the proof told, with its places put in words; ``pulls`` if two were read."""

    reading: "ProofReading"
    said: tuple[str, ...]
    pulls: "Pulls | None" = None


class ProofWork:
    """Works requests off; it keeps the light of the scan that lies open, and the first reading."""

    def __init__(self) -> None:
        self._light: Light | None = None
        self._first: ProofReading | None = None

    @singledispatchmethod
    def work(self, request: object, tell: Tell) -> Iterator[object]:
        """The answers to ``request``.

        Raises
        ------
        ToneLadderError
            With the sentence to show.
        """
        raise TypeError(request, tell)

    @work.register
    def _(self, request: OpenProof, tell: Tell) -> Iterator[object]:
        light, scan = opened(request.path, tell)
        if not request.second:
            self._light = light
            yield scan
        tell(say("Laying the proof over its plan …"))
        try:
            reading = _read(light, request.plan, None)
        except ProofError as fault:
            yield NotThis(str(fault))
            return
        if request.second and self._first is not None:
            yield _compared(self._first, reading)
            return
        self._first = reading
        yield Read(reading, _said(reading))

    @work.register
    def _(self, request: LayBetween, _tell: Tell) -> Iterator[object]:
        if self._light is None:
            return
        try:
            reading = _read(self._light, request.plan, request.corners)
        except ProofError as fault:
            yield NotThis(str(fault))
            return
        self._first = reading
        yield Read(reading, _said(reading))


def _read(light: "Light", plan: "Plan", corners: "tuple[Point, ...] | None") -> "ProofReading":
    from toneladder.plan.proofed import wanted_of
    from toneladder.proof.reading import read_tones
    from toneladder.proof.registering import register

    px_per_mm = plan.prepared.grid.px_per_mm
    laid = register(light, plan.tones, px_per_mm, corners=corners)
    planned = wanted_of(plan)
    return read_tones(light, laid, plan.tones, px_per_mm, planned)


def _said(reading: "ProofReading") -> tuple[str, ...]:
    from toneladder.proof.meaning import advice
    from toneladder.proof.notes import about_places

    return (*reading.notes, *about_places(reading.places), *advice(reading.tones))


def _compared(first: "ProofReading", second: "ProofReading") -> Read:
    from dataclasses import replace

    from toneladder.proof.meaning import advice
    from toneladder.proof.pulls import compare

    pulls = compare(first, second)
    both = replace(first, tones=pulls.tones, places=pulls.plate_places)
    return Read(both, (*pulls.sentences(), *advice(pulls.tones)), pulls)
