"""What is entered with dry hands: a reading, a slip of the brush, a note, an event taken back."""

from collections.abc import Callable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QListWidget, QPushButton, QVBoxLayout, QWidget

from toneladder.errors import ToneLadderError
from toneladder.quantities import (
    read_bite,
    read_number,
    read_temperature,
    read_tone,
    write_bite,
    write_temperature,
    write_tone,
)
from toneladder.tank.values import Event, Kind, Stage
from toneladder.wording import say
from toneladder_desktop.drawing.style import APART, NEAR, WIDE, Type, font
from toneladder_desktop.fittings.apart import Apart
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.label import Label

_LONGEST_NOTE = 2000
_SHOWN = 12


class Entering(Apart):
    """One kind of entry, its value, and the list of what was noted.

    ``entered(kind, seconds, reading, of, text)`` is to be noted; ``taken_back(number)`` is an
    event that shall count no more.
    """

    entered = Signal(object, float, float, int, str)
    taken_back = Signal(int)

    def __init__(
        self, tones: int, stage: Stage = Stage.TONES, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Note at the tank"))
        self._tones, self._stage = tones, stage
        self._kind = Kind.TEMPERATURE
        self.kind: Choice[Kind] = Choice(say("What happened"), _kinds(stage), self._take_kind, self)
        self.kind.show_value(self._kind)
        self.line, self.fault, self.how = QLineEdit(self), Label(self), Label(self)
        self.line.setAccessibleName(say("Its value"))
        self.line.returnPressed.connect(self.commit)
        self.note = QPushButton(say("Note it"), self)
        self.note.setProperty("act", True)
        self.note.clicked.connect(self.commit)
        self.list = QListWidget(self)
        self.list.setAccessibleName(say("What was noted"))
        self.back = QPushButton(say("Take this back"), self)
        self.back.clicked.connect(self._take_back)
        for label in (self.fault, self.how):
            label.setFont(font(Type.SMALL))
            label.setWordWrap(True)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(WIDE, WIDE, WIDE, WIDE)
        rows.setSpacing(APART)
        for part in (self.kind, self.how, self.line, self.fault, self.note):
            rows.addWidget(part)
        rows.addSpacing(NEAR)
        rows.addWidget(self.list, 1)
        rows.addWidget(self.back)
        self.setMinimumWidth(360)
        self._numbers: list[int] = []
        self._take_kind(self._kind)

    def show_events(self, events: tuple[Event, ...], names: Callable[[Event], str]) -> None:
        """What was noted last, the newest first."""
        newest = list(reversed(events))[:_SHOWN]
        self._numbers = [event.number for event in newest]
        self.list.clear()
        self.list.addItems([names(event) for event in newest])

    def commit(self) -> None:
        """Note what was typed, or say why it cannot be."""
        try:
            seconds, reading, of, text = self._read(self.line.text())
        except ToneLadderError as fault:
            self.fault.setText(str(fault))
            return
        self.fault.setText("")
        self.line.clear()
        self.entered.emit(self._kind, seconds, reading, of, text)

    def _take_kind(self, kind: Kind) -> None:
        self._kind = kind
        self.kind.show_value(kind)
        self.how.setText(_how(kind, self._stage))
        self.fault.setText("")

    def _take_back(self) -> None:
        row = self.list.currentRow()
        if 0 <= row < len(self._numbers):
            self.taken_back.emit(self._numbers[row])

    def _read(self, text: str) -> tuple[float, float, int, str]:
        match self._kind:
            case Kind.TEMPERATURE:
                return 0.0, read_temperature(text), 0, ""
            case Kind.CHECK_PATCH:
                bite, _, tone = text.partition(";")
                return read_bite(bite), read_tone(tone), 0, ""
            case Kind.WRONG_TONE | Kind.TOO_LATE:
                least = 1.0 if self._stage is Stage.LINES else 0.0
                return 0.0, 0.0, round(read_number(text, least, self._tones - 1.0, "2")), ""
            case _:
                return 0.0, 0.0, 0, " ".join(text.split())[:_LONGEST_NOTE]


def _kinds(stage: Stage) -> list[tuple[Kind, str]]:
    lines = stage is Stage.LINES
    kinds = {
        Kind.TEMPERATURE: say("the bath temperature was read"),
        Kind.CHECK_PATCH: say("a check patch was read"),
        Kind.WRONG_TONE: say("varnish on the wrong lines")
        if lines
        else say("varnish on the wrong tone"),
        Kind.TOO_LATE: say("varnish came too late"),
        Kind.NOTE: say("a note"),
    }
    if stage is not Stage.TONES:
        del kinds[Kind.CHECK_PATCH]
    return list(kinds.items())


def _how(kind: Kind, stage: Stage) -> str:
    if stage is Stage.LINES and kind in {Kind.WRONG_TONE, Kind.TOO_LATE}:
        return {
            Kind.WRONG_TONE: say(
                "The depth of the lines that were covered by mistake: 1 for the finest. Varnish"
                " stays; the order follows."
            ),
            Kind.TOO_LATE: say(
                "The depth of the lines that should have been covered before this bite: 1 for the"
                " finest."
            ),
        }[kind]
    return {
        Kind.TEMPERATURE: say(
            "Its temperature, such as {example}.", example=write_temperature(21.5)
        ),
        Kind.CHECK_PATCH: say(
            "Its bite and the tone it prints, such as {bite}; {tone}",
            bite=write_bite(120.0),
            tone=write_tone(56.0),
        ),
        Kind.WRONG_TONE: say(
            "The tone that was covered by mistake, by its number. Varnish stays; the order"
            " follows, and a later grain can darken it."
        ),
        Kind.TOO_LATE: say("The tone that should have been covered before this bite."),
        Kind.NOTE: say("Whatever should be remembered of this plate."),
    }[kind]
