"""Opens the page on which the plate is laid on the picture, in the place of the bench's top."""

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtGui import QImage

from toneladder.picture.values import Laying, PlateSize
from toneladder.wording import say
from toneladder_desktop.window.page_desk import PageDesk, Room

if TYPE_CHECKING:
    from toneladder_desktop.laying.hand import Act
    from toneladder_desktop.laying.view import LayingView

_QUARTER = 90.0


class LayingDesk(PageDesk["LayingView"]):
    """One page for one bench; what is done on it is done on the bench at once, and undone there."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self._before: tuple[Laying, PlateSize] | None = None
        self._copied = ""
        room.bench.plate_changed.connect(self._follow)
        room.workings.copied.connect(self._show_copy)

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
        self._turn_to()
        self._follow()

    def _follow(self, _plate: object = None) -> None:
        plate = self._bench.plate
        if self._view is None or plate is None or not self._is_open():
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

    def _make(self) -> "LayingView":
        from toneladder_desktop.laying.view import LayingView

        view = LayingView(self._pages)
        view.acted.connect(self._act)
        view.done.connect(self.close)
        view.left.connect(self._leave)
        view.board.hand_on.connect(self._bench.hold)
        return view
