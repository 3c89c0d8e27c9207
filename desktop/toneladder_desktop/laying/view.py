"""Lay the plate on the picture: the board, and beside it what can be typed and pressed."""

from dataclasses import replace

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QImage, QKeyEvent, QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from toneladder.picture.placing import bare_corners, placing_of, share_taken
from toneladder.quantities import Manner, read_angle, write_number, write_percent
from toneladder.quantities.lengths import MM_PER_INCH
from toneladder.wording import say, say_number
from toneladder_desktop.drawing.style import APART, CARD, FAR, NEAR, TIGHT, Type, font
from toneladder_desktop.fittings.field import Field
from toneladder_desktop.fittings.label import Label
from toneladder_desktop.laying.board import LayingBoard
from toneladder_desktop.laying.hand import Act, Lain

_FEW = 9.5
"""Fewer dots to a millimetre than this are told in tenths."""


class LayingView(QWidget):
    """The whole page; it changes nothing itself.

    Signals
    -------
    acted(Act)
        The picture shall lie otherwise.
    done()
        It may stay as it lies.
    left()
        It shall lie as it did before.
    """

    acted = Signal(object)
    done = Signal()
    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(say("Lay the plate on the picture"))
        self._manner = Manner()
        self.board = LayingBoard(self)
        self.board.acted.connect(self.acted)
        self.board.straightening.connect(self._show_straightening)
        self.angle = Field(say("Turned by, degrees"), read_angle, self._take_angle, parent=self)
        self.whole = _button(say("As much as fits"), self._lay_whole)
        self.fill = _button(say("Fill the plate"), self._fill)
        self.straight = _button(say("Stand it straight …"), self._straighten)
        self.quarter = _button(say("Quarter turn"), self._quarter)
        self.mirror = _button(say("Mirror"), self._mirror)
        self.told, self.keys = Label(self), Label(self)
        self.leave = _button(say("Leave as it was"), self.left.emit)
        self.take = _button(say("Lay it so"), self.done.emit)
        self._lay_out()

    def show_copy(self, copy: QImage) -> None:
        """The picture to be laid."""
        self.board.show_copy(copy)

    def show_lain(self, lain: Lain, manner: Manner) -> None:
        """How it lies now."""
        self._manner = manner
        self.board.show_lain(lain)
        self.angle.show_value(write_number(round(lain.laying.turn_deg, 2), manner))
        self.told.setText(_told(lain, manner))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter takes, but for one typed into a field, which ends there; Esc leaves."""
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self.done.emit()
        elif event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def showEvent(self, event: QShowEvent) -> None:
        """The keys come to the picture."""
        super().showEvent(event)
        self.board.setFocus(Qt.FocusReason.OtherFocusReason)

    def _act(self, sentence: str, lain: Lain | None) -> None:
        if lain is not None:
            self.acted.emit(Act(sentence, lain.laying))

    def _with(self, **new: object) -> Lain | None:
        lain = self.board.lain
        if lain is None:
            return None
        laying = replace(lain.laying, **new)  # type: ignore[arg-type] # its fields
        return replace(lain, laying=laying)

    def _lay_whole(self) -> None:
        if self.board.lain is not None:
            self.acted.emit(Act(say("Lay as much of the picture as fits"), self.board.lain.whole()))

    def _fill(self) -> None:
        if self.board.lain is not None:
            self.acted.emit(Act(say("Fill the plate"), self.board.lain.filled()))

    def _straighten(self) -> None:
        self.board.straighten()
        self.board.setFocus(Qt.FocusReason.OtherFocusReason)

    def _quarter(self) -> None:
        if self.board.lain is not None:
            self.acted.emit(Act(say("Turn the picture"), self.board.lain.turned(90.0)))

    def _mirror(self) -> None:
        lain = self.board.lain
        if lain is not None:
            self._act(say("Mirror the picture"), self._with(mirrored=not lain.laying.mirrored))

    def _take_angle(self, degrees: float) -> None:
        lain = self.board.lain
        if lain is not None:
            by = degrees - lain.laying.turn_deg
            by = -by if lain.laying.mirrored else by
            self.acted.emit(Act(say("Turn the picture"), lain.turned(by)))

    def _show_straightening(self, on: bool) -> None:
        self.keys.setText(_asking() if on else _keys())

    def _lay_out(self) -> None:
        title = Label(say("Lay the plate on the picture"), self)
        title.setFont(font(Type.TITLE))
        self.keys.setText(_keys())
        for label in (self.told, self.keys):
            label.setWordWrap(True)
            label.setFont(font(Type.SMALL))
            label.setObjectName("pencil")
        self.take.setProperty("act", True)
        side = QVBoxLayout()
        side.setContentsMargins(APART, APART, APART, APART)
        side.setSpacing(NEAR)
        for part in (self.straight, self.angle, self.quarter, self.mirror, self.whole, self.fill):
            side.addWidget(part)
        side.addSpacing(TIGHT)
        side.addWidget(self.told)
        side.addStretch(1)
        column = QWidget(self)
        column.setLayout(side)
        column.setFixedWidth(CARD)
        body = QHBoxLayout()
        body.setSpacing(0)
        body.addWidget(column)
        body.addWidget(self.board, 1)
        foot = QHBoxLayout()
        foot.setContentsMargins(FAR, NEAR, FAR, APART)
        foot.setSpacing(APART)
        foot.addWidget(self.keys, 1)
        for button in (self.leave, self.take):
            button.setProperty("large", True)
            foot.addWidget(button)
        head = QHBoxLayout()
        head.setContentsMargins(FAR, NEAR, FAR, NEAR)
        head.addWidget(title)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(0)
        rows.addLayout(head)
        rows.addLayout(body, 1)
        rows.addLayout(foot)


def _button(text: str, act: object) -> QPushButton:
    button = QPushButton(text)
    button.setAutoDefault(True)
    button.clicked.connect(act)
    return button


def _told(lain: Lain, manner: Manner) -> str:
    """What of the picture the plate takes, how fine it is there, and whether a corner is bare."""
    share = share_taken(lain.laying, lain.size, lain.picture)
    words = [
        say("{share} of the picture's area", share=write_percent(share))
        + " · "
        + _dots(lain, manner)
    ]
    bare = bare_corners(lain.laying, lain.size, lain.picture)
    if bare:
        words.append(
            say_number(
                "One corner of the plate has no picture under it, and stays paper.",
                "{n} corners of the plate have no picture under them, and stay paper.",
                bare,
            )
        )
    return "\n".join(words)


def _dots(lain: Lain, manner: Manner) -> str:
    """How many dots of the picture come to a millimetre, or to an inch, of the plate."""
    px_per_mm = placing_of(lain.laying, lain.size, lain.picture).px_per_mm
    if manner.imperial:
        dots = manner.number(px_per_mm * MM_PER_INCH, 0)
        one, many = say("one dot of it to an inch"), say("{dots} dots of it to an inch", dots=dots)
    else:
        dots = manner.number(px_per_mm, 1 if px_per_mm < _FEW else 0)
        one = say("one dot of it to a millimetre")
        many = say("{dots} dots of it to a millimetre", dots=dots)
    return one if dots == "1" else many


def _keys() -> str:
    return say(
        "Drag inside to move, outside to turn; the wheel makes it larger. Keys: arrows, + and −,"
        " Page Up and Down to turn; with Shift farther. Enter lays it so."
    )


def _asking() -> str:
    return say(
        "Click two points of one level or upright thing, such as a horizon or a mast; or drag"
        " from one to the other."
    )
