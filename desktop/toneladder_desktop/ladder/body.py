"""The ladder as it is seen: what it shows, what is picked out on it, where its pegs are."""

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from toneladder.quantities import Manner
from toneladder.wording import say
from toneladder_desktop.drawing.ruling import Ruling
from toneladder_desktop.drawing.style import LADDER, colours_of
from toneladder_desktop.ladder.content import Content, Peg, Side
from toneladder_desktop.ladder.figures import Figures, Shown
from toneladder_desktop.ladder.hand import Hand
from toneladder_desktop.ladder.layout import Layout, lay_out
from toneladder_desktop.ladder.links import Links
from toneladder_desktop.ladder.moving import regripped, value_at
from toneladder_desktop.ladder.painting import paint_empty, paint_ladder
from toneladder_desktop.ladder.pegs import Pegs
from toneladder_desktop.ladder.rails import Showing
from toneladder_desktop.ladder.read_out import Picked
from toneladder_desktop.ladder.wishes import knows
from toneladder_desktop.ladder.words import standing_of, title_of

if TYPE_CHECKING:
    from toneladder.bite.values import BiteCurve
    from toneladder.plan.choosing import Chosen
    from toneladder.plan.planning import Plan
    from toneladder.plan.preparing import Prepared
    from toneladder.plate.values import Plate

LEAST_HEIGHT: Final = 480


class LadderBody(QWidget):
    """Shows the tones of a plate between their two rails."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._content: Content | None = None
        self._layout: Layout | None = None
        self._plate: Plate | None = None
        self._peg = Peg(Side.PARTING, 1)
        self._picked = Picked()
        self._manner = Manner()
        self._hand, self._pegs, self._links = Hand(self), Pegs(self), Links(self)
        self.figures = Figures(self, self._shown)
        self.setMinimumSize(LADDER, LEAST_HEIGHT)
        self.setAccessibleName(say("Tone ladder"))

    def show_plan(
        self,
        plate: "Plate",
        prepared: "Prepared",
        chosen: "Chosen",
        plan: "Plan | None",
        curve: "BiteCurve",
    ) -> None:
        """Show a plate as it was worked out; a peg in hand stays in the hand.

        Places and minutes are left open without ``plan``, or with one of other tones.
        """
        from toneladder_desktop.ladder.making import content_of

        content = content_of(plate, prepared, chosen, plan, curve)
        self._plate = plate
        grip = self._hand.grip
        if grip is not None:
            self._hand.grip = grip = regripped(grip, content)
        if grip is not None and not knows(plate, grip):
            content = content.with_value(grip.peg, value_at(grip.peg.side, grip.reading))
        self._show(content)

    def clear(self) -> None:
        """Show an empty bench."""
        self._hand.leave()
        self._content = self._layout = self._plate = None
        self._hand.show(None, None)
        self._picked = Picked(key_shown=self._picked.key_shown)
        self._links.clear()
        self._pegs.clear()
        self.setAccessibleDescription("")
        self.update()

    def show_manner(self, manner: Manner) -> None:
        """Write numbers in another manner."""
        if manner != self._manner:
            self._manner = manner
            self._arrange()

    def show_key(self, *, shown: bool) -> None:
        """Explain the ladder at its foot, or do so no longer."""
        self._pick_out(replace(self._picked, key_shown=shown))

    def choose_tone(self, tone: int | None) -> None:
        """Pick a tone out, because it was chosen elsewhere."""
        if tone is not None:
            self._peg = peg_of(tone, self._peg.side)
        self._pick_out(replace(self._picked, chosen=tone, told=tone))

    def point_at(self, lightness: float | None) -> None:
        """Mark the printed lightness L* that the picture asks for under the pointer."""
        self._pick_out(replace(self._picked, pointed_lightness=lightness))

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw the ladder."""
        ruling, colours = Ruling(QPainter(self)), colours_of(self)
        ruling.fill(0.0, 0.0, self.width(), self.height(), colours.ground)
        if self._content is None or self._layout is None:
            paint_empty(ruling, self.width(), colours)
        else:
            showing = Showing(colours, self._picked, self._manner)
            paint_ladder(ruling, self._content, self._layout, showing, self._hand.grip)
        ruling.painter.end()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Place everything anew."""
        super().resizeEvent(event)
        self._arrange()

    def _shown(self) -> Shown | None:
        content, layout = self._content, self._layout
        return None if content is None or layout is None else (content, layout)

    def _show(self, content: Content) -> None:
        self._content = content
        self.setAccessibleDescription(f"{title_of(content)}, {standing_of(content)}")
        self._picked = self._picked.within(content.count)
        self._peg = Peg(self._peg.side, min(self._peg.step, content.count - 1))
        self._arrange()

    def _arrange(self) -> None:
        if self._content is None:
            return
        grip = self._hand.grip
        end_s = grip.before.end_s if grip is not None else None
        self._layout = lay_out(self._content, self.width(), self.height(), end_s)
        self._hand.show(self._content, self._layout)
        self._pegs.show(self._content, self._layout, self._peg, self._manner)
        in_hand = grip.peg if grip is not None else None
        self._pick_out(replace(self._picked, in_hand=in_hand))

    def _pick_out(self, picked: Picked) -> None:
        self._picked = replace(picked, focused=self._pegs.focused())
        if self._content is not None and self._layout is not None:
            self._links.place(self._content, self._layout, self._picked)
        self.update()


def peg_of(tone: int, side: Side) -> Peg:
    """The peg that keys move when a tone is chosen; white has none, so its parting stands in."""
    return Peg(side if tone else Side.PARTING, max(tone, 1))
