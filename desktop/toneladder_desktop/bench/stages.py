"""What the background does: every heavy stage as a frozen request and its answers.

The libraries behind these stages load in the background too, after the window is there.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from datetime import date
from functools import singledispatchmethod
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtGui import QImage

from toneladder.bite.values import BiteCurve, Conditions
from toneladder.plate.values import Plate
from toneladder.preview.values import InkAndPaper
from toneladder.wording import say
from toneladder_desktop.bench.background import Tell
from toneladder_desktop.bench.bench import KnownCurve, Lying
from toneladder_desktop.bench.glimpse import glimpse, is_file
from toneladder_desktop.bench.look import View

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from toneladder.bite.fitting import Fit
    from toneladder.borders.remedies import Passage
    from toneladder.picture.opening import Picture
    from toneladder.plan.memory import Memory
    from toneladder.plan.planning import Plan
    from toneladder.plan.preparing import Prepared
    from toneladder.plan.standing import Footing
    from toneladder.plate.file import PlateFile
    from toneladder.sheets.documents import Document
    from toneladder.tones.pointing import Rings


@dataclass(frozen=True, slots=True, eq=False)
class OpenFile:
    """A file, or what is in it, to be opened as a plate or as a picture.

    ``with_glimpse`` wants a first look at it before it is read.
    """

    source: Path | bytes = field(repr=False)
    name: str
    limit_megapixels: float
    with_glimpse: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class WorkOut:
    """The open plate, to be worked out."""

    lying: Lying


@dataclass(frozen=True, slots=True, eq=False)
class Pull:
    """A view of a plan, as large as the screen shows it; ``step`` None is the finished plate."""

    plan: "Plan"
    view: View
    step: int | None
    px_per_mm: float


@dataclass(frozen=True, slots=True)
class Magnify:
    """A few millimetres of the print, grain by grain, as the loupe shows them.

    ``tones`` are the tone numbers of the plate's cells, row by row, ``across`` in a row, and
    ``px_per_mm`` of them to a millimetre; ``origin_mm`` is where their upper left corner lies
    on the plate. ``lightness`` is what each tone prints, ``bitten_s`` its total bite at the bite
    curve's temperature.
    """

    tones: bytes = field(repr=False)
    across: int
    px_per_mm: float
    origin_mm: tuple[float, float]
    um_per_px: float
    lightness: tuple[float, ...]
    bitten_s: tuple[float, ...]
    conditions: Conditions
    printing: InkAndPaper


@dataclass(frozen=True, slots=True, eq=False)
class LayOut:
    """Some kinds of sheets of a plan, to be laid out on an office paper (``a4`` or ``letter``)."""

    plan: "Plan"
    paper: str
    made_on: date
    kinds: tuple[str, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Copy:
    """A copy of the open plate's picture, as small as a screen needs it."""

    lying: Lying


@dataclass(frozen=True, slots=True, eq=False)
class Point:
    """The place of one tone under a point of the plate (mm, as it prints)."""

    plan: "Plan"
    x_mm: float
    y_mm: float


@dataclass(frozen=True, slots=True, eq=False)
class Soften:
    """The soft passages of a plan."""

    plan: "Plan"


@dataclass(frozen=True, slots=True, eq=False)
class Save:
    """The open plate, to be written to its file."""

    path: Path
    lying: Lying
    plan: "Plan | None"


@dataclass(frozen=True, slots=True, eq=False)
class Glimpsed:
    """A first look at what is being opened."""

    image: QImage


@dataclass(frozen=True, slots=True, eq=False)
class OpenedPlate:
    """A plate's file was read."""

    file: "PlateFile"


@dataclass(frozen=True, slots=True, eq=False)
class OpenedPicture:
    """A picture's file was read; ``data`` is its bytes."""

    picture: "Picture"
    data: bytes = field(repr=False)


@dataclass(frozen=True, slots=True, eq=False)
class Readied:
    """Everything of a plate that does not depend on the number of tones, and its curve.

    ``fit`` is what the strips say one by one, if the curve stands on any.
    """

    prepared: "Prepared"
    sha256: str
    curve: BiteCurve = field(repr=False)
    footing: "Footing"
    fit: "Fit | None" = field(default=None, repr=False)

    def fits(self, plate: Plate) -> bool:
        """Whether it holds for ``plate`` too, so that its tones can be chosen at once."""
        from toneladder.plan.preparing import seen_of
        from toneladder.plan.standing import footing_of

        return (
            plate.picture.sha256 == self.sha256
            and seen_of(plate) == self.prepared.seen
            and footing_of(plate) == self.footing
        )


@dataclass(frozen=True, slots=True, eq=False)
class Planned:
    """The whole plan."""

    plan: "Plan"


@dataclass(frozen=True, slots=True, eq=False)
class Pulled:
    """The view that was asked for, (height, width, 3) sRGB bytes."""

    image: "NDArray[np.uint8]" = field(repr=False)


@dataclass(frozen=True, slots=True, eq=False)
class Magnified:
    """The grain that was asked for, (height, width, 3) sRGB bytes."""

    image: "NDArray[np.uint8]" = field(repr=False)


@dataclass(frozen=True, slots=True, eq=False)
class Copied:
    """The copy that was asked for, grey, (height, width) bytes, and its picture's hash."""

    image: "NDArray[np.uint8]" = field(repr=False)
    sha256: str


@dataclass(frozen=True, slots=True, eq=False)
class Pointed:
    """The outlines of the place that was pointed at, in shares of the whole picture."""

    rings: "Rings" = field(repr=False)


@dataclass(frozen=True, slots=True, eq=False)
class Softened:
    """The soft passages that were asked for."""

    passages: "tuple[Passage, ...]"


@dataclass(frozen=True, slots=True, eq=False)
class LaidOut:
    """The sheets that were asked for, kind by kind."""

    documents: "tuple[Document, ...]"


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
        if request.with_glimpse:
            image = glimpse(request.source)
            if not image.isNull():
                yield Glimpsed(image)
        from toneladder.picture.opening import bytes_of, open_picture

        tell(say("Reading {name} …", name=request.name))
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
        from toneladder.plan.preparing import prepare, seen_of
        from toneladder.plan.standing import fit_of, footing_of

        plate = request.lying.plate
        tell(say("Reading {name} …", name=plate.picture.name))
        picture = self._picture(request.lying)
        prepared = prepare(picture, seen_of(plate), self._memory, tell)
        curve = self._curve(request.lying)
        footing, found = footing_of(plate), fit_of(plate, self._memory)
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
