"""Opens the sheet on which numbers of tones are compared, in the place of the bench's top."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QStackedWidget

from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.bench.workings import Workings

if TYPE_CHECKING:
    from toneladder_desktop.how_many.view import HowMany


class HowManyDesk(QObject):
    """One sheet for one bench; it is made when it is first wanted."""

    def __init__(
        self,
        pages: QStackedWidget,
        bench: Bench,
        workings: Workings,
        preferences: Preferences,
        *,
        take: Callable[[int], object],
        say_error: Callable[[str], object],
    ) -> None:
        super().__init__(pages)
        self._pages, self._bench, self._workings = pages, bench, workings
        self._preferences, self._take_number, self._say_error = preferences, take, say_error
        self._sheet: HowMany | None = None
        bench.laid.connect(self.close)

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
        self._pages.setCurrentWidget(sheet)

    def close(self) -> None:
        """Back to the bench; the plate is as it was."""
        self._pages.setCurrentIndex(0)

    def stop(self) -> None:
        """The window closes."""
        if self._sheet is not None:
            self._sheet.stop()

    def _made(self) -> "HowMany":
        if self._sheet is None:
            from toneladder_desktop.how_many.view import HowMany

            self._sheet = HowMany(self._pages)
            self._sheet.taken.connect(self._take)
            self._sheet.gain_wanted.connect(lambda gain: self._preferences.change(least_gain=gain))
            self._sheet.left.connect(self.close)
            self._sheet.failed.connect(self._say_error)
            self._pages.addWidget(self._sheet)
        return self._sheet

    def _take(self, count: int) -> None:
        self.close()
        self._take_number(count)
