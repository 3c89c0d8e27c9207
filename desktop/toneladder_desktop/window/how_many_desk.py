"""Opens the sheet on which numbers of tones are compared, in the place of the bench's top."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from toneladder.wording import say
from toneladder_desktop.window.page_desk import PageDesk, Room

if TYPE_CHECKING:
    from toneladder_desktop.how_many.view import HowMany


class HowManyDesk(PageDesk["HowMany"]):
    """One sheet for one bench; it is made when it is first wanted."""

    def __init__(self, room: Room, take: Callable[[int], object]) -> None:
        super().__init__(room)
        self._take_number = take

    def open(self) -> None:
        """Show the sheet for the open plate."""
        plate, prepared = self._bench.plate, self._workings.prepared
        curve, chosen = self._workings.curve, self._workings.chosen
        glanced = prepared is not None and prepared.coarser > 1
        if plate is None or prepared is None or curve is None or chosen is None or glanced:
            self._say_error(say("The picture is still being looked at; try again in a moment."))
            return
        sheet = self._made()
        sheet.show_manner(self._preferences.now.manner)
        least_gain = self._preferences.now.least_gain
        sheet.show_plate(plate, prepared, curve, least_gain=least_gain)
        self._turn_to()

    def stop(self) -> None:
        """The window closes."""
        if self._view is not None:
            self._view.stop()

    def _make(self) -> "HowMany":
        from toneladder_desktop.how_many.view import HowMany

        sheet = HowMany(self._pages)
        sheet.taken.connect(self._take)
        sheet.gain_wanted.connect(lambda gain: self._preferences.change(least_gain=gain))
        sheet.left.connect(self.close)
        sheet.failed.connect(self._say_error)
        return sheet

    def _take(self, count: int) -> None:
        self.close()
        self._take_number(count)
