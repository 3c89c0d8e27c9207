"""Pages that stand in the place of the bench's top for a while."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Generic, TypeVar

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QStackedWidget, QWidget

from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.bench.workings import Workings

V = TypeVar("V", bound=QWidget)


@dataclass(frozen=True, slots=True, eq=False)
class Room:
    """What every page has about it; ``say_error`` tells a sentence on the bench."""

    pages: QStackedWidget
    bench: Bench
    workings: Workings
    preferences: Preferences
    say_error: Callable[[str], object]


class PageDesk(QObject, Generic[V]):
    """One page for one bench; made when it is first wanted, left when a plate is laid."""

    def __init__(self, room: Room) -> None:
        super().__init__(room.pages)
        self._pages, self._bench, self._workings = room.pages, room.bench, room.workings
        self._preferences, self._say_error = room.preferences, room.say_error
        self._view: V | None = None
        room.bench.laid.connect(self.close)

    def close(self) -> None:
        """Back to the bench; the plate is as it was."""
        if self._is_open():
            self._pages.setCurrentIndex(0)

    def _is_open(self) -> bool:
        return self._view is not None and self._pages.currentWidget() is self._view

    def _made(self) -> V:
        if self._view is None:
            self._view = self._make()
            self._pages.addWidget(self._view)
        return self._view

    def _turn_to(self) -> None:
        self._pages.setCurrentWidget(self._made())

    def _make(self) -> V:
        """The page, joined up."""
        raise NotImplementedError
