"""Python's search for cycles, kept to the window's thread and to short moments.

Left to itself it runs in whichever thread allocates, which may be the background's; what belongs
to Qt must not be taken down there.
"""

import gc
from typing import Final

from PySide6.QtCore import QObject, QTimer

EVERY_MS: Final = 500
OLDER, WHOLE = 20, 240
"""Every so many looks, objects that survived once are searched too, and all of them."""

_MANY = 700
"""New objects that are worth a search: Python's own figure."""


class Tidying(QObject):
    """As long as it lives, cycles are searched here alone."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._looks = 0
        gc.disable()
        self._timer = QTimer(self, interval=EVERY_MS)
        self._timer.timeout.connect(self.tidy)
        self._timer.start()

    def tidy(self) -> None:
        """Search the new objects, and now and then the older ones."""
        self._looks += 1
        if self._looks % WHOLE == 0:
            gc.collect()
        elif self._looks % OLDER == 0:
            gc.collect(1)
        elif gc.get_count()[0] > _MANY:
            gc.collect(0)

    def stop(self) -> None:
        """Leave it to Python again."""
        self._timer.stop()
        gc.enable()
