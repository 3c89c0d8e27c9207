"""How many tones? The same piece of the picture in 2 to 10 tones, with what each would cost."""

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent, QPainter, QPaintEvent, QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from toneladder.quantities import Manner, read_number
from toneladder.wording import say
from toneladder_desktop.bench.background import Background
from toneladder_desktop.bench.settings import LEAST_GAIN
from toneladder_desktop.drawing.ruling import Ruling
from toneladder_desktop.drawing.style import APART, FAR, HAIR, NEAR, TIGHT, Type, colours_of, font
from toneladder_desktop.fittings.explaining import explain
from toneladder_desktop.fittings.field import Field
from toneladder_desktop.fittings.label import Label
from toneladder_desktop.how_many.board import Board
from toneladder_desktop.how_many.content import Content, content_of
from toneladder_desktop.how_many.words import act_of, explained, subtitle_of
from toneladder_desktop.how_many.work import Compare, Floor, Offered, compare, nearest_first

if TYPE_CHECKING:
    from toneladder.bite.values import BiteCurve
    from toneladder.plan.preparing import Prepared
    from toneladder.plate.values import Plate

_SLOT = "how many"
_GAIN = 196


class HowMany(QWidget):
    """A sheet on which the etcher sees numbers of tones side by side, and takes one.

    It changes nothing itself.

    Signals
    -------
    taken(int)
        So many tones are wanted.
    left()
        The plate is to stay as it was.
    gain_wanted(float)
        One more tone must bring so much darkness, from now on.
    failed(str)
        A number could not be worked out: the sentence to show.
    """

    taken = Signal(int)
    left = Signal()
    gain_wanted = Signal(float)
    failed = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(say("How many tones?"))
        self._content: Content | None = None
        self._asked: Compare | None = None
        self._manner = Manner()
        self._background = Background(compare, self)
        self._background.answered.connect(self._answered)
        self._background.failed.connect(lambda _request, sentence: self.failed.emit(sentence))
        self.title, self.subtitle = Label(say("How many tones?"), self), Label(self)
        self.reason, self.meaning = Label(self), Label(self)
        self.gain = Field(
            say("Enough: one more brings less darkness than"),
            _read_gain,
            self._ask_gain,
            parent=self,
        )
        self.gain.line.setAccessibleName(say("Enough if one more tone brings less darkness than"))
        explain(self.gain, "tones.enough")
        self.leave = QPushButton(say("Leave as it was"), self)
        self.take = QPushButton(self)
        self.board = Board(self)
        self.board.focused.connect(self._focus_on)
        self.board.more_wanted.connect(self._show_more)
        self.leave.clicked.connect(self.left)
        self.take.clicked.connect(self._take)
        self._lay_out()

    def show_plate(
        self,
        plate: "Plate",
        prepared: "Prepared",
        curve: "BiteCurve",
        *,
        least_gain: float | None = None,
    ) -> None:
        """Begin with a plate: its own number of tones in focus, the others worked out beside.

        ``prepared`` is its picture as its brush sees it, and ``curve`` what its bites are read
        from. The frame stays where it was if the picture is the same. ``least_gain`` is the
        darkness that one more tone must bring to be worth its work; None takes the usual one.
        """
        from toneladder.plan.comparing import LEAST_GAIN as USUAL

        self._asked = Compare(plate, prepared, curve, ())
        gain = USUAL if least_gain is None else least_gain
        self._show(content_of(plate, curve.standing, gain, self._manner))
        self._ask()

    def show_manner(self, manner: Manner) -> None:
        """Write numbers in another manner, from the next plate on."""
        self._manner = manner

    def stop(self) -> None:
        """Work nothing out any more, and end the thread; for when the window closes."""
        self._background.close()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter takes, but for one typed into a field, which ends there; Esc leaves."""
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self._take()
        elif event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def showEvent(self, event: QShowEvent) -> None:
        """The keys come to the columns."""
        super().showEvent(event)
        self.board.setFocus(Qt.FocusReason.OtherFocusReason)

    def hideEvent(self, event: QHideEvent) -> None:
        """Nobody waits for the costs any more."""
        super().hideEvent(event)
        if not event.spontaneous():
            self._background.give_up(_SLOT)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """A rule between the board and the words below it."""
        ruling, colours = Ruling(QPainter(self)), colours_of(self)
        ruling.fill(0.0, 0.0, self.width(), self.height(), colours.ground)
        ruling.level(0.0, self.width(), self.board.geometry().bottom() + 1.5, colours.rule)
        ruling.painter.end()

    def _show(self, content: Content) -> None:
        self._content = content
        if self._asked is not None:
            self.board.show_content(content, self._asked.prepared.cleaned)
        self.subtitle.setText(subtitle_of(content))
        self.reason.setText(content.enough.reason if content.enough else say("Working it out …"))
        self.meaning.setText(explained(content))
        self.take.setText(act_of(content))
        self.gain.show_value(self._manner.number(content.least_gain, 2))

    def _ask(self) -> None:
        """Have worked out what is not known yet, the columns near the plate's own first."""
        content, asked = self._content, self._asked
        if content is None or asked is None:
            return
        missing = content.missing
        if missing:
            counts = nearest_first(missing, content.own)
            request = Compare(asked.plate, asked.prepared, asked.curve, counts)
            self._background.ask(_SLOT, request)

    def _answered(self, _request: object, answer: Offered | Floor) -> None:
        if self._content is not None:
            self._show(self._content.with_answer(answer))

    def _focus_on(self, column: int) -> None:
        if self._content is not None:
            self._show(self._content.focused(column))

    def _ask_gain(self, least_gain: float) -> None:
        if self._content is not None:
            self._show(self._content.asking(least_gain))
            self.gain_wanted.emit(least_gain)

    def _show_more(self, more: int) -> None:
        if self._content is not None:
            self._show(self._content.up_to(self._content.counts[-1] + more))
            self._ask()

    def _take(self) -> None:
        if self._content is not None:
            self.taken.emit(self._content.counts[self._content.focus])

    def _lay_out(self) -> None:
        self.title.setFont(font(Type.TITLE))
        self.reason.setFont(font(Type.ANSWER))
        self.take.setProperty("act", True)
        for label in (self.subtitle, self.reason, self.meaning):
            label.setWordWrap(True)
        for label in (self.subtitle, self.meaning):
            label.setObjectName("pencil")
            label.setFont(font(Type.SMALL))
        for button in (self.leave, self.take):
            button.setAutoDefault(True)
            button.setProperty("large", True)
        head = QHBoxLayout()
        head.setContentsMargins(FAR, NEAR, FAR, NEAR)
        head.setSpacing(FAR)
        head.addWidget(self.title)
        head.addWidget(self.subtitle, 1)
        words = QVBoxLayout()
        words.setSpacing(TIGHT)
        words.addWidget(self.reason)
        words.addWidget(self.meaning)
        foot = QHBoxLayout()
        foot.setContentsMargins(FAR, NEAR, FAR, APART)
        foot.setSpacing(APART)
        foot.addLayout(words, 1)
        self.gain.setFixedWidth(_GAIN)
        foot.addWidget(self.gain, alignment=Qt.AlignmentFlag.AlignVCenter)
        foot.addWidget(self.leave, alignment=Qt.AlignmentFlag.AlignVCenter)
        foot.addWidget(self.take, alignment=Qt.AlignmentFlag.AlignVCenter)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(0)
        rows.addLayout(head)
        rows.addWidget(self.board, 1)
        rows.addSpacing(HAIR)
        rows.addLayout(foot)


def _read_gain(text: str) -> float:
    return read_number(text, *LEAST_GAIN, "0.1")
