"""One question before something is taken out of the book, answered with verbs."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QMessageBox, QWidget

from toneladder.wording import say


def ask_before(
    window: QWidget, question: str, told: str, verb: str, act: Callable[[], object]
) -> QMessageBox:
    """Ask; ``act`` is done if the button with the ``verb`` is pressed, and nothing else is."""
    box = QMessageBox(window)
    box.setWindowTitle(say("Studio book"))
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setText(question)
    box.setInformativeText(told)
    do = box.addButton(verb, QMessageBox.ButtonRole.DestructiveRole)
    leave = box.addButton(say("Leave it"), QMessageBox.ButtonRole.RejectRole)
    box.setDefaultButton(leave)
    box.setEscapeButton(leave)
    box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    do.clicked.connect(act)
    box.open()
    return box
