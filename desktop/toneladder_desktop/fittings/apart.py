"""A window apart from the bench, which a screen reader is told is one."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QShowEvent
from PySide6.QtWidgets import QDialog, QPushButton, QWidget


class Apart(QDialog):
    """Stands beside its parent, asks nothing, and has no button that Enter presses from afar.

    A plain widget that is shown as a window has no role that a screen reader could tell of.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent, Qt.WindowType.Window)

    def showEvent(self, event: QShowEvent) -> None:
        """Enter belongs to what has the keys, and the place on the screen to the desktop."""
        for button in self.findChildren(QPushButton):
            button.setAutoDefault(False)
        QWidget.showEvent(self, event)  # a dialog would move itself over its parent

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc closes it."""
        if event.key() == Qt.Key.Key_Escape:
            self.close()
        else:
            event.ignore()
