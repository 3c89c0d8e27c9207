"""The menus of the bench: what is in them, their keys, and which of them wait for a plate."""

from collections.abc import Callable, Iterable

from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMainWindow, QMenu

Key = QKeySequence.StandardKey | str


class Menus:
    """Builds menus in the window and remembers every action with a key."""

    def __init__(self, window: QMainWindow) -> None:
        self._window = window
        self.actions: list[QAction] = []
        self.waiting: list[QAction] = []
        self.undo, self.redo, self.key = QAction(window), QAction(window), QAction(window)
        _give(self.undo, QKeySequence.StandardKey.Undo)
        _give(self.redo, QKeySequence.StandardKey.Redo)
        self.actions += (self.undo, self.redo)

    def menu(self, text: str) -> QMenu:
        """A new menu in the menu bar."""
        return self._window.menuBar().addMenu(text)

    def add(
        self,
        menu: QMenu,
        text: str,
        act: Callable[[], object],
        key: Key | None = None,
        *,
        needs_plate: bool = True,
    ) -> QAction:
        """A new line of ``menu``."""
        action = QAction(text, self._window)
        action.triggered.connect(lambda _on=False: act())
        if key is not None:
            _give(action, key)
        menu.addAction(action)
        self.actions.append(action)
        if needs_plate:
            self.waiting.append(action)
        return action

    def add_action(self, menu: QMenu, action: QAction, key: Key) -> None:
        """A line that stands in another menu too; it waits for a plate."""
        _give(action, key)
        menu.addAction(action)
        self.actions.append(action)
        self.waiting.append(action)

    def add_group(self, menu: QMenu, group: QActionGroup, keys: Iterable[Key | None] = ()) -> None:
        """The choices of a group as lines of ``menu``."""
        for action, key in zip(group.actions(), list(keys) or [None] * 99, strict=False):
            if key is not None:
                _give(action, key)
            menu.addAction(action)
            self.actions.append(action)
            self.waiting.append(action)

    def enable(self, *, plate: bool) -> None:
        """Grey what needs a plate, if there is none."""
        for action in self.waiting:
            action.setEnabled(plate)

    def shortcuts(self) -> list[tuple[str, str]]:
        """Every line that has a key: its words, and the key as it is written here."""
        shown = QKeySequence.SequenceFormat.NativeText
        return [
            (plain(action.text()), action.shortcut().toString(shown))
            for action in self.actions
            if not action.shortcut().isEmpty()
        ]


def _give(action: QAction, key: Key) -> None:
    """The key, or all the keys by which this desktop knows an act."""
    if isinstance(key, str):
        action.setShortcut(QKeySequence(key))
    else:
        action.setShortcuts(key)


def plain(text: str) -> str:
    """A menu's words without the sign for its letter and without dots.

    >>> plain("Save &as …")
    'Save as'
    """
    return text.replace("&", "").removesuffix("…").strip()
