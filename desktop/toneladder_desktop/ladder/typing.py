"""A peg's value typed instead of dragged."""

from collections.abc import Callable

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QLineEdit, QWidget

from toneladder.errors import QuantityError
from toneladder.quantities import Manner, read_bite, read_tone, tone_figure, write_bite
from toneladder.quantities.typed import outside
from toneladder.wording import say
from toneladder_desktop.ladder.content import Content, Peg, Side
from toneladder_desktop.ladder.layout import PegPlace
from toneladder_desktop.ladder.moving import Limits
from toneladder_desktop.ladder.words import name_of, parting_tone

WIDTH, HEIGHT = 118, 28


def read_peg(text: str, side: Side, limits: Limits) -> int:
    """The reading that somebody typed: a tone, or a total bite with its units.

    Raises
    ------
    QuantityError
        It cannot be read, or lies outside the limits; the sentence says what to write.
    """
    if side is Side.BITE:
        return round(read_bite(text, least_s=limits.least, most_s=limits.most))
    reading = round(10.0 * (100.0 - read_tone(text)))
    if not limits.holds(reading):
        least, most = (tone_figure(100.0 - end / 10.0) for end in (limits.least, limits.most))
        raise outside(text, least, most)
    return reading


class PegField(QLineEdit):
    """A small field beside a peg; Enter takes what is written, Esc leaves all as it was."""

    def __init__(
        self,
        ladder: QWidget,
        take: Callable[[Peg, int], object],
        say_fault: Callable[[str], object],
    ) -> None:
        super().__init__(ladder)
        self._ladder, self._take, self._say_fault = ladder, take, say_fault
        self._peg = Peg(Side.BITE, 1)
        self._limits = Limits(0, 0)
        self.returnPressed.connect(self._read)
        self.textEdited.connect(lambda _: self._mark(""))
        self.hide()

    def open_at(self, content: Content, place: PegPlace, limits: Limits, manner: Manner) -> None:
        """Show the peg's value, ready to be typed over."""
        self._peg, self._limits = place.peg, limits
        self.setAccessibleName(name_of(place.peg))
        if place.peg.side is Side.PARTING:
            self.setText(parting_tone(content, place.peg.step, manner))
            left = place.body.right + 6.0
        else:
            self.setText(write_bite(content.value(place.peg)))
            left = place.body.x - 16.0 - WIDTH
        top = min(max(place.body.middle - HEIGHT / 2.0, 0.0), self._ladder.height() - HEIGHT)
        self.setGeometry(QRect(round(left), round(top), WIDTH, HEIGHT))
        self._mark("")
        self.selectAll()
        self.show()
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc closes; no key but the field's own goes on to the ladder."""
        if event.key() == Qt.Key.Key_Escape:
            self._close()
            return
        super().keyPressEvent(event)
        event.accept()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Whoever goes elsewhere leaves the peg as it was."""
        super().focusOutEvent(event)
        if event.reason() is not Qt.FocusReason.PopupFocusReason:
            self.hide()

    def _read(self) -> None:
        try:
            reading = read_peg(self.text(), self._peg.side, self._limits)
        except QuantityError as fault:
            self._mark(str(fault))
            return
        peg = self._peg
        self._close()
        self._take(peg, reading)

    def _mark(self, fault: str) -> None:
        self.setProperty("fault", bool(fault))
        self.style().polish(self)
        self.setAccessibleDescription(fault or say("Enter takes it, Esc leaves it as it was"))
        self._say_fault(fault)

    def _close(self) -> None:
        self._mark("")
        self._ladder.setFocus(Qt.FocusReason.OtherFocusReason)
        self.hide()
