"""What the figures on the ladder rest on, told where the pointer rests."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QHelpEvent
from PySide6.QtWidgets import QToolTip, QWidget

from toneladder.handbook.numbers import number
from toneladder_desktop.fittings.explaining import as_tip
from toneladder_desktop.ladder.content import Content
from toneladder_desktop.ladder.layout import Layout

Shown = tuple[Content, Layout]


class Figures(QObject):
    """Explains the total bites of a ladder; ``shown`` tells what stands on it, and where."""

    def __init__(self, ladder: QWidget, shown: Callable[[], Shown | None]) -> None:
        super().__init__(ladder)
        self._ladder, self._shown = ladder, shown
        ladder.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """A pointer rests on a figure."""
        if event.type() is not QEvent.Type.ToolTip or not isinstance(event, QHelpEvent):
            return super().eventFilter(watched, event)
        text = self.told_at(event.pos().x(), event.pos().y())
        if text:
            QToolTip.showText(event.globalPos(), as_tip(text), self._ladder)
        return bool(text)

    def told_at(self, x: float, y: float) -> str:
        """The explanation of the figure at a place of the ladder; nothing where there is none."""
        shown = self._shown()
        if shown is None:
            return ""
        content, layout = shown
        columns = layout.columns
        on_bites = columns.text <= x <= columns.text_end
        on_row = any(rung.row.y <= y < rung.row.bottom for rung in layout.rungs[1:])
        return number(source_of(content)).text if on_bites and on_row else ""


def source_of(content: Content) -> str:
    """Name of the number that tells what the bites of a ladder rest on."""
    return "curve.untested" if content.untested else "curve.tested"
