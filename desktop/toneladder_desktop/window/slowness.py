"""Work that takes longer than a second says what it is doing, and can be stopped."""

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QWidget

from toneladder.wording import say
from toneladder_desktop.bench.workings import Workings
from toneladder_desktop.fittings.notice import Notice

SLOW_MS = 1000


class Slowness(Notice):
    """A line above the paper that is there only while something takes long."""

    def __init__(self, workings: Workings, parent: QWidget) -> None:
        super().__init__(parent)
        self._workings = workings
        self._words = ""
        self._wait = QTimer(self, singleShot=True, interval=SLOW_MS)
        self._wait.timeout.connect(self._show)
        workings.doing.connect(self._doing)
        workings.rested.connect(self._rested)
        self.close_button.clicked.connect(workings.stop)

    def _doing(self, words: str) -> None:
        self._words = words
        if self.isVisible():
            self._show()
        elif not self._wait.isActive():
            self._wait.start()

    def _show(self) -> None:
        if self._workings.background.busy:
            self.tell(self._words, put_away=say("Stop"))

    def _rested(self) -> None:
        self._wait.stop()
        self.put_away()
