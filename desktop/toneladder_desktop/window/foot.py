"""The foot of the bench: the day, and at its end what is done with it."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from toneladder.wording import say
from toneladder_desktop.drawing.style import APART, NEAR

_LEAST_WIDTH = 142


class DayBar(QWidget):
    """The day at the left, the acts at the right, where the work ends."""

    sheets_wanted = Signal()
    tank_wanted = Signal()

    def __init__(self, day: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.act = QPushButton(say("Sheets to print"), self)
        self.act.setProperty("act", True)
        self.act.setProperty("large", True)
        self.act.clicked.connect(self.sheets_wanted)
        self.tank = QPushButton(say("At the tank"), self)
        self.tank.setProperty("large", True)
        self.tank.clicked.connect(self.tank_wanted)
        acts = QVBoxLayout()
        acts.setSpacing(NEAR)
        acts.addStretch(1)
        acts.addWidget(self.act)
        acts.addWidget(self.tank)
        acts.addStretch(1)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, APART, 0)
        row.setSpacing(NEAR)
        row.addWidget(day, 1)
        row.addLayout(acts)
        self._widen()

    def tell_bite(self, words: str) -> None:
        """A bite that is under way, or nothing."""
        self.tank.setText(words or say("At the tank"))
        self._widen()

    def _widen(self) -> None:
        """Both as wide as the longer words; never narrower again, or the day would twitch."""
        acts = (self.act, self.tank)
        wide = max(_LEAST_WIDTH, *(max(act.sizeHint().width(), act.minimumWidth()) for act in acts))
        for act in acts:
            act.setFixedWidth(wide)
