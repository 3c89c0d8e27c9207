"""Words on the window: shown as they are, never taken for markup."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QWidget


class Label(QLabel):
    """A label whose words may come from anybody, such as the name of a file."""

    def __init__(self, text: str | QWidget | None = None, parent: QWidget | None = None) -> None:
        if isinstance(text, str):
            super().__init__(text, parent)
        else:
            super().__init__(text)
        self.setTextFormat(Qt.TextFormat.PlainText)
