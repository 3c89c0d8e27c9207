"""The tone ladder: what tones the plate has, where they part, how long each one bites."""

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QKeyEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QWidget

from toneladder.quantities import Manner
from toneladder.wording import say
from toneladder_desktop import ladder_keys as keys
from toneladder_desktop.ladder_content import Content, Peg, Side
from toneladder_desktop.ladder_hand import Hand
from toneladder_desktop.ladder_layout import Layout, lay_out
from toneladder_desktop.ladder_links import Links
from toneladder_desktop.ladder_moving import (
    limits_of,
    reading_of,
    regripped,
    stepped,
    typed_limits_of,
    value_at,
)
from toneladder_desktop.ladder_painting import paint_empty, paint_ladder
from toneladder_desktop.ladder_pegs import Pegs
from toneladder_desktop.ladder_rails import Showing
from toneladder_desktop.ladder_read_out import Picked
from toneladder_desktop.ladder_typing import PegField
from toneladder_desktop.ladder_wishes import Wishes, knows
from toneladder_desktop.ladder_words import spoken, standing_of, title_of
from toneladder_desktop.ruling import Ruling
from toneladder_desktop.style import LADDER, colours_of

if TYPE_CHECKING:
    from toneladder.bite.values import BiteCurve
    from toneladder.plan.choosing import Chosen
    from toneladder.plan.planning import Plan
    from toneladder.plan.preparing import Prepared
    from toneladder.plate.values import Plate

REST_MS: Final = 500
"""The hand rested this long: what it changed is spoken."""

LEAST_HEIGHT: Final = 480


class LadderView(QWidget):
    """Shows the tones of a plate and lets a hand or keys move their pegs.

    It changes nothing itself: it says what is wanted, and is shown the plate that follows.

    Signals
    -------
    count_wanted, parting_moved, bite_held, let_go
        As ``Wishes`` says.
    tone_chosen(int), tone_pointed(int)
        A tone was chosen; the pointer is on a tone, or on none (-1).
    hand_on(bool)
        A hand has taken a peg, or has left it: what lies between is one movement.
    key_hidden()
        The explanation at the foot was read.
    """

    count_wanted = Signal(int)
    parting_moved = Signal(float, float)
    bite_held = Signal(int, float)
    let_go = Signal(object)
    tone_chosen = Signal(int)
    tone_pointed = Signal(int)
    hand_on = Signal(bool)
    key_hidden = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._content: Content | None = None
        self._layout: Layout | None = None
        self._plate: Plate | None = None
        self._plate_before: Plate | None = None
        self._peg = Peg(Side.PARTING, 1)
        self._picked = Picked()
        self._manner = Manner()
        self._wishes = Wishes(self)
        self._wishes.count_wanted.connect(self.count_wanted)
        self._wishes.parting_moved.connect(self.parting_moved)
        self._wishes.bite_held.connect(self.bite_held)
        self._wishes.let_go.connect(self.let_go)
        self._hand = Hand(self)
        self._hand.took.connect(self._taken)
        self._hand.went.connect(self._want)
        self._hand.left.connect(self._left)
        self._hand.picked.connect(self._choose_found)
        self._hand.pointed.connect(self._point)
        self._hand.doubled.connect(self._release)
        self._pegs = Pegs(self)
        self._pegs.wanted.connect(self._want)
        self._pegs.reached.connect(self._reached)
        self._pegs.left.connect(lambda: self._pick_out(self._picked))
        self._links = Links(self, self._let_all_go, self._make_one, self._hide_key)
        self._field = PegField(self, self._want, self._say_fault)
        self._rest = QTimer(self, singleShot=True, interval=REST_MS)
        self._rest.timeout.connect(self._announce)
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

        ``plan`` None leaves places and minutes open until they are known.
        """
        from toneladder_desktop.ladder_making import content_of

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
        self._manner = manner
        self._arrange()

    def show_key(self, *, shown: bool) -> None:
        """Explain the ladder at its foot, or do so no longer."""
        self._pick_out(replace(self._picked, key_shown=shown))

    def choose_tone(self, tone: int | None) -> None:
        """Pick a tone out, because it was chosen elsewhere."""
        if tone is not None:
            self._peg = _peg_of(tone, self._peg.side)
        self._pick_out(replace(self._picked, chosen=tone))

    def point_at(self, lightness: float | None) -> None:
        """Mark the printed lightness L* that the picture asks for under the pointer."""
        self._pick_out(replace(self._picked, pointed_lightness=lightness))

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """Draw the ladder."""
        ruling, colours = Ruling(QPainter(self)), colours_of(self)
        ruling.fill(0.0, 0.0, self.width(), self.height(), colours.ground)
        if self._content is None or self._layout is None:
            paint_empty(ruling, self.width(), colours)
        else:
            showing = Showing(colours, self._picked, self._manner)
            paint_ladder(ruling, self._content, self._layout, showing, self._hand.grip)
        ruling.painter.end()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """Place everything anew."""
        super().resizeEvent(event)
        self._arrange()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Esc takes back what a hand is doing; the other keys are listed in ``ladder_keys``."""
        act = keys.act_of(event)
        if event.key() == Qt.Key.Key_Escape and self._hand.grip is not None:
            self._as_before()
        elif act is None or self._content is None:
            super().keyPressEvent(event)
        else:
            self._act(act, self._content)

    def _show(self, content: Content) -> None:
        self._content = content
        self.setAccessibleDescription(f"{title_of(content)}, {standing_of(content)}")
        chosen = self._picked.chosen
        if chosen is not None and chosen >= content.count:
            self._picked = replace(self._picked, chosen=None)
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

    def _want(self, peg: Peg, reading: int) -> None:
        """A hand, a key or a screen reader wants ``peg`` elsewhere."""
        content = self._content
        if content is None or reading == reading_of(content, peg):
            self.update()
            return
        if self._picked.before is None:
            self._picked = replace(self._picked, before=content)
        value = value_at(peg.side, reading)
        self._content = content.with_value(peg, value)
        self._arrange()
        self._rest.start()
        self._wishes.hold(content, peg, value)

    def _taken(self, peg: Peg) -> None:
        self._choose(peg, peg.step)
        self._picked = replace(self._picked, before=self._content)
        self._plate_before = self._plate
        self._pegs[peg].setFocus(Qt.FocusReason.MouseFocusReason)
        self.hand_on.emit(True)  # noqa: FBT003 - the signal says on or off

    def _left(self) -> None:
        self.hand_on.emit(False)  # noqa: FBT003 - the signal says on or off
        self._arrange()

    def _as_before(self) -> None:
        """Take a movement back while the hand still holds the peg."""
        grip, content, plate = self._hand.drop(), self._content, self._plate_before
        if grip is not None and content is not None and plate is not None:
            self._content = grip.before
            if grip.reading != reading_of(grip.before, grip.taken):
                self._wishes.as_before(grip, plate, content)
            self._left()

    def _choose(self, peg: Peg, tone: int) -> None:
        if peg != self._peg:
            self._picked = replace(self._picked, before=None)
        self._peg = peg
        self._pegs.choose(peg)
        told = tone != self._picked.chosen
        self._pick_out(replace(self._picked, chosen=tone))
        if told:
            self.tone_chosen.emit(tone)

    def _reached(self, peg: Peg) -> None:
        """A peg got the keys, by Tab or from a screen reader."""
        white = self._picked.chosen == 0 and peg == _peg_of(0, peg.side)
        self._choose(peg, 0 if white else peg.step)

    def _choose_found(self, found: Peg | int) -> None:
        if isinstance(found, Peg):
            self._go(found, found.step)
        else:
            self._choose(_peg_of(found, self._peg.side), found)

    def _point(self, found: Peg | int | None) -> None:
        if found == self._picked.pointed:
            return
        self._pick_out(replace(self._picked, pointed=found))
        on_peg = isinstance(found, Peg)
        self.setCursor(Qt.CursorShape.SizeVerCursor if on_peg else Qt.CursorShape.ArrowCursor)
        tone = found.step if isinstance(found, Peg) else found
        self.tone_pointed.emit(-1 if tone is None else tone)

    def _act(self, act: keys.Act, content: Content) -> None:
        peg, chosen = self._peg, self._picked.chosen
        match act:
            case keys.Move(steps):
                self._want(peg, stepped(content, peg, steps))
            case keys.Doing.LIGHTEST:
                self._want(peg, limits_of(content, peg).least)
            case keys.Doing.DARKEST:
                self._want(peg, limits_of(content, peg).most)
            case keys.ToSide(side):
                self._go(Peg(side, peg.step), peg.step)
            case keys.ToRung(by):
                tone = min(max((0 if chosen == 0 else peg.step) + by, 0), content.count - 1)
                self._go(_peg_of(tone, peg.side), tone)
            case keys.Tones(by):
                self._wishes.more_tones(content, by)
            case keys.Doing.TYPE:
                self._type(content, peg)
            case keys.Doing.LET_GO:
                self._release(peg)
            case keys.Doing.LET_ALL_GO:
                self._let_all_go()

    def _go(self, peg: Peg, tone: int) -> None:
        self._choose(peg, tone)
        self._pegs[peg].setFocus(Qt.FocusReason.OtherFocusReason)

    def _type(self, content: Content, peg: Peg) -> None:
        if self._layout is not None:
            limits = typed_limits_of(content, peg)
            self._field.open_at(content, self._layout.place(peg), limits, self._manner)

    def _release(self, peg: Peg) -> None:
        if self._content is not None:
            self._wishes.release(self._content, peg)

    def _say_fault(self, fault: str) -> None:
        self._pick_out(replace(self._picked, fault=fault))

    def _let_all_go(self) -> None:
        if self._content is not None and self._content.held:
            self.let_go.emit(None)

    def _make_one(self) -> None:
        if self._content is not None:
            self.count_wanted.emit(self._content.count - 1)

    def _hide_key(self) -> None:
        self.show_key(shown=False)
        self.key_hidden.emit()

    def _announce(self) -> None:
        if self._content is not None:
            said = spoken(self._content, self._peg, self._manner)
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, said))


def _peg_of(tone: int, side: Side) -> Peg:
    """The peg that keys move when a tone is chosen; white has none, so its parting stands in."""
    return Peg(side if tone else Side.PARTING, max(tone, 1))
