"""The open plate worked out: what is light at once, what is heavy in the background."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal
from PySide6.QtGui import QImage

from toneladder.bite.values import BiteCurve
from toneladder.errors import ToneLadderError
from toneladder.plate.values import Plate
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
from toneladder_desktop.bench.background import Background, Tell
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.bench.look import View
from toneladder_desktop.bench.stages import Stages

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from toneladder.bite.fitting import Fit
    from toneladder.plan.choosing import Chosen
    from toneladder.plan.planning import Plan
    from toneladder.plan.preparing import Prepared


@dataclass(frozen=True, slots=True, eq=False)
class Tones:
    """A grid of the plate, (height, width) of uint8, and which tone each of its values is."""

    cells: "NDArray[np.uint8]" = field(repr=False)
    numbers: tuple[int, ...]


STILL_MS = 150
"""A hand that holds something must have been still so long before the whole plan is worked out."""


class Workings(QObject):
    """Follows the bench: ``chosen`` is there in the same moment, ``plan`` when it is ready.

    While a hand moves something, the plan waits until it is still.

    ``worked`` says that the plate changed, or that more of it is worked out than a moment ago.
    ``glimpsed(image)`` is a first look at what will lie on the empty bench.
    ``copied(sha256, image)`` is a small copy of that picture,
    ``pointed(rings)`` the place that was pointed at, ``softened(passages)`` the soft passages.
    ``pulled``, ``magnified`` and ``opened``, each with request and answer, ``laid_out(documents)``
    and ``saved(request)`` answer what was asked; ``failed(request, sentence)`` is for all of them.
    """

    worked = Signal()
    glimpsed = Signal(object)
    pulled = Signal(object, object)
    magnified = Signal(object, object)
    opened = Signal(object, object)
    laid_out = Signal(object)
    saved = Signal(object)
    copied = Signal(str, QImage)
    pointed = Signal(object)
    softened = Signal(object)
    failed = Signal(object, str)
    doing = Signal(str)
    rested = Signal()

    def __init__(self, bench: Bench, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bench = bench
        self._ready: Readied | None = None
        self._stages: Stages | None = None
        self._seen = False
        self.chosen: Chosen | None = None
        self.plan: Plan | None = None
        self.background = Background(self._work, self)
        self.background.begin()  # while there is memory for one
        self.background.answered.connect(self._answer)
        self.background.failed.connect(self._fail)
        self.background.done.connect(self._rest)
        self.background.doing.connect(self.doing)
        self._still = QTimer(self, singleShot=True, interval=STILL_MS)
        self._still.timeout.connect(self._work_out)
        bench.laid.connect(self._forget)
        bench.plate_changed.connect(self._follow)

    @property
    def prepared(self) -> "Prepared | None":
        """The picture as the brush of the open plate, or of a moment ago, sees it."""
        return None if self._ready is None else self._ready.prepared

    @property
    def curve(self) -> BiteCurve | None:
        """The bite curve that total bites are read from."""
        return None if self._ready is None else self._ready.curve

    @property
    def fit(self) -> "Fit | None":
        """What the strips behind the curve say, patch by patch; None without any."""
        return None if self._ready is None else self._ready.fit

    def tones(self) -> Tones | None:
        """The tones as they are now, in the same moment as ``chosen``."""
        plan, plate, prepared, chosen = self.plan, self._bench.plate, self.prepared, self.chosen
        if plate is None or prepared is None or chosen is None:
            return None
        corrected = plate.brush.smallest_area_mm2 or plate.notes or plate.margin_strip
        if corrected and plan is not None:
            return Tones(plan.tones, tuple(range(chosen.count)))
        return Tones(prepared.cleaned, chosen.parted.table)

    def open(self, source: Path | bytes, name: str, limit_megapixels: float) -> OpenFile:
        """Have a file read; ``opened`` brings what it is."""
        unseen = self._bench.lying is None and not self._seen
        request = OpenFile(source, name, limit_megapixels, with_glimpse=unseen)
        self._seen = False
        self.background.ask("open", request)
        return request

    def seen_already(self, image: QImage) -> None:
        """A first look was taken at what will be opened; it need not be taken again."""
        if not image.isNull():
            self._seen = True
            self.glimpsed.emit(image)

    def pull(self, view: View, step: int | None, px_per_mm: float) -> None:
        """Have the plan drawn as finely as the screen shows it; ``pulled`` brings it."""
        if self.plan is not None:
            self.background.ask("pull", Pull(self.plan, view, step, px_per_mm))

    def magnify(self, request: Magnify | None) -> None:
        """Have a few millimetres drawn grain by grain; ``magnified`` brings it; None: no more."""
        if request is None:
            self.background.give_up("loupe")
        else:
            self.background.ask("loupe", request)

    def lay_out(
        self, paper: str, made_on: date, kinds: tuple[str, ...], plan: "Plan | None" = None
    ) -> None:
        """Have kinds of sheets of the plan, or of another, laid out; ``laid_out`` brings them."""
        wanted = plan or self.plan
        if wanted is not None:
            self.background.ask("sheets", LayOut(wanted, paper, made_on, kinds))

    def copy(self) -> None:
        """Have the picture copied for the screen; ``copied`` brings it."""
        if self._bench.lying is not None:
            self.background.ask("copy", Copy(self._bench.lying))

    def point(self, x_mm: float, y_mm: float) -> bool:
        """Have the place at a point found; ``pointed`` brings it. False if there is no plan yet."""
        if self.plan is None:
            return False
        self.background.ask("point", Point(self.plan, x_mm, y_mm))
        return True

    def soften(self) -> None:
        """Have the soft passages of the plan looked for; ``softened`` brings them."""
        if self.plan is not None:
            self.background.ask("soft", Soften(self.plan))

    def save(self, path: Path) -> None:
        """Have the plate as it is now written; ``saved`` says that it is safe."""
        if self._bench.lying is not None:
            self.background.ask(f"save {path}", Save(path, self._bench.lying, self.plan))

    def word_anew(self) -> None:
        """Have all worked out again, since its sentences are to be written in another manner."""
        self._stages = None
        self._work_out()

    def stop(self) -> None:
        """Give up what is being opened, worked out or drawn; saving goes on."""
        for slot in ("open", "work", "pull"):
            self.background.give_up(slot)
        self.rested.emit()

    def _work(self, request: object, tell: Tell) -> Iterator[object]:
        """On the background's thread: its libraries load with the first request."""
        if self._stages is None:
            self._stages = Stages()
        return self._stages.work(request, tell)

    def _forget(self) -> None:
        self._ready = self.chosen = self.plan = None
        self.background.give_up("pull")
        self.background.give_up("loupe")

    def _follow(self, plate: Plate) -> None:
        if self.plan is not None and same_work(self.plan.plate, plate):
            self.plan = replace(self.plan, plate=plate)
        else:
            self.plan = None
            self.background.give_up("pull")
            self._choose(plate)
            if self._bench.in_hand:
                self.background.give_up("work")
                self._still.start()
            else:
                self._work_out()
        self.worked.emit()

    def _work_out(self) -> None:
        self._still.stop()
        if self._bench.lying is not None:
            self.background.ask("work", WorkOut(self._bench.lying))

    def _choose(self, plate: Plate) -> None:
        """The light part, in the moment of the change itself."""
        self.chosen = None
        if self._ready is None or not self._ready.fits(plate):
            return
        from toneladder.plan.choosing import choose

        try:
            self.chosen = choose(self._ready.prepared, plate, self._ready.curve)
        except ToneLadderError as fault:
            self.failed.emit(None, str(fault))

    def _answer(self, request: object, answer: object) -> None:
        match answer:
            case Readied():
                self._ready_is(answer)
            case Planned():
                self._plan_is(answer.plan)
            case Save():
                self.saved.emit(answer)
            case Pulled():
                self.pulled.emit(request, answer)
            case Magnified():
                self.magnified.emit(request, answer)
            case Glimpsed():
                self._glimpse_is(answer.image)
            case OpenedPlate() | OpenedPicture():
                self.opened.emit(request, answer)
            case _:
                self._pass_on(answer)

    def _pass_on(self, answer: object) -> None:
        """What only the asking part of the window needs."""
        match answer:
            case LaidOut():
                self.laid_out.emit(answer.documents)
            case Copied():
                self.copied.emit(answer.sha256, grey_image(answer.image))
            case Pointed():
                self.pointed.emit(answer.rings)
            case Softened():
                self.softened.emit(answer.passages)

    def _ready_is(self, ready: Readied) -> None:
        self._ready = ready
        if self._bench.plate is not None:
            self._choose(self._bench.plate)
        self.worked.emit()

    def _plan_is(self, plan: "Plan") -> None:
        self.plan, self.chosen = plan, plan.chosen
        if self._bench.plate is not None:
            self.plan = replace(plan, plate=self._bench.plate)
        self.worked.emit()

    def _glimpse_is(self, image: QImage) -> None:
        if self._bench.lying is None:
            self.glimpsed.emit(image)

    def _fail(self, request: object, sentence: str) -> None:
        self.failed.emit(request, sentence)
        self._rest()

    def _rest(self, _request: object = None) -> None:
        if not self.background.busy:
            self.rested.emit()


def grey_image(grey: "NDArray[np.uint8]") -> QImage:
    """A grey picture, (height, width) bytes, as Qt holds it."""
    height, width = grey.shape
    return QImage(grey.tobytes(), width, height, width, QImage.Format.Format_Grayscale8).copy()


def same_work(one: Plate, other: Plate) -> bool:
    """Whether two plates need the same plan: they differ in name, ink, paper or start at most.

    The margin, the ink and the title are the print's; the start of the day shifts clock times;
    what was given at the tank, and in which bath of the book, plans nothing.
    """
    return one == replace(
        other,
        title=one.title,
        printing=one.printing,
        start=one.start,
        given_s=one.given_s,
        lines_given_s=one.lines_given_s,
        second_given_s=one.second_given_s,
        bath=one.bath,
        identity=one.identity,
    )
