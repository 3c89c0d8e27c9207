"""What long work is doing, told once it has taken a second."""

from time import monotonic
from typing import TextIO


class Telling:
    """Prints what is being done now, from a second after the start."""

    def __init__(self, stream: TextIO, after_s: float = 1.0) -> None:
        self._stream, self._after, self._start = stream, after_s, monotonic()

    def __call__(self, doing: str) -> None:
        """``doing`` has begun."""
        if monotonic() - self._start >= self._after:
            print(doing, file=self._stream, flush=True)
