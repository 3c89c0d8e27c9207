"""What the bench's background does, stage by stage, remembering the last answer of each.

The libraries behind these stages load in the background too, after the window is there.
"""

from collections.abc import Iterator
from dataclasses import replace
from functools import singledispatchmethod
from pathlib import Path
from typing import TYPE_CHECKING

from toneladder.bite.values import BiteCurve
from toneladder.wording import say
from toneladder_desktop.bench.asked import (
    Copied,
    Copy,
    Glimpsed,
    LaidOut,
    LayOut,
    Magnified,
    Magnify,
    OpenedPicture,
    OpenedPlate,
    OpenFile,
    Planned,
    Point,
    Pointed,
    Pull,
    Pulled,
    Readied,
    Save,
    Soften,
    Softened,
    WorkOut,
)
from toneladder_desktop.bench.background import Tell
from toneladder_desktop.bench.bench import KnownCurve, Lying
from toneladder_desktop.bench.glimpse import glimpse, is_file

if TYPE_CHECKING:
    from toneladder.picture.opening import Picture
    from toneladder.plan.memory import Memory
    from toneladder.plate.file import PlateFile


class Stages:
    """Works requests off, remembering the last answer of every stage; one thread only."""

    def __init__(self) -> None:
        from toneladder.plan.memory import Memory

        self._memory = Memory()

    @singledispatchmethod
    def work(self, request: object, tell: Tell) -> Iterator[object]:
        """The answers to ``request``, one a stage.

        Parameters
        ----------
        request : OpenFile, WorkOut, Pull, Magnify, LayOut, Copy, Point, Soften or Save
        tell : callable
            Told in a few words what is begun; it may raise to stop the work.

        Raises
        ------
        ToneLadderError
            With the sentence to show.
        """
        raise TypeError(request, tell)

    @work.register
    def _(self, request: OpenFile, tell: Tell) -> Iterator[object]:
        tell(say("Reading {name} …", name=request.name))
        if request.with_glimpse:
            image = glimpse(request.source)
            if not image.isNull():
                yield Glimpsed(image)
        from toneladder.picture.opening import bytes_of, open_picture

        if isinstance(request.source, Path) and is_plate(request.source):
            from toneladder.plate.file import read_plate

            yield OpenedPlate(read_plate(request.source))
            return
        data = bytes_of(request.source, request.name)
        picture = open_picture(data, name=request.name, limit_megapixels=request.limit_megapixels)
        yield OpenedPicture(
            self._memory.recall("picture", picture.ref.sha256, lambda: picture), data
        )

    @work.register
    def _(self, request: WorkOut, tell: Tell) -> Iterator[object]:
        from toneladder.plan.choosing import choose
        from toneladder.plan.planning import finish
        from toneladder.plan.preparing import glance, prepare, seen_of
        from toneladder.plan.standing import fit_of, footing_of

        plate = request.lying.plate
        tell(say("Reading {name} …", name=plate.picture.name))
        picture = self._picture(request.lying)
        seen, curve = seen_of(plate), self._curve(request.lying)
        footing, found = footing_of(plate), fit_of(plate, self._memory)
        glanced = glance(picture, seen, self._memory, tell)
        if glanced is not None:
            yield Readied(glanced, plate.picture.sha256, curve, footing, found)
        prepared = prepare(picture, seen, self._memory, tell)
        yield Readied(prepared, plate.picture.sha256, curve, footing, found)
        tell(say("Counting places and borders …"))
        yield Planned(finish(prepared, choose(prepared, plate, curve), plate, curve))

    @work.register
    def _(self, request: Pull, tell: Tell) -> Iterator[object]:
        from toneladder_desktop.bench.seeing import seen

        tell(say("Drawing the preview …"))
        yield Pulled(seen(request.plan, request.view, request.step, request.px_per_mm))

    @work.register
    def _(self, request: Magnify, _tell: Tell) -> Iterator[object]:
        from toneladder_desktop.bench.seeing import magnified

        yield Magnified(magnified(request))

    @work.register
    def _(self, request: LayOut, tell: Tell) -> Iterator[object]:
        from toneladder.sheets.documents import Kind, Wanted, documents
        from toneladder_desktop.output.results import PAPERS

        kinds = tuple(Kind(kind) for kind in request.kinds)
        wanted = Wanted(request.made_on, PAPERS[request.paper], kinds)
        yield LaidOut(tuple(documents(request.plan, wanted, tell)))

    @work.register
    def _(self, request: Copy, tell: Tell) -> Iterator[object]:
        from toneladder.picture.small_copy import small_copy

        tell(say("Reading {name} …", name=request.lying.plate.picture.name))
        sha256 = request.lying.plate.picture.sha256
        yield Copied(small_copy(self._picture(request.lying).light), sha256)

    @work.register
    def _(self, request: Point, _tell: Tell) -> Iterator[object]:
        from toneladder.plan.preparing import placing_on
        from toneladder.tones.pointing import place_at

        plan = request.plan
        px_per_mm = plan.prepared.grid.px_per_mm
        at = request.x_mm, request.y_mm
        yield Pointed(place_at(plan.tones, at, placing_on(plan.plate), px_per_mm))

    @work.register
    def _(self, request: Soften, _tell: Tell) -> Iterator[object]:
        from toneladder.plan.softening import passages_in

        plan = request.plan
        count = plan.chosen.count
        yield Softened(passages_in(plan.plate, plan.prepared, plan.tones, count))

    @work.register
    def _(self, request: Save, tell: Tell) -> Iterator[object]:
        from toneladder.plan.previewing import preview_of
        from toneladder.plate.file import PlateFile, write_plate
        from toneladder.preview.preview import preview_png

        tell(say("Saving {name} …", name=request.path.name))
        lying = request.lying
        preview = b"" if request.plan is None else preview_png(preview_of(request.plan))
        content = PlateFile(lying.plate, self._curve(lying), lying.picture, preview)
        write_plate(request.path, content)
        yield request

    def _picture(self, lying: Lying) -> "Picture":
        from toneladder.picture.opening import open_picture

        ref = lying.plate.picture
        return self._memory.recall(
            "picture", ref.sha256, lambda: open_picture(lying.picture, name=ref.name)
        )

    def _curve(self, lying: Lying) -> BiteCurve:
        return curve_for(lying, self._memory)


def curve_for(lying: Lying, memory: "Memory") -> BiteCurve:
    """Of the plate's strips; without any, what its file brought with it, or a start.

    Raises
    ------
    ToneLadderError
        No curve can be drawn from the strips, or there is none for metal and mordant.
    """
    from toneladder.plan.standing import curve_of, footing_of

    plate, known = lying.plate, lying.known
    if known is not None and not plate.evidence.strips:
        then = replace(plate, conditions=known.conditions)
        if footing_of(then) == footing_of(plate):
            return known.curve
    return curve_of(plate, memory)


def known_curve(file: "PlateFile") -> KnownCurve:
    """The curve that a plate's file brings with it."""
    return KnownCurve(file.plate.conditions, file.curve)


def is_plate(path: Path) -> bool:
    """Whether the file's content, not its name, makes it a zip and so perhaps a plate."""
    if not is_file(path):
        return False
    try:
        with path.open("rb") as file:
            return file.read(4) == b"PK\x03\x04"
    except OSError:
        return False
