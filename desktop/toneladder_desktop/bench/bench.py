"""The bench: the one plate that lies open, and the one way to change it."""

from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Final

from PySide6.QtCore import QObject, QTimer, Signal
from PySide6.QtGui import QUndoCommand, QUndoStack

from toneladder.bite.values import BiteCurve, Conditions
from toneladder.plate.values import Plate
from toneladder.wording import say

REST_MS: Final = 700
"""A hand that rested this long begins a new undo step."""


@dataclass(frozen=True, slots=True)
class KnownCurve:
    """A curve that came with a plate's file, and the conditions it holds for."""

    conditions: Conditions
    curve: BiteCurve = field(repr=False)


@dataclass(frozen=True, slots=True, eq=False)
class Lying:
    """What is laid on the bench.

    ``picture`` is the picture's file, byte for byte; ``path`` the plate's own file, if it has
    one; a ``sample`` never asks to be saved.
    """

    plate: Plate
    picture: bytes = field(repr=False)
    path: Path | None = None
    known: KnownCurve | None = None
    sample: bool = False


class Bench(QObject):
    """Holds the open plate, its undo steps, and tells who listens when it changes.

    ``plate_changed`` carries the frozen plate as it is now; ``laid`` says that another plate
    (or the first one) lies open; ``state_changed`` that its name, file or unsaved changes did.
    """

    plate_changed = Signal(object)
    laid = Signal()
    state_changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.undo = QUndoStack(self)
        self.undo.cleanChanged.connect(self._clean_changed)
        self._lying: Lying | None = None
        self._pictures: dict[str, bytes] = {}
        self._series = 0
        self._last_series = ""
        self._held = False
        self._rest = QTimer(self, singleShot=True, interval=REST_MS)
        self._rest.timeout.connect(self.rest)

    @property
    def lying(self) -> Lying | None:
        """Everything that lies open; None on an empty bench."""
        return self._lying

    @property
    def plate(self) -> Plate | None:
        """The open plate as it is now."""
        return None if self._lying is None else self._lying.plate

    @property
    def unsaved(self) -> bool:
        """Whether closing would lose something its owner may want."""
        return self._lying is not None and not self._lying.sample and not self.undo.isClean()

    @property
    def in_hand(self) -> bool:
        """Whether a hand has taken something that it has not let go of."""
        return self._held

    def lay(self, lying: Lying, *, unsaved: bool = False) -> None:
        """Put another plate on the bench; what was there, with its undo steps, is gone."""
        self.rest()
        self._lying = lying
        self._pictures = {lying.plate.picture.sha256: lying.picture}
        self.undo.clear()
        if unsaved:
            self.undo.resetClean()
        else:
            self.undo.setClean()
        self.laid.emit()
        self.plate_changed.emit(lying.plate)
        self.state_changed.emit()

    def change(self, sentence: str, plate: Plate, series: str = "") -> None:
        """Change the plate, as one undo step.

        Parameters
        ----------
        sentence : str
            What the etcher did, as undo will say it.
        plate : Plate
            The plate as it shall be; an equal one is no change.
        series : str
            Names a movement that is still going on (a dragged peg, a held key): changes of one
            series that follow each other without a rest are one step.
        """
        if self._lying is None or plate == self._lying.plate:
            return
        if not series or series != self._last_series:
            self.rest()
        self._last_series = series
        number = self._series if series else -1
        self.undo.push(_Change(self, sentence, self._lying.plate, plate, number))
        if series and not self._held:
            self._rest.start()

    def hold(self, held: bool) -> None:
        """A hand has taken something, and until it lets go its changes of one series are one."""
        self._held = held
        self.rest()

    def rest(self) -> None:
        """The hand has let go: the next change is a step of its own."""
        self._rest.stop()
        self._series += 1
        self._last_series = ""

    def change_picture(self, sentence: str, plate: Plate, picture: bytes) -> None:
        """Change the plate to one of another picture, as one undo step."""
        self._pictures[plate.picture.sha256] = picture
        self.change(sentence, plate)

    def give_up(self) -> None:
        """Nobody wants the unsaved changes: closing loses nothing any more."""
        self.undo.setClean()

    def now_saved(self, path: Path, plate: Plate) -> None:
        """``plate`` is safe in ``path``; changes made since then stay unsaved."""
        if self._lying is None:
            return
        self._lying = replace(self._lying, path=path, sample=False)
        if plate == self._lying.plate:
            self.undo.setClean()
        self.state_changed.emit()

    def show(self, plate: Plate) -> None:
        """Swap the frozen plate; only undo steps do this."""
        if self._lying is None:
            return
        picture = self._pictures[plate.picture.sha256]
        self._lying = replace(self._lying, plate=plate, picture=picture)
        self.plate_changed.emit(plate)
        self.state_changed.emit()

    def name(self) -> str:
        """What the open plate is called."""
        title = "" if self.plate is None else " ".join(self.plate.title.split())
        return title or say("Untitled plate")

    def _clean_changed(self) -> None:
        self.state_changed.emit()


class _Change(QUndoCommand):
    """Two frozen plates and the sentence between them."""

    def __init__(
        self, bench: Bench, sentence: str, before: Plate, after: Plate, series: int
    ) -> None:
        super().__init__(sentence)
        self._bench, self._series = bench, series
        self._before, self._after = before, after

    def redo(self) -> None:
        self._bench.show(self._after)

    def undo(self) -> None:
        self._bench.show(self._before)

    def id(self) -> int:
        return self._series

    def mergeWith(self, other: QUndoCommand) -> bool:
        if not isinstance(other, _Change):
            return False
        self._after = other._after  # noqa: SLF001 - one of its own kind
        self.setText(other.text())
        self.setObsolete(self._after == self._before)
        return True
