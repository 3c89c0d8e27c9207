"""Prints how long each act of the whole job keeps the window from anything else.

Run it as ``python -m tests.driven.figures [MEGAPIXELS] [keys]``. A block is a time between two
turns of the window's event loop. Beside it stands how much of it the window's thread worked: on a
machine that does other work as well, only that is the program's own doing.
"""

import os
import sys
import tempfile
import time
from pathlib import Path

from tests.bench.pictures import photograph
from tests.driven.desk import Desk, lacking
from tests.driven.job import Job

GOAL_MS = 50.0


def main() -> None:
    """The whole table."""
    if lacking():
        sys.exit(lacking())
    megapixels = float(sys.argv[1]) if len(sys.argv) > 1 else 24.0
    print(f"{os.cpu_count()} cores, load {os.getloadavg()[0]:.1f} at the start, goal {GOAL_MS} ms")
    with tempfile.TemporaryDirectory() as name, Desk() as desk:
        photo = photograph(Path(name), megapixels).rename(Path(name) / "hill.jpg")
        job = Job(desk, photo, keys="keys" in sys.argv)
        for what, act in job.acts():
            begin = time.monotonic()
            act()
            blocks = desk.blocks(begin, time.monotonic())
            wall = max((block.wall_ms for block in blocks), default=0.0)
            worked = sorted((block.thread_ms for block in blocks), reverse=True)
            three = ", ".join(f"{ms:.0f}" for ms in worked[:3])
            print(f"{what:34} longest {wall:7.1f} ms, worked {three} ms", flush=True)
        print(f"load {os.getloadavg()[0]:.1f} at the end")


if __name__ == "__main__":
    main()
