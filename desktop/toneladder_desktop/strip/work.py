"""What is worked out for the strip's page beside the window: scans read, strips fitted."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import singledispatchmethod
from pathlib import Path
from typing import TYPE_CHECKING

from toneladder.errors import StripError
from toneladder.strip.values import Strip
from toneladder.wording import say
from toneladder_desktop.bench.background import Tell
from toneladder_desktop.bench.scanned import opened

if TYPE_CHECKING:
    from toneladder.bite.fitting import Fit
    from toneladder.picture.light import Light
    from toneladder.plan.planning import Plan
    from toneladder.scans.values import Corners, FoundStrip, GreyScale, Reading


@dataclass(frozen=True, slots=True, eq=False)
class PlanCard:
    """The card of a strip to be planned: the bites that would tell most about a plan."""

    plan: "Plan"


@dataclass(frozen=True, slots=True, eq=False)
class Planned:
    """The total bites of its patches, seconds."""

    bites_s: tuple[float, ...]


@dataclass(frozen=True, slots=True, eq=False)
class OpenScan:
    """A scan to be opened, and the strip of so many bites to be found on it."""

    path: Path
    bites_s: tuple[float, ...]
    photograph: bool
    scale: "GreyScale | None"


@dataclass(frozen=True, slots=True, eq=False)
class Reread:
    """The open scan again, its strip between other corners."""

    corners: "Corners"
    bites_s: tuple[float, ...]
    photograph: bool


@dataclass(frozen=True, slots=True, eq=False)
class FitDraft:
    """A strip to be fitted, with the others of its bath before it."""

    strip: Strip
    others: tuple[Strip, ...]
    q: float


@dataclass(frozen=True, slots=True, eq=False)
class NotFound:
    """No strip was found by itself; the sentence says why, and corners can be laid by hand."""

    sentence: str


@dataclass(frozen=True, slots=True, eq=False)
class Found:
    """The strip on the scan, and its readings."""

    found: "FoundStrip"
    reading: "Reading"


@dataclass(frozen=True, slots=True, eq=False)
class Fitted:
    """What the strip and those before it lead to."""

    fit: "Fit"


class StripWork:
    """Works requests off; it keeps the light of the scan that lies open."""

    def __init__(self) -> None:
        self._light: Light | None = None

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
    def _(self, request: PlanCard, _tell: Tell) -> Iterator[object]:
        from toneladder.sheets.documents import strip_for

        yield Planned(strip_for(request.plan).bites_s)

    @work.register
    def _(self, request: OpenScan, tell: Tell) -> Iterator[object]:
        from toneladder.scans.finding import find_strip
        from toneladder.scans.reading import read_patches

        light, scan = opened(request.path, tell)
        self._light = light
        yield scan
        tell(say("Looking for the strip …"))
        try:
            found = find_strip(light, patches=len(request.bites_s), scale=request.scale)
        except StripError as fault:
            yield NotFound(str(fault))
            return
        reading = read_patches(
            light,
            found,
            request.bites_s,
            scale=request.scale,
            photograph=request.photograph,
        )
        yield Found(found, reading)

    @work.register
    def _(self, request: Reread, _tell: Tell) -> Iterator[object]:
        from toneladder.scans.finding import strip_between
        from toneladder.scans.reading import read_patches

        if self._light is not None:
            found = strip_between(request.corners, len(request.bites_s))
            yield Found(
                found,
                read_patches(self._light, found, request.bites_s, photograph=request.photograph),
            )

    @work.register
    def _(self, request: FitDraft, _tell: Tell) -> Iterator[object]:
        from toneladder.strip.curve import fit_strips

        yield Fitted(fit_strips([*request.others, request.strip], q=request.q))
