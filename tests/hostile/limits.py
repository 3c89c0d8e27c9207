"""How long one input may take and how much memory it may use, made to hold by the system."""

import faulthandler
import resource
import signal
import sys
from collections.abc import Iterator
from contextlib import contextmanager

LONGEST_S = 10.0
MOST_BYTES = 2 * 1024**3
_SAFE_BYTES = 6 * 1024**3
_STUCK_S = 120.0


class TooLongError(BaseException):
    """One input took longer than any may; nothing catches this by the way."""


def limit_the_process() -> None:
    """Keep a runaway from taking the machine with it."""
    resource.setrlimit(resource.RLIMIT_AS, (_SAFE_BYTES, _SAFE_BYTES))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    signal.signal(signal.SIGPROF, _too_long)


@contextmanager
def limited() -> Iterator[None]:
    """The block ends within :data:`LONGEST_S` seconds of this process's own time."""
    faulthandler.dump_traceback_later(_STUCK_S, exit=True)
    signal.setitimer(signal.ITIMER_PROF, LONGEST_S)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0.0)
        faulthandler.cancel_dump_traceback_later()


def most_memory() -> int:
    """Bytes that the process held at most until now."""
    held = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return held if sys.platform == "darwin" else held * 1024


def _too_long(_signal: int, _frame: object) -> None:
    raise TooLongError(f"longer than {LONGEST_S:g} s")
