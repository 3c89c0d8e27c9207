"""What each key means on the ladder."""

from dataclasses import dataclass
from enum import StrEnum

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from toneladder_desktop.ladder.content import Side

MANY = 10
"""Small steps that an arrow moves while Shift is down."""


class Doing(StrEnum):
    """What a key does that needs no number."""

    LIGHTEST = "to the upper limit"
    DARKEST = "to the lower limit"
    TYPE = "type a value"
    LET_GO = "let this peg go"
    LET_ALL_GO = "let every peg go"


@dataclass(frozen=True, slots=True)
class Move:
    """Move the peg by small steps, downwards if positive."""

    steps: int


@dataclass(frozen=True, slots=True)
class ToRung:
    """Go to another rung, downwards if positive."""

    by: int


@dataclass(frozen=True, slots=True)
class ToSide:
    """Go to the rung's parting or to its bite."""

    side: Side


@dataclass(frozen=True, slots=True)
class Tones:
    """Ask for more or fewer tones."""

    by: int


Act = Doing | Move | ToRung | ToSide | Tones

_PLAIN: dict[Qt.Key, Act] = {
    Qt.Key.Key_Up: Move(-1),
    Qt.Key.Key_Down: Move(1),
    Qt.Key.Key_Left: ToSide(Side.PARTING),
    Qt.Key.Key_Right: ToSide(Side.BITE),
    Qt.Key.Key_PageUp: ToRung(-1),
    Qt.Key.Key_PageDown: ToRung(1),
    Qt.Key.Key_Home: Doing.LIGHTEST,
    Qt.Key.Key_End: Doing.DARKEST,
    Qt.Key.Key_Return: Doing.TYPE,
    Qt.Key.Key_Enter: Doing.TYPE,
    Qt.Key.Key_Delete: Doing.LET_GO,
    Qt.Key.Key_Backspace: Doing.LET_GO,
}
_SHIFTED: dict[Qt.Key, Act] = {
    Qt.Key.Key_Up: Move(-MANY),
    Qt.Key.Key_Down: Move(MANY),
    Qt.Key.Key_Delete: Doing.LET_ALL_GO,
}
_SIGNS: dict[str, Act] = {
    "+": Tones(1),
    "-": Tones(-1),
    "\N{MINUS SIGN}": Tones(-1),
}
_IDLE = Qt.KeyboardModifier.KeypadModifier


def act_of(event: QKeyEvent) -> Act | None:
    """What a pressed key means, or None if it is not the ladder's."""
    modifiers = event.modifiers() & ~_IDLE
    key = Qt.Key(event.key())
    if modifiers in (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ShiftModifier):
        if event.text() in _SIGNS:
            return _SIGNS[event.text()]
        shifted = modifiers == Qt.KeyboardModifier.ShiftModifier
        return (_SHIFTED if shifted else _PLAIN).get(key)
    return None
