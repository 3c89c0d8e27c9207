"""How long a piece of work takes, and how much memory, beside a floor done in the same run."""

import ctypes
import os
import statistics
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

Work = Callable[[], object]


@dataclass(frozen=True, slots=True)
class Spent:
    """Several turns of one piece of work: seconds on the clock, and of the processor."""

    wall_s: tuple[float, ...]
    cpu_s: tuple[float, ...]

    @property
    def wall(self) -> float:
        """The middle one of the times on the clock."""
        return statistics.median(self.wall_s)

    @property
    def cpu(self) -> float:
        """The least of the processor's times, which another load spoils least; 0 if unknown."""
        return min(self.cpu_s, default=0.0)

    @property
    def spread(self) -> float:
        """Half of the middle half of the times on the clock, as a share of the middle one."""
        if len(self.wall_s) < 2:
            return 0.0
        low, _, high = statistics.quantiles(self.wall_s, n=4)
        return (high - low) / 2.0 / self.wall


@dataclass(slots=True)
class _Turns:
    wall: list[float]
    cpu: list[float]

    def take(self, work: Work) -> None:
        begin, worked = time.perf_counter(), time.process_time()
        work()
        self.wall.append(time.perf_counter() - begin)
        self.cpu.append(time.process_time() - worked)

    def spent(self) -> Spent:
        return Spent(tuple(self.wall), tuple(self.cpu))


def in_turn(works: Sequence[Work], runs: int) -> tuple[Spent, ...]:
    """Every work ``runs`` times, one after the other in turn, after a round that is not counted."""
    for work in works:
        work()
    turns = [_Turns([], []) for _ in works]
    for _ in range(runs):
        for turn, work in zip(turns, works, strict=True):
            turn.take(work)
    return tuple(turn.spent() for turn in turns)


def once(work: Work) -> Spent:
    """One turn alone."""
    turn = _Turns([], [])
    turn.take(work)
    return turn.spent()


def others_s() -> float:
    """Seconds that the cores worked since the system's start, but not for us (Linux)."""
    words = Path("/proc/stat").read_text(encoding="ascii").split()
    busy = sum(map(int, words[1:4])) / os.sysconf("SC_CLK_TCK")
    return busy - sum(os.times()[:4])


@dataclass(slots=True)
class Peak:
    """Most memory that was held above what was held before, megabytes of 2^20 bytes."""

    megabytes: float = 0.0


@contextmanager
def memory() -> Iterator[Peak]:
    """Watch the memory of this process, as the system counts it (Linux)."""
    ctypes.CDLL(None).malloc_trim(0)
    Path("/proc/self/clear_refs").write_text("5", encoding="ascii")
    before, peak = status("VmRSS"), Peak()
    yield peak
    peak.megabytes = max(0.0, status("VmHWM") - before)


def peak_of(work: Work) -> float:
    """Megabytes that ``work`` needs at most, above what is held before it."""
    with memory() as peak:
        work()
    return peak.megabytes


def status(name: str) -> float:
    """What the system says of this process, such as ``VmRSS``, megabytes."""
    text = Path("/proc/self/status").read_text(encoding="ascii")
    return float(text.split(f"{name}:")[1].split()[0]) / 1024.0
