"""What a key, a pedal or a finger means at the tank, and what is only a drip."""

from PySide6.QtCore import QObject, QTimer, Signal

from toneladder.tank.values import Act, Moment, Standing

HOLD_MS = 2000
"""A press held so long is the second act."""


class Presses(QObject):
    """Turns presses into acts.

    Where there is a second act, the first one waits until the key is let go, since holding it
    means the second; what counts is the moment of the press. ``acted(Act, Moment)`` tells.
    """

    acted = Signal(object, object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._since: Moment | None = None
        self._hold = QTimer(self, singleShot=True, interval=HOLD_MS)
        self._hold.timeout.connect(self._held)

    def down(self, standing: Standing, now: Moment) -> None:
        """The one key goes down."""
        if standing.second is None:
            self.acted.emit(Act.MAIN, now)
            return
        self._since = now
        self._hold.start()

    def up(self) -> None:
        """It comes up again."""
        self._hold.stop()
        since, self._since = self._since, None
        if since is not None:
            self.acted.emit(Act.MAIN, since)

    def drop(self) -> None:
        """Whatever was begun means nothing any more."""
        self._hold.stop()
        self._since = None

    def _held(self) -> None:
        since, self._since = self._since, None
        if since is not None:
            self.acted.emit(Act.SECOND, since)
