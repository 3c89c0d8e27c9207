"""How the open plate is looked at: what of it, after which step, as printed or as on the plate."""

from enum import Enum

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QAction, QActionGroup

from toneladder.quantities import write_length
from toneladder.wording import say

LOUPE_MM = (1.0, 2.0, 4.0)
"""How much of the print the loupe can show, across."""


class View(Enum):
    """What the paper shows."""

    PREVIEW = "preview"
    TONES = "tones"
    HATCHED = "hatched"
    PICTURE = "picture"


class Look(QObject):
    """The choices of the Look menu, which are the caption's too.

    ``changed`` says that the paper must show something else; ``mirror`` that it shall be seen as
    on the plate, or as printed; ``loupe_changed`` that the loupe was laid down, put away, or
    shows more or less. ``step`` None is the finished plate.
    """

    changed = Signal()
    mirror = Signal(bool)
    loupe_changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.view = View.PREVIEW
        self.step: int | None = None
        self.mirrored = False
        self.steps = 0
        self.views = self._group(
            (View.PREVIEW, say("Preview of the print")),
            (View.TONES, say("Flat tones")),
            (View.HATCHED, say("Tones, hatched in black alone")),
            (View.PICTURE, say("The picture as it was opened")),
        )
        self.views.triggered.connect(lambda action: self.show_view(action.data()))
        self.sides = self._group(
            (False, say("As printed")), (True, say("As on the plate, mirrored"))
        )
        self.sides.triggered.connect(lambda action: self.show_mirrored(action.data()))
        self.loupe = QAction(say("&Loupe"), self)
        self.loupe.setCheckable(True)
        self.loupe.toggled.connect(lambda _on: self.loupe_changed.emit())
        self.loupe_mm = 2.0
        self.widths = self._group(
            *((mm, say("{width} wide", width=write_length(mm))) for mm in LOUPE_MM),
            chosen=self.loupe_mm,
        )
        self.widths.triggered.connect(lambda action: self.show_loupe(action.data()))
        self.stops = QActionGroup(self)
        self.stops.triggered.connect(lambda action: self.show_step(action.data()))
        self.count_steps(0)

    def count_steps(self, steps: int) -> None:
        """The plate has so many steps now; a step that is gone leaves the finished plate."""
        if steps == self.steps and self.stops.actions():
            return
        self.steps = steps
        for action in self.stops.actions():
            self.stops.removeAction(action)
            action.deleteLater()
        if self.step is not None and self.step >= steps:
            self.step = None
        choices: list[tuple[int | None, str]] = [(None, say("After the last bite"))]
        choices += [(k, say("Stopped after step {step}", step=k)) for k in range(steps - 1, 0, -1)]
        choices.append((0, say("Before the first bite")))
        for data, text in choices:
            self._choice(self.stops, data, text, chosen=data == self.step)

    def show_view(self, view: View) -> None:
        """Show another thing on the paper."""
        self.view = view
        self._tick(self.views, view)
        self.changed.emit()

    def show_step(self, step: int | None) -> None:
        """Show what the plate would print if it were stopped after ``step``."""
        self.step = None if step is not None and step >= self.steps else step
        if self.view is View.PICTURE:
            self.show_view(View.PREVIEW)
        self._tick(self.stops, self.step)
        self.changed.emit()

    def show_mirrored(self, mirrored: bool) -> None:
        """Show it as it lies on the plate, or as it prints."""
        self.mirrored = mirrored
        self._tick(self.sides, mirrored)
        self.mirror.emit(mirrored)

    def show_loupe(self, width_mm: float) -> None:
        """Lay the loupe on the paper, that wide."""
        self.loupe_mm = width_mm
        self._tick(self.widths, width_mm)
        if self.loupe.isChecked():
            self.loupe_changed.emit()
        else:
            self.loupe.setChecked(True)

    def short_words(self) -> tuple[str, str, str]:
        """The same as ``words``, where there is little room."""
        view, stop, side = self.words()
        if not stop:
            return view, stop, side
        if self.step is None:
            return view, say("last bite"), side
        return view, say("step {step}", step=self.step), side

    def as_stopped(self, tone: int) -> int:
        """The tone that ``tone`` prints like after the step that is looked at."""
        return tone if self.step is None else min(tone, self.step)

    def words(self) -> tuple[str, str, str]:
        """View, step and side in the words of the caption; a picture was stopped nowhere."""
        view = {
            View.PREVIEW: say("Preview"),
            View.TONES: say("Tones"),
            View.HATCHED: say("Tones, hatched"),
            View.PICTURE: say("Picture"),
        }[self.view]
        if self.view is View.PICTURE:
            stop = ""
        elif self.step is None:
            stop = say("after the last bite")
        elif self.step:
            stop = say("stopped after step {step}", step=self.step)
        else:
            stop = say("before the first bite")
        return view, stop, say("as on the plate") if self.mirrored else say("as printed")

    def _group(self, *choices: tuple[object, str], chosen: object = None) -> QActionGroup:
        """One choice of several; the first is chosen if none is named."""
        group = QActionGroup(self)
        for data, text in choices:
            chosen = data if chosen is None else chosen
            self._choice(group, data, text, chosen=data == chosen)
        return group

    @staticmethod
    def _choice(group: QActionGroup, data: object, text: str, *, chosen: bool) -> None:
        action = QAction(text, group)
        action.setData(data)
        action.setCheckable(True)
        group.addAction(action)
        action.setChecked(chosen)

    @staticmethod
    def _tick(group: QActionGroup, data: object) -> None:
        for action in group.actions():
            if action.data() == data and type(action.data()) is type(data):
                action.setChecked(True)
