"""Undo and redo are the plate's, also with the keys in a field, unless something is half typed."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QWidget

_KEYS = (QKeySequence.StandardKey.Undo, QKeySequence.StandardKey.Redo)


class UndoThrough(QObject):
    """Keeps a field from claiming the keys of undo while ``settled`` says nothing is typed."""

    def __init__(self, field: QWidget, settled: Callable[[], bool]) -> None:
        super().__init__(field)
        self._settled = settled
        field.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Let undo and redo go on to the window."""
        if (
            isinstance(event, QKeyEvent)
            and event.type() is QEvent.Type.ShortcutOverride
            and any(event.matches(key) for key in _KEYS)
            and self._settled()
        ):
            event.ignore()
            return True
        return super().eventFilter(watched, event)
