"""The bite curve as a widget: looked at, its rungs chosen and moved, by mouse and keys."""

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QWidget

from toneladder.order.rounding import hand_step, rounded
from toneladder.quantities import Manner
from toneladder.wording import say
from toneladder_desktop.curve.content import Content, Rung
from toneladder_desktop.curve.layout import Layout, lay_out
from toneladder_desktop.curve.painting import faded, paint
from toneladder_desktop.curve.words import told
from toneladder_desktop.drawing.ruling import Ruling
from toneladder_desktop.drawing.style import Type, colours_of


class CurveView(QWidget):
    """The curve with its patches, its band, and the plate's rungs on it.

    Signals
    -------
    chosen(int)
        A tone was picked out.
    bite_wanted(int, float)
        The tone shall bite so many seconds of the clock in all.
    hand_on(bool)
        A hand has taken a rung, or has let it go.
    """

    chosen = Signal(int)
    bite_wanted = Signal(int, float)
    hand_on = Signal(bool)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(say("Bite curve"))
        self.setMinimumSize(280, 220)
        self._content: Content | None = None
        self._layout: Layout | None = None
        self._manner = Manner()
        self._tone: int | None = None
        self._in_hand = False
        self._outdated = False

    @property
    def content(self) -> Content | None:
        """What is shown."""
        return self._content

    def show_content(self, content: Content | None, manner: Manner) -> None:
        """Show another curve, or none."""
        self._content, self._manner = content, manner
        tones = () if content is None else tuple(rung.tone for rung in content.rungs)
        if self._tone not in tones:
            self._tone = None
        self._lay_out()
        self._describe()

    def show_outdated(self, *, outdated: bool) -> None:
        """Grey the curve and say so while its table cannot be read; or no more."""
        if outdated != self._outdated:
            self._outdated = outdated
            self._describe()
            self.update()

    def pick(self, tone: int | None) -> None:
        """Pick a tone out, without a word to anybody."""
        if tone != self._tone:
            self._tone = tone
            self._describe()
            self.update()

    def read_out(self) -> str:
        """The line that tells of what is picked out, or that the curve is not of this table."""
        if self._outdated and self._content is not None:
            return say("curve of the last readable table")
        return "" if self._content is None else told(self._content, self._tone, self._manner)

    def sizeHint(self) -> QSize:
        """What room it would like."""
        return QSize(520, 340)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Everything moves with the size."""
        super().resizeEvent(event)
        self._lay_out()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw it."""
        colours = colours_of(self)
        ruling = Ruling(QPainter(self))
        if self._content is None or self._layout is None:
            words = say("The curve stands here as soon as the readings in the table give one.")
            ruling.words(16.0, self.height() / 2.0, words, Type.NOTE, colours.pencil)
            return
        drawn = faded(colours) if self._outdated else colours
        paint(ruling, self._content, self._layout, drawn, self._tone)
        ruling.words(
            self._layout.scales.field.x,
            14.0,
            self.read_out(),
            Type.SMALL,
            colours.ink,
            room=self.width() - self._layout.scales.field.x,
        )
        if self.hasFocus():
            ruling.frame(0, 0, self.width(), self.height(), colours.accent, 2.0)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Left and right go along the rungs; up and down bite shorter or longer."""
        rungs = () if self._content is None else self._content.rungs
        if not rungs:
            super().keyPressEvent(event)
            return
        at = next((k for k, rung in enumerate(rungs) if rung.tone == self._tone), -1)
        match event.key():
            case Qt.Key.Key_Right:
                self._choose(rungs[min(at + 1, len(rungs) - 1)].tone)
            case Qt.Key.Key_Left:
                self._choose(rungs[max(at - 1, 0)].tone)
            case Qt.Key.Key_Up if at >= 0:
                self._step(rungs, at, -1)
            case Qt.Key.Key_Down if at >= 0:
                self._step(rungs, at, 1)
            case _:
                super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take the rung under the pointer."""
        at = event.position()
        tone = None if self._layout is None else self._layout.chip_at(at.x(), at.y())
        if event.button() is Qt.MouseButton.LeftButton and tone is not None:
            self._choose(tone)
            self._in_hand = True
            self.hand_on.emit(True)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """A taken rung bites as long as the pointer says, in steps that a hand can time."""
        if not self._in_hand or self._content is None or self._layout is None:
            return
        rungs = self._content.rungs
        at = next((k for k, rung in enumerate(rungs) if rung.tone == self._tone), None)
        if at is not None:
            rate = rungs[at].bite_s / rungs[at].clock_s
            clock = self._layout.scales.bite_s(event.position().x()) / rate
            self._want(rungs, at, rounded(clock, dark=False))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go."""
        if self._in_hand and event.button() is Qt.MouseButton.LeftButton:
            self._in_hand = False
            self.hand_on.emit(False)

    def _step(self, rungs: tuple[Rung, ...], at: int, by: int) -> None:
        clock = rungs[at].clock_s
        step = hand_step(clock + 1e-6) if by > 0 else hand_step(clock - 1e-6)
        self._want(rungs, at, clock + by * step)

    def _want(self, rungs: tuple[Rung, ...], at: int, clock_s: float) -> None:
        """Ask for a bite that stays between its neighbours."""
        least = (rungs[at - 1].clock_s if at else 0.0) + hand_step(clock_s)
        most = rungs[at + 1].clock_s - hand_step(clock_s) if at + 1 < len(rungs) else clock_s
        if least <= clock_s <= most and clock_s != rungs[at].clock_s:
            self.bite_wanted.emit(rungs[at].tone, clock_s)

    def _choose(self, tone: int) -> None:
        if tone != self._tone:
            self.pick(tone)
            self.chosen.emit(tone)

    def _lay_out(self) -> None:
        content = self._content
        self._layout = None if content is None else lay_out(content, self.width(), self.height())
        self.update()

    def _describe(self) -> None:
        self.setAccessibleDescription(self.read_out())
        QAccessible.updateAccessibility(
            QAccessibleEvent(self, QAccessible.Event.DescriptionChanged)
        )
