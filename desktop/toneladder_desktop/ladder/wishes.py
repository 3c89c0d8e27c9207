"""What a hand or a key on the ladder asks of the plate."""

from math import isclose
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from toneladder.tones.values import FEWEST_TONES, MOST_TONES
from toneladder_desktop.ladder.content import Content, HeldBite, HeldParting, Peg, Side
from toneladder_desktop.ladder.moving import Grip, value_at

if TYPE_CHECKING:
    from toneladder.plate.values import Plate


class Wishes(QObject):
    """Says what is wanted, in the plate's own terms; it changes nothing.

    Signals
    -------
    count_wanted(int)
        So many tones, white included.
    parting_moved(float, float)
        The parting at the first printed lightness L* shall be held at the second.
    bite_held(int, float)
        The tone, by its number as asked for, shall bite so many seconds in all.
    let_go(object)
        A ``HeldParting`` or ``HeldBite`` shall follow again; None: every peg.
    """

    count_wanted = Signal(int)
    parting_moved = Signal(float, float)
    bite_held = Signal(int, float)
    let_go = Signal(object)

    def hold(self, content: Content, peg: Peg, value: float) -> None:
        """Hold a peg of ``content`` at another lightness or total bite."""
        if peg.side is Side.PARTING:
            self.parting_moved.emit(content.value(peg), value)
        else:
            self.bite_held.emit(content.rungs[peg.step].asked, value)

    def release(self, content: Content, peg: Peg) -> None:
        """Let a peg follow again, if it is held."""
        if content.is_held(peg):
            self.let_go.emit(_hold_of(content, peg))

    def as_before(self, grip: Grip, before: "Plate", content: Content) -> None:
        """Bring the plate back to where it was before the hand took the peg."""
        if not grip.before.is_held(grip.taken):
            self.release(content, grip.peg)
        elif grip.peg.side is Side.PARTING:
            was = grip.before.value(grip.taken)
            held = before.tones.held_partings
            exact = next((p for p in held if isclose(p, was, abs_tol=1e-6)), was)
            self.parting_moved.emit(content.value(grip.peg), exact)
        else:
            self.bite_held.emit(grip.asked, dict(before.tones.held_bites)[grip.asked])

    def more_tones(self, content: Content, by: int) -> None:
        """Ask for more or fewer tones, as many as there may be."""
        count = min(max(content.asked_tones + by, FEWEST_TONES), MOST_TONES)
        if count != content.asked_tones:
            self.count_wanted.emit(count)


def knows(plate: "Plate", grip: Grip) -> bool:
    """Whether ``plate`` holds the gripped peg where the hand holds it."""
    value = value_at(grip.peg.side, grip.reading)
    if grip.peg.side is Side.PARTING:
        return any(isclose(value, held, abs_tol=1e-6) for held in plate.tones.held_partings)
    return dict(plate.tones.held_bites).get(grip.asked) == value


def _hold_of(content: Content, peg: Peg) -> HeldParting | HeldBite:
    if peg.side is Side.PARTING:
        return HeldParting(content.value(peg))
    return HeldBite(content.rungs[peg.step].asked)
