"""Quiet words above the paper: one sentence, and what can be done about it."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QWidget

from toneladder.wording import say
from toneladder_desktop.drawing.style import APART, NEAR


class Notice(QWidget):
    """One sentence above the paper, with what can be done about it; it never takes the keys."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("notice")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.sentence = QLabel(self)
        self.sentence.setWordWrap(True)
        self.sentence.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self._buttons: list[QPushButton] = []
        self.close_button = QPushButton(say("Put away"), self)
        self.close_button.clicked.connect(self.put_away)
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
    ) -> None:
        """Show the sentence and a button for each act; an act puts the sentence away."""
        self._clear()
        self.sentence.setText(sentence)
        self.setAccessibleName(sentence)
        for text, act in acts:
            button = QPushButton(text, self)
            button.clicked.connect(lambda _on=False, act=act: self._act(act))
            self._row.insertWidget(self._row.count() - 1, button)
            self._buttons.append(button)
        self.close_button.setText(put_away or say("Put away"))
        self.show()

    def put_away(self) -> None:
        """Nothing to say any more."""
        self._clear()
        self.hide()

    def _act(self, act: Callable[[], object]) -> None:
        self.put_away()
        act()

    def _clear(self) -> None:
        for button in self._buttons:
            button.hide()
            button.deleteLater()
        self._buttons.clear()
