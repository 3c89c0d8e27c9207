"""A field for a typed quantity: read as people write it, its fault said under it."""

from collections.abc import Callable
from typing import Generic, TypeVar

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from toneladder.errors import ToneLadderError
from toneladder_desktop.drawing.style import TIGHT, Type, font
from toneladder_desktop.fittings.explaining import explanation_of
from toneladder_desktop.fittings.label import Label
from toneladder_desktop.fittings.undo_through import UndoThrough

Value = TypeVar("Value")


class Field(QWidget, Generic[Value]):
    """A question, a line to type the answer, and what is wrong with it.

    The answer is taken by Enter or when the field is left, Esc brings the old one back. ``take``
    does what has to be done with it; it may refuse by raising, as ``read`` may, and then the
    sentence stands under the field and nothing has changed.
    """

    faulted = Signal(str)

    def __init__(
        self,
        question: str,
        read: Callable[[str], Value],
        take: Callable[[Value], object],
        *,
        hint: str = "",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._read, self._take, self._shown = read, take, ""
        self.line = QLineEdit(self)
        self.line.setAccessibleName(question)
        self.line.setPlaceholderText(hint)
        self.line.installEventFilter(self)
        UndoThrough(self.line, lambda: self.line.text() == self._shown)
        self.line.returnPressed.connect(self.commit)
        self.label = Label(question, self)
        self.label.setFont(font(Type.SMALL))
        self.label.setWordWrap(True)
        self.label.setAlignment(Qt.AlignmentFlag.AlignBottom)
        self.label.setBuddy(self.line)
        self.label.setVisible(bool(question))
        self.fault = Label(self)
        self.fault.setFont(font(Type.SMALL))
        self.fault.setWordWrap(True)
        self.fault.hide()
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(TIGHT)
        for part in (self.label, self.line, self.fault):
            rows.addWidget(part)
        self.setFocusProxy(self.line)

    def ask(self, question: str) -> None:
        """Put the question in other words, such as another unit."""
        if question != self.label.text():
            self.label.setText(question)
            self.line.setAccessibleName(question)

    def show_value(self, text: str) -> None:
        """What the plate says now; it replaces what is being typed only if it differs."""
        if text != self._shown:
            self._shown = text
            self.line.setText(text)
            self._say("")

    def commit(self) -> None:
        """Take what was typed, if it differs from what the plate says."""
        text = self.line.text()
        if text.strip() == self._shown.strip():
            self._say("")
            return
        try:
            self._take(self._read(text))
        except ToneLadderError as fault:
            self._say(str(fault))
            return
        self._say("")
        self.line.setText(self._shown)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter ends here, taken or refused: it never does the act of the page round about."""
        if event.key() not in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            super().keyPressEvent(event)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Leaving takes the answer, Esc brings the old one back."""
        if isinstance(event, QKeyEvent) and event.type() is QEvent.Type.KeyPress:
            if event.key() == Qt.Key.Key_Escape and self.line.text() != self._shown:
                self.line.setText(self._shown)
                self._say("")
                return True
        elif isinstance(event, QFocusEvent) and event.type() is QEvent.Type.FocusOut:
            self.commit()
        return super().eventFilter(watched, event)

    def _say(self, sentence: str) -> None:
        self.fault.setText(sentence)
        self.fault.setVisible(bool(sentence))
        self.line.setAccessibleDescription(sentence or explanation_of(self.line))
        self.line.setProperty("fault", bool(sentence))
        self.line.style().polish(self.line)
        if sentence:
            self.faulted.emit(sentence)
