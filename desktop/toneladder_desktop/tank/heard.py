"""The tank's sounds: short tones made here, played by whatever this system plays sounds with."""

import math
import shutil
import struct
import sys
import wave
from io import BytesIO
from pathlib import Path
from tempfile import mkdtemp

from PySide6.QtCore import QObject, QProcess

from toneladder.tank.sounds import TONES, Sound

RATE = 22_050
_FADE_S = 0.008
_SILENT_MS = 500
_PLAYERS = (
    ("pw-play",),
    ("paplay",),
    ("aplay", "-q"),
    ("afplay",),
    ("ffplay", "-nodisp", "-autoexit", "-loglevel", "quiet"),
)


def wave_of(sound: Sound) -> bytes:
    """A sound as a WAV file: 16 bits, one channel, without clicks at its ends."""
    samples: list[int] = []
    for tone in TONES[sound]:
        number = round(tone.seconds * RATE)
        for k in range(number):
            ends = min(k, number - 1 - k) / (_FADE_S * RATE)
            level = tone.loudness * min(1.0, ends)
            samples.append(round(32_000 * level * math.sin(2 * math.pi * tone.hertz * k / RATE)))
        samples.extend([0] * round(tone.silence_s * RATE))
    file = BytesIO()
    with wave.open(file, "wb") as out:
        out.setnchannels(1)
        out.setsampwidth(2)
        out.setframerate(RATE)
        out.writeframes(struct.pack(f"<{len(samples)}h", *samples))
    return file.getvalue()


class Loudspeaker(QObject):
    """Plays the tank's sounds; ``works`` is False where nothing here can play them."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._player = _player()
        self._folder: Path | None = None
        self._failed = False
        self.played: list[Sound] = []

    @property
    def works(self) -> bool:
        """Whether there is something to play sounds with, and it has not failed yet."""
        return self._player is not None and not self._failed

    def play(self, sound: Sound) -> None:
        """Play one sound, and do not wait for its end."""
        self.played.append(sound)
        if self._player is None:
            return
        process = QProcess(self)
        process.finished.connect(process.deleteLater)
        process.finished.connect(self._finished)
        process.errorOccurred.connect(self._could_not)
        program, *words = self._player
        process.start(program, [*words, str(self._file(sound))])

    def close(self) -> None:
        """Fall silent, and throw the sounds' files away."""
        for process in self.findChildren(QProcess):
            if process.state() is not QProcess.ProcessState.NotRunning:
                process.blockSignals(True)
                process.kill()
                process.waitForFinished(_SILENT_MS)
        if self._folder is not None:
            shutil.rmtree(self._folder, ignore_errors=True)
            self._folder = None

    def _file(self, sound: Sound) -> Path:
        if self._folder is None:
            self._folder = Path(mkdtemp(prefix="toneladder-sounds-"))
        path = self._folder / f"{sound.name.lower()}.wav"
        if not path.exists():
            path.write_bytes(wave_of(sound))
        return path

    def _finished(self, status: int) -> None:
        self._failed = status != 0

    def _could_not(self) -> None:
        self._failed = True


def _player() -> tuple[str, ...] | None:
    if sys.platform == "win32":
        return None
    for words in _PLAYERS:
        found = shutil.which(words[0])
        if found:
            return (found, *words[1:])
    return None
