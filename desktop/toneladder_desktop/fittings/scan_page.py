"""A page on which a scan is read: its head, its body, its acts at the foot."""

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLayout, QPushButton, QVBoxLayout, QWidget

from toneladder_desktop.drawing.style import APART, FAR, NEAR, Type, font
from toneladder_desktop.fittings.label import Label
from toneladder_desktop.fittings.notice import Notice


class ScanPage(QWidget):
    """Takes dropped files, leaves by Esc, and lays its parts out alike everywhere.

    ``scan_dropped(Path)`` is a file that was dropped; ``left()`` says that nothing is wanted.
    """

    scan_dropped = Signal(object)
    left = Signal()

    def __init__(self, title: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(title)
        self.setAcceptDrops(True)
        self.title, self.subtitle = Label(title, self), Label(self)
        self.title.setFont(font(Type.TITLE))
        self.subtitle.setWordWrap(True)
        self.notice = Notice(self)

    def arrange(
        self, body: QLayout, at_left: Sequence[QWidget], acts: Sequence[QPushButton]
    ) -> None:
        """Head, body, foot: at the foot's left what is opened or kept, at its right the acts."""
        head = QHBoxLayout()
        head.setContentsMargins(FAR, NEAR, FAR, NEAR)
        head.setSpacing(FAR)
        head.addWidget(self.title)
        head.addWidget(self.subtitle, 1)
        foot = QHBoxLayout()
        foot.setContentsMargins(FAR, NEAR, FAR, APART)
        foot.setSpacing(NEAR)
        for part in at_left:
            foot.addWidget(part, 1 if isinstance(part, QLabel) else 0)
        if not any(isinstance(part, QLabel) for part in at_left):
            foot.addStretch(1)
        for act in acts:
            foot.addWidget(act)
        for part in (*at_left, *acts):
            if isinstance(part, QPushButton):
                part.setAutoDefault(True)
                part.setProperty("large", True)
        acts[-1].setProperty("act", True)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(0)
        rows.addLayout(head)
        rows.addWidget(self.notice)
        rows.addLayout(body, 1)
        rows.addLayout(foot)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc leaves."""
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """A file may be dropped."""
        if any(url.isLocalFile() for url in event.mimeData().urls()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """The first file is taken for a scan."""
        files = [url for url in event.mimeData().urls() if url.isLocalFile()]
        if files:
            self.scan_dropped.emit(Path(files[0].toLocalFile()))
