"""What is this number: a control that tells what its figure means and what it rests on."""

from html import escape

from PySide6.QtWidgets import QWidget

from toneladder.handbook.numbers import number

_EXPLANATION, _NUMBER = "explanation", "number"


def explain(control: QWidget, name: str) -> None:
    """Let a control tell of the number of that name: to a resting pointer and to a reader.

    Raises
    ------
    KeyError
        No number is called so.
    """
    text = number(name).text
    keeper = control.focusProxy() or control
    keeper.setProperty(_EXPLANATION, text)
    keeper.setAccessibleDescription(text)
    control.setProperty(_NUMBER, name)
    control.setToolTip(as_tip(text))


def explain_anew(window: QWidget) -> None:
    """Have every control of a window tell its number as numbers are written now."""
    for control in window.findChildren(QWidget):
        if name := control.property(_NUMBER):
            explain(control, name)


def explanation_of(keeper: QWidget) -> str:
    """What a control tells of its number; nothing if it was given nothing to tell."""
    return str(keeper.property(_EXPLANATION) or "")


def as_tip(text: str) -> str:
    """The same where a pointer rests: as rich text, which Qt breaks into lines."""
    return f"<p>{escape(text)}</p>"
