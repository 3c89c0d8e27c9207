"""Quiet words above the paper: one sentence, and what can be done about it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from toneladder.wording import say
from toneladder_desktop.drawing.style import APART, NEAR
from toneladder_desktop.fittings.label import Label


@dataclass(frozen=True, slots=True)
class _Said:
    """What is said, what can be done, and whether it stays until somebody answers."""

    sentence: str
    acts: tuple[tuple[str, Callable[[], object]], ...]
    put_away: str
    lasting: bool
    safe: bool


class Notice(QWidget):
    """One sentence above the paper, with what can be done about it; it never takes the keys.

    A screen reader says it when it comes. What is lasting stays until somebody answers it: it
    comes back after whatever else had to be said.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("notice")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._said: _Said | None = None
        self._lasting: _Said | None = None
        self.sentence = Label(self)
        self.sentence.setWordWrap(True)
        self.sentence.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self._buttons: list[QPushButton] = []
        self.close_button = QPushButton(say("Put away"), self)
        self.close_button.clicked.connect(self._answered)
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(APART + 2, NEAR, APART, NEAR)
        self._row.setSpacing(NEAR)
        self._row.addWidget(self.sentence, 1)
        self._row.addWidget(self.close_button)
        self.hide()

    def tell(
        self,
        sentence: str,
        acts: Sequence[tuple[str, Callable[[], object]]] = (),
        *,
        put_away: str = "",
        lasting: bool = False,
        safe: bool = False,
    ) -> None:
        """Show the sentence and a button for each act; an act puts the sentence away.

        If ``safe``, putting it away is the main answer: the acts cannot be wanted often.
        """
        said = _Said(sentence, tuple(acts), put_away, lasting, safe)
        if lasting:
            self._lasting = said
        self._say(said)

    def put_away(self) -> None:
        """Nothing to say any more, but what is lasting."""
        self._clear()
        self._said = None
        if self._lasting is None:
            self.hide()
        else:
            self._say(self._lasting)

    def _say(self, said: _Said) -> None:
        if said is self._said:
            return
        self._clear()
        self._said = said
        self.sentence.setText(said.sentence)
        self.setAccessibleName(said.sentence)
        for text, act in said.acts:
            button = QPushButton(text, self)
            button.clicked.connect(lambda _on=False, act=act: self._act(act))
            self._row.insertWidget(self._row.count() - 1, button)
            self._buttons.append(button)
        self.close_button.setText(said.put_away or say("Put away"))
        self.close_button.setProperty("act", said.safe)
        self.close_button.style().unpolish(self.close_button)
        self.close_button.style().polish(self.close_button)
        self.show()
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, said.sentence))

    def _answered(self) -> None:
        if self._said is self._lasting:
            self._lasting = None
        self.put_away()

    def _act(self, act: Callable[[], object]) -> None:
        self._answered()
        act()

    def _clear(self) -> None:
        for button in self._buttons:
            button.hide()
            button.deleteLater()
        self._buttons.clear()
