"""The tone ladder: what tones the plate has, where they part, how long each one bites."""

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QKeyEvent
from PySide6.QtWidgets import QWidget

from toneladder_desktop.ladder import keys
from toneladder_desktop.ladder.body import LadderBody, peg_of
from toneladder_desktop.ladder.content import Content, Peg
from toneladder_desktop.ladder.moving import (
    limits_of,
    reading_of,
    stepped,
    typed_limits_of,
    value_at,
)
from toneladder_desktop.ladder.typing import PegField
from toneladder_desktop.ladder.wishes import Wishes
from toneladder_desktop.ladder.words import spoken

if TYPE_CHECKING:
    from toneladder.plate.values import Plate

REST_MS: Final = 500
"""The hand rested this long: what it changed is spoken."""


class LadderView(LadderBody):
    """Lets a hand, keys and a screen reader move the pegs of the ladder.

    It changes nothing itself: it says what is wanted, and is shown the plate that follows.

    Signals
    -------
    count_wanted, parting_moved, bite_held, let_go
        As ``Wishes`` says.
    tone_chosen(int), tone_pointed(int)
        A tone was chosen, or none (-1); the pointer is on a tone, or on none (-1).
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
        self._plate_before: Plate | None = None
        self._wishes = Wishes(self)
        self._field = PegField(self, self._typed, self._say_fault)
        self._rest = QTimer(self, singleShot=True, interval=REST_MS)
        self._rest.timeout.connect(self._announce)
        self._connect()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc takes back what a hand is doing, or else chooses nothing; see ``keys`` for others."""
        act, escape = keys.act_of(event), event.key() == Qt.Key.Key_Escape
        if escape and self._hand.grip is not None:
            self._as_before()
        elif escape and self._picked.chosen is not None:
            self._choose_nothing()
        elif act is None or self._content is None:
            super().keyPressEvent(event)
        else:
            self._act(act, self._content)

    def _connect(self) -> None:
        self._wishes.count_wanted.connect(self.count_wanted)
        self._wishes.parting_moved.connect(self.parting_moved)
        self._wishes.bite_held.connect(self.bite_held)
        self._wishes.let_go.connect(self.let_go)
        self._hand.took.connect(self._taken)
        self._hand.went.connect(self._want)
        self._hand.left.connect(self._left)
        self._hand.picked.connect(self._pressed)
        self._hand.pointed.connect(self._point)
        self._hand.doubled.connect(self._release)
        self._pegs.wanted.connect(self._want)
        self._pegs.reached.connect(self._reached)
        self._pegs.left.connect(self._keys_gone)
        self._links.all_go.clicked.connect(self._let_all_go)
        self._links.key.clicked.connect(self._hide_key)
        self._links.make_one.connect(self._make_one)

    def _want(self, peg: Peg, reading: int) -> None:
        """A hand, a key or a screen reader wants ``peg`` elsewhere."""
        if self._content is None or reading == reading_of(self._content, peg):
            self.update()
        else:
            self._hold(self._content, peg, reading)

    def _hold(self, content: Content, peg: Peg, reading: int) -> None:
        if self._picked.before is None:
            self._picked = replace(self._picked, before=content)
        value = value_at(peg.side, reading)
        self._content = content.with_value(peg, value)
        self._arrange()
        self._rest.start()
        self._wishes.hold(content, peg, value)

    def _taken(self, peg: Peg) -> None:
        self._choose(peg)
        self._picked = replace(self._picked, before=self._content)
        self._plate_before = self._plate
        self._arrange()
        self.hand_on.emit(True)

    def _left(self) -> None:
        self.hand_on.emit(False)
        self._arrange()

    def _as_before(self) -> None:
        """Take a movement back while the hand still holds the peg."""
        grip, content, plate = self._hand.drop(), self._content, self._plate_before
        if grip is not None and content is not None and plate is not None:
            self._content = grip.before
            if grip.reading != reading_of(grip.before, grip.taken):
                self._wishes.as_before(grip, plate, content)
            self._left()

    def _pressed(self, found: Peg | int | None) -> None:
        if found is None:
            self._choose_nothing()
        else:
            self._choose(found)

    def _choose_nothing(self) -> None:
        if self._picked.chosen is not None or self._picked.told is not None:
            self._pick_out(replace(self._picked, chosen=None, told=None, before=None))
            self.tone_chosen.emit(-1)

    def _choose(self, found: Peg | int) -> None:
        """Choose a peg, or a tone with whatever peg belongs to it, and give it the keys."""
        peg = found if isinstance(found, Peg) else peg_of(found, self._peg.side)
        tone = found.step if isinstance(found, Peg) else found
        if peg != self._peg:
            self._picked = replace(self._picked, before=None)
        self._peg = peg
        self._pegs.choose(peg)
        self._pegs[peg].setFocus(Qt.FocusReason.OtherFocusReason)
        changed = tone != self._picked.chosen
        self._pick_out(replace(self._picked, chosen=tone, told=found))
        if changed:
            self.tone_chosen.emit(tone)

    def _reached(self, peg: Peg) -> None:
        """A peg got the keys, by Tab or from a screen reader."""
        if peg != self._peg or self._picked.told is None:
            self._choose(peg)
        else:
            self._pick_out(self._picked)

    def _keys_gone(self) -> None:
        self._pick_out(self._picked)

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
                self._choose(Peg(side, peg.step))
            case keys.ToRung(by):
                tone = min(max((0 if chosen == 0 else peg.step) + by, 0), content.count - 1)
                self._choose(Peg(peg.side, tone) if tone else 0)
            case keys.Tones(by):
                self._wishes.more_tones(content, by)
            case keys.Doing.TYPE:
                self._type(content, peg)
            case keys.Doing.LET_GO:
                self._release(peg)
            case keys.Doing.LET_ALL_GO:
                self._let_all_go()

    def _type(self, content: Content, peg: Peg) -> None:
        if self._layout is not None:
            limits = typed_limits_of(content, peg)
            self._field.open_at(content, self._layout.place(peg), limits, self._manner)

    def _typed(self, peg: Peg, reading: int) -> None:
        content = self._content
        if content is not None and peg in content.pegs():
            self._hold(content, peg, reading)

    def _say_fault(self, fault: str) -> None:
        self._pick_out(replace(self._picked, fault=fault))

    def _release(self, peg: Peg) -> None:
        if self._content is not None:
            self._picked = replace(self._picked, before=self._content)
            self._wishes.release(self._content, peg)

    def _let_all_go(self) -> None:
        if self._content is not None and self._content.held + self._content.set_aside:
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
