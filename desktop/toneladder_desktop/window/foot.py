"""The foot of the bench: the day, and at its end the one act."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from toneladder.wording import say
from toneladder_desktop.drawing.style import APART, NEAR

_WIDTH = 142


class DayBar(QWidget):
    """The day at the left, the act at the right, where the work ends."""

    sheets_wanted = Signal()

    def __init__(self, day: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.act = QPushButton(say("Sheets to print"), self)
        self.act.setProperty("act", True)
        self.act.setProperty("large", True)
        self.act.setFixedWidth(_WIDTH)
        self.act.clicked.connect(self.sheets_wanted)
        acts = QVBoxLayout()
        acts.addStretch(1)
        acts.addWidget(self.act)
        acts.addStretch(1)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, APART, 0)
        row.setSpacing(NEAR)
        row.addWidget(day, 1)
        row.addLayout(acts)
