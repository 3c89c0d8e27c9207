"""A large job in a process of its own, so that its memory is its own:

python -m tests.bench.alone open PICTURE
python -m tests.bench.alone plan PICTURE WIDTH HEIGHT TONES MARK
"""

import json
import resource
import subprocess
import sys
import time
from dataclasses import dataclass
from datetime import date
from pathlib import Path

ROOT = Path(__file__).parents[2]


@dataclass(frozen=True, slots=True)
class Alone:
    """What a job took in its own process, and the seconds between what it told meanwhile."""

    wall_s: float
    cpu_s: float
    peak_mb: float
    idle_mb: float
    cells: int
    longest_silence_s: float
    told: int

    @property
    def above_mb(self) -> float:
        """Most memory above that of the libraries."""
        return self.peak_mb - self.idle_mb


def alone(*words: str) -> Alone:
    """Run a job; a shell starts it, since a process inherits the mark of whoever starts it."""
    done = subprocess.run(
        ["/bin/sh", "-c", '"$@"; exit $?', "sh", sys.executable, "-m", "tests.bench.alone", *words],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    return Alone(**json.loads(done.stdout.splitlines()[-1]))


class _Listener:
    """Notes when it is told something."""

    def __init__(self) -> None:
        self.last = time.process_time()
        self.silence, self.told = 0.0, 0

    def __call__(self, _words: str) -> None:
        self.silence = max(self.silence, time.process_time() - self.last)
        self.last = time.process_time()
        self.told += 1


def main(words: list[str]) -> None:
    """The job itself; prints what it took."""
    sys.path[:0] = [str(ROOT / "core"), str(ROOT / "desktop")]
    if words[0] == "open":
        _open(Path(words[1]))
    else:
        _plan(Path(words[1]), (float(words[2]), float(words[3])), int(words[4]), float(words[5]))


def _open(path: Path) -> None:
    import toneladder.picture.jpeg  # noqa: F401  (as loaded before a picture is opened)
    from toneladder.picture.opening import open_picture

    idle, begin, worked = _peak(), time.perf_counter(), time.process_time()
    picture = open_picture(path, name=path.name)
    cells = picture.ref.width * picture.ref.height
    _say(idle, begin, worked, cells, _Listener())


def _plan(path: Path, size_mm: tuple[float, float], tones: int, mark_mm: float) -> None:
    """Plan, and lay all maps and the tracing out, one file after another."""
    from toneladder.bite.curve import starting_curve
    from toneladder.picture.opening import open_picture
    from toneladder.picture.values import PlateSize
    from toneladder.plan.memory import Memory
    from toneladder.plan.planning import plan
    from toneladder.plate.values import Plate
    from toneladder.sheets.documents import Kind, Wanted, documents
    from toneladder.tones.values import Brush, Choice, ToneChoice

    _load()
    idle, begin, worked, listener = _peak(), time.perf_counter(), time.process_time(), _Listener()
    picture = open_picture(path, name=path.name)
    brush = Brush(mark_mm, mark_mm * 4.0 / 3.0)
    choice = ToneChoice(tones, Choice.PICTURE)
    plate = Plate("bench", picture.ref, PlateSize(*size_mm), tones=choice, brush=brush)
    curve = starting_curve(plate.conditions)
    done = plan(picture, plate, curve, memory=Memory(), tell=listener)
    wanted = Wanted(date(2026, 1, 1), kinds=(Kind.MAPS, Kind.TRACING))
    for _ in documents(done, wanted, listener):
        pass
    listener("")
    _say(idle, begin, worked, done.tones.size, listener)


def _load() -> None:
    """What is loaded when the work begins, so that memory of libraries is not counted as its."""
    import skimage.measure  # noqa: F401  (loaded before memory is measured)


def _peak() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0


def _say(idle: float, begin: float, worked: float, cells: int, listener: _Listener) -> None:
    took = {
        "wall_s": time.perf_counter() - begin,
        "cpu_s": time.process_time() - worked,
        "peak_mb": _peak(),
        "idle_mb": idle,
        "cells": cells,
        "longest_silence_s": listener.silence,
        "told": listener.told,
    }
    print(json.dumps(took))


if __name__ == "__main__":
    main(sys.argv[1:])
