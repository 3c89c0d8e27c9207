"""The day: when each step is painted, dries, goes down into the bath and comes up again."""

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QFocusEvent,
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QToolTip, QWidget

from toneladder.order.values import Order
from toneladder.quantities import write_bite, write_minutes
from toneladder.wording import say
from toneladder_desktop.day.layout import DayLayout, Texts, lay_out_day
from toneladder_desktop.day.painting import paint_day, paint_head
from toneladder_desktop.day.words import (
    clock,
    day_words,
    heads_of,
    start_minutes,
    step_words,
)
from toneladder_desktop.drawing.ruling import Ruling, width_of
from toneladder_desktop.drawing.style import DAY, Type, colours_of

if TYPE_CHECKING:
    from toneladder.plan.planning import Plan
    from toneladder.plate.values import Plate

FOLDED: Final = 60
"""Below this height only the head is shown."""


class DayView(QWidget):
    """The plunge line: bench above, bath below, time to scale.

    Signals
    -------
    step_chosen(int)
        A step was chosen, from 1.
    """

    step_chosen = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._order: Order | None = None
        self._start: str | None = None
        self._layout: DayLayout | None = None
        self._chosen: int | None = None
        self._pending, self._bitten = False, ""
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumHeight(24)
        self.setAccessibleName(say("The day"))

    def show_plan(
        self,
        plate: "Plate",
        _prepared: object,
        _chosen: object,
        plan: "Plan | None",
        _curve: object,
    ) -> None:
        """Show the day of a plan; without one the last day stays, in pencil."""
        self._start = plate.start
        self._pending = plan is None
        if plan is not None:
            self._order = plan.order
        self._arrange()

    def clear(self) -> None:
        """Show no day."""
        self._order, self._chosen = None, None
        self._arrange()

    def tell_bitten(self, words: str) -> None:
        """When the plate was bitten, or nothing."""
        self._bitten = words
        self._arrange()

    def choose_step(self, step: int | None) -> None:
        """Frame a step, because it was chosen elsewhere."""
        self._chosen = step
        self._arrange()

    def sizeHint(self) -> QSize:
        """As wide as there is room."""
        return QSize(640, DAY)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw the day."""
        ruling, colours = Ruling(QPainter(self)), colours_of(self)
        paint_head(ruling, self._heads(), self.width(), colours)
        if self._layout is not None and self.height() >= FOLDED:
            paint_day(ruling, self._layout, self._chosen, colours, pending=self._pending)
            if self.hasFocus():
                box = self._layout.bench
                low = self._layout.bath.bottom - box.y + 10.0
                ruling.frame(box.x - 6.0, box.y - 6.0, box.width + 12.0, low, colours.accent, 2.0)
        ruling.painter.end()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Place everything anew."""
        super().resizeEvent(event)
        self._arrange()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Left and Right go from step to step, Home and End to the first and the last."""
        last = len(self._order.steps) if self._order is not None else 0
        goals = {
            Qt.Key.Key_Left: (self._chosen or 2) - 1,
            Qt.Key.Key_Right: (self._chosen or 0) + 1,
            Qt.Key.Key_Home: 1,
            Qt.Key.Key_End: last,
        }
        goal = goals.get(Qt.Key(event.key()))
        if goal is None or not last or event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier:
            super().keyPressEvent(event)
            return
        self._choose(min(max(goal, 1), last))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Choose the step under the pointer."""
        step = self._step_at(event.position().x(), event.position().y())
        if event.button() is Qt.MouseButton.LeftButton and step is not None:
            self._choose(step)
        else:
            super().mousePressEvent(event)

    def event(self, event: QEvent) -> bool:
        """Say in words what lies under a resting pointer."""
        if isinstance(event, QHelpEvent) and event.type() is QEvent.Type.ToolTip:
            step = self._step_at(event.pos().x(), event.pos().y())
            text = "" if step is None or self._pending else self._said(step)
            QToolTip.showText(event.globalPos(), text, self)
            return True
        return super().event(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show that the keys are here."""
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Show that the keys have gone."""
        super().focusOutEvent(event)
        self.update()

    def _heads(self) -> tuple[str, ...]:
        if self._order is None:
            return (say("nothing to do yet"),)
        if self._pending:
            return (say("being worked out …"),)
        heads = heads_of(self._order, self._start)
        if not self._bitten:
            return heads
        told = (say("{bitten} · {plan}", bitten=self._bitten, plan=head) for head in heads)
        return (*told, self._bitten)

    def _arrange(self) -> None:
        order = self._order
        self._layout = None
        self.setAccessibleDescription("")
        if order is not None and order.day:
            if self._chosen is not None and self._chosen > len(order.steps):
                self._chosen = None
            self._layout = lay_out_day(order, self._texts(order), self.width(), self._chosen)
            if not self._pending:
                self.setAccessibleDescription(day_words(order, self._start))
        self.update()

    def _texts(self, order: Order) -> Texts:
        start = start_minutes(self._start)
        return Texts(
            lifts=tuple(clock(start, step.lift_after_s / 60.0) for step in order.steps),
            bites=tuple(write_bite(step.bite_s) for step in order.steps),
            start_min=start,
            mark=lambda minutes: write_minutes(minutes) if start is None else clock(start, minutes),
            mark_width=lambda text: width_of(text, Type.SMALL),
            lift_width=lambda text: width_of(text, Type.STRONG),
            bite_width=lambda text: width_of(text, Type.SMALL),
            number_width=lambda text: width_of(text, Type.STRONG),
        )

    def _step_at(self, x: float, y: float) -> int | None:
        layout = self._layout
        if layout is None or not layout.bench.y - 6.0 <= y or self.height() < FOLDED:
            return None
        return layout.step_at(x)

    def _said(self, step: int) -> str:
        return "" if self._order is None else step_words(self._order.steps[step - 1], self._start)

    def _choose(self, step: int) -> None:
        if step == self._chosen:
            return
        self.choose_step(step)
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, self._said(step)))
        self.step_chosen.emit(step)
