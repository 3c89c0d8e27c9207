"""Opens the page on which the plate is laid on the picture, in the place of the bench's top."""

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QStackedWidget

from toneladder.picture.values import Laying, PlateSize
from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.bench.workings import Workings

if TYPE_CHECKING:
    from toneladder_desktop.laying.hand import Act
    from toneladder_desktop.laying.view import LayingView

_QUARTER = 90.0


class LayingDesk(QObject):
    """One page for one bench; what is done on it is done on the bench at once, and undone there."""

    def __init__(
        self,
        pages: QStackedWidget,
        bench: Bench,
        workings: Workings,
        preferences: Preferences,
        say_error: Callable[[str], object],
    ) -> None:
        super().__init__(pages)
        self._pages, self._bench, self._workings = pages, bench, workings
        self._preferences, self._say_error = preferences, say_error
        self._view: LayingView | None = None
        self._before: tuple[Laying, PlateSize] | None = None
        self._copied = ""
        bench.laid.connect(self.close)
        bench.plate_changed.connect(self._follow)
        workings.copied.connect(self._show_copy)

    def open(self) -> None:
        """Show the page for the open plate."""
        plate = self._bench.plate
        if plate is None:
            self._say_error(say("There is no picture yet. Open one first."))
            return
        view = self._made()
        self._before = plate.laying, plate.size
        if self._copied != plate.picture.sha256:
            view.show_copy(QImage())
            self._workings.copy()
        self._pages.setCurrentWidget(view)
        self._follow()

    def close(self) -> None:
        """Back to the bench."""
        if self._pages.currentWidget() is self._view:
            self._pages.setCurrentIndex(0)

    def _follow(self, _plate: object = None) -> None:
        plate = self._bench.plate
        if self._view is None or plate is None or self._pages.currentWidget() is not self._view:
            return
        from toneladder_desktop.laying.hand import Lain

        picture = plate.picture
        lain = Lain(plate.laying, plate.size, (picture.width, picture.height))
        self._view.show_lain(lain, self._preferences.now.manner)

    def _show_copy(self, sha256: str, copy: QImage) -> None:
        if self._view is not None:
            self._copied = sha256
            self._view.show_copy(copy)

    def _act(self, act: "Act") -> None:
        plate = self._bench.plate
        if plate is not None:
            self._bench.change(act.sentence, replace(plate, laying=act.laying), act.series)

    def _leave(self) -> None:
        plate = self._bench.plate
        if plate is not None and self._before is not None:
            laying, size = self._before
            self._bench.change(
                say("Lay the plate as it was"), replace(plate, laying=laying, size=size)
            )
        self.close()

    def _made(self) -> "LayingView":
        if self._view is None:
            from toneladder_desktop.laying.view import LayingView

            self._view = LayingView(self._pages)
            self._view.acted.connect(self._act)
            self._view.done.connect(self.close)
            self._view.left.connect(self._leave)
            self._view.board.hand_on.connect(self._bench.hold)
            self._pages.addWidget(self._view)
        return self._view
