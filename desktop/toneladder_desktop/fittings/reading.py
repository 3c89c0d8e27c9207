"""A window to read in: keys, sources, cautions. It waits for nothing and blocks nothing."""

from html import escape

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QTextBrowser, QVBoxLayout, QWidget

from toneladder_desktop.drawing.style import NEAR


class ReadingWindow(QWidget):
    """One text under one title; Esc closes it."""

    def __init__(self, title: str, html: str, parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self.setWindowTitle(title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.text = QTextBrowser(self)
        self.text.setAccessibleName(title)
        self.text.setOpenExternalLinks(True)
        self.text.setHtml(html)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(NEAR, NEAR, NEAR, NEAR)
        rows.addWidget(self.text)
        self.resize(560, 520)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Esc closes it."""
        if event.key() == Qt.Key.Key_Escape:
            self.close()
        else:
            super().keyPressEvent(event)


def as_table(rows: list[tuple[str, str]]) -> str:
    """Two columns."""
    lines = (
        f"<tr><td style='padding:3px 24px 3px 0'>{escape(left)}</td>"
        f"<td style='padding:3px 0'>{escape(right)}</td></tr>"
        for left, right in rows
    )
    return f"<table>{''.join(lines)}</table>"


def as_list(title: str, sentences: list[str]) -> str:
    """Sentences under a small title; nothing if there are none."""
    if not sentences:
        return ""
    lines = "".join(f"<li style='margin-bottom:6px'>{escape(line)}</li>" for line in sentences)
    return f"<h3>{escape(title)}</h3><ul>{lines}</ul>"
