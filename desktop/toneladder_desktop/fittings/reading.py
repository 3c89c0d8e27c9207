"""A window to read in: keys, sources, cautions. It waits for nothing and blocks nothing."""

from html import escape

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QTextBrowser, QVBoxLayout, QWidget

from toneladder_desktop.drawing.style import FAR, WIDE
from toneladder_desktop.fittings.apart import Apart

_WIDTH, _MOST = 560, 520


class ReadingWindow(Apart):
    """One text under one title; Esc closes it."""

    def __init__(self, title: str, html: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.text = QTextBrowser(self)
        self.text.setAccessibleName(title)
        self.text.setOpenExternalLinks(True)
        self.text.setHtml(html)
        self.text.setFrameShape(QFrame.Shape.NoFrame)
        self.text.document().setDocumentMargin(FAR)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.addWidget(self.text)
        set_wide = self.text.document().clone()
        set_wide.setTextWidth(_WIDTH)
        self.resize(_WIDTH, min(round(set_wide.size().height()) + WIDE, _MOST))


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
    return f"<h3>{escape(title)}</h3>{as_paragraphs(sentences)}"


def as_paragraphs(sentences: list[str]) -> str:
    """One sentence below the other."""
    return "".join(f"<p style='margin:0 0 8px 0'>{escape(line)}</p>" for line in sentences)
