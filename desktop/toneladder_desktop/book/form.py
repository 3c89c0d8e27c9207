"""A form: questions about one frozen value, each answer replacing one of its fields."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from toneladder_desktop.drawing.style import NEAR, Type, font
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.field import Field
from toneladder_desktop.fittings.label import Label

if TYPE_CHECKING:
    from _typeshed import DataclassInstance


class Form(QWidget):
    """Questions one below the other, or side by side.

    Signals
    -------
    changed(value)
        The value with another answer in it.
    kept(value), left()
        The button that keeps it was pressed, and nothing is wrong; or the one that leaves it.
    """

    changed = Signal(object)
    kept = Signal(object)
    left = Signal()

    def __init__(self, value: "DataclassInstance", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._value = value
        self._shown: list[tuple[str, Callable[[Any], object]]] = []
        self.fields: dict[str, Field[Any]] = {}
        self.choices: dict[str, Choice[Any]] = {}
        self.rows = QVBoxLayout(self)
        self.rows.setContentsMargins(0, 0, 0, 0)
        self.rows.setSpacing(NEAR)
        self.head = Label(self)
        self.head.setFont(font(Type.HEAD))
        self.rows.addWidget(self.head)

    @property
    def value(self) -> Any:  # noqa: ANN401 - of the kind that was shown
        """The answers so far."""
        return self._value

    def add_field(
        self,
        name: str,
        question: str,
        read: Callable[[str], object],
        write: Callable[[Any], str] = str,
        *,
        hint: str = "",
    ) -> Field[Any]:
        """A question with a line to type the answer, which ``write`` writes."""

        def take(answer: object) -> None:
            self._to(name, answer)

        field = self.fields[name] = Field(question, read, take, hint=hint, parent=self)
        self._shown.append((name, lambda answer: field.show_value(write(answer))))
        return field

    def add_choice(
        self, name: str, question: str, answers: Sequence[tuple[Any, str]]
    ) -> Choice[Any]:
        """A question with a list of answers."""

        def take(answer: object) -> None:
            self._to(name, answer)

        choice = self.choices[name] = Choice(question, answers, take, self)
        self._shown.append((name, choice.show_value))
        return choice

    def side_by_side(self, *parts: QWidget) -> None:
        """Parts of one row, tops level, each of the same width."""
        row = QHBoxLayout()
        row.setSpacing(NEAR)
        for part in parts:
            row.addWidget(part, 1, Qt.AlignmentFlag.AlignTop)
        self.rows.addLayout(row)

    def add_buttons(self, keep: str, leave: str) -> None:
        """What ends the form, at its foot."""
        self.keep_button, self.leave_button = QPushButton(keep, self), QPushButton(leave, self)
        self.keep_button.setProperty("act", True)
        self.keep_button.clicked.connect(self.keep)
        self.leave_button.clicked.connect(self.left)
        self.side_by_side(self.leave_button, self.keep_button)

    def show_value(self, value: "DataclassInstance") -> None:
        """Other answers."""
        self._value = value
        for name, show in self._shown:
            show(getattr(value, name))

    def keep(self) -> None:
        """Take what is typed; if a field is wrong, go there instead."""
        for field in self.fields.values():
            field.commit()
            if field.fault.text():
                field.line.setFocus()
                return
        self.kept.emit(self._value)

    def _to(self, name: str, answer: object) -> None:
        self.show_value(replace(self._value, **{name: answer}))
        self.changed.emit(self._value)


def plain(text: str) -> str:
    """Typed text as one line."""
    return " ".join(text.split())[:400]
