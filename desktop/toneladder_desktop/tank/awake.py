"""Keeps the machine awake while a plate is in the bath."""

import shutil
import sys

from PySide6.QtCore import QObject, QProcess

_INHIBIT = (
    "systemd-inhibit",
    "--what=idle:sleep:handle-lid-switch",
    "--who=Tone Ladder",
    "--why=A plate is in the bath",
    "--mode=block",
    "sleep",
    "infinity",
)
_CAFFEINE = ("caffeinate", "-di")


class Awake(QObject):
    """Asks the system not to fall asleep; where it cannot be asked, nothing happens."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._process: QProcess | None = None

    def keep(self, *, awake: bool) -> None:
        """Stay awake from now on, or sleep as the system likes."""
        if awake and self._process is None:
            self._process = self._begun()
        elif not awake and self._process is not None:
            self._process.kill()
            self._process.waitForFinished(1000)
            self._process.deleteLater()
            self._process = None

    def _begun(self) -> QProcess | None:
        words = _CAFFEINE if sys.platform == "darwin" else _INHIBIT
        program = shutil.which(words[0])
        if program is None:
            return None
        process = QProcess(self)
        process.start(program, list(words[1:]))
        return process
