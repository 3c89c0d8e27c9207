"""The two clocks of the machine, read together."""

import time
from pathlib import Path

from toneladder.tank.values import Moment

_BOOT = Path("/proc/sys/kernel/random/boot_id")


def read_clocks() -> Moment:
    """The time now: since the machine was started, sleep counted where it can be, and UTC."""
    return Moment(_since_boot(), time.time(), _boot())


def _since_boot() -> float:
    clock = getattr(time, "CLOCK_BOOTTIME", None)
    return time.monotonic() if clock is None else time.clock_gettime(clock)


def _boot() -> str:
    """The name of this start of the machine; about when it was, where nothing names it."""
    try:
        return _BOOT.read_text(encoding="ascii").strip()
    except (OSError, ValueError):
        return f"{round((time.time() - time.monotonic()) / 600.0)}"
