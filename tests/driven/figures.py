"""Prints how long each act of the whole job keeps the window from anything else.

Run it as ``python -m tests.driven.figures [MEGAPIXELS] [keys]``. A block is a time between two
turns of the window's event loop, without the time for which other programs had the processor.
Beside it stands how much of it the window's thread itself worked: what remains it waited for the
program's other threads, for longer if those were kept from the processor, and for the disk.
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
    (megapixels, *_) = [*(float(word) for word in sys.argv[1:] if word != "keys"), 24.0]
    print(f"{os.cpu_count()} cores, load {os.getloadavg()[0]:.1f} at the start, goal {GOAL_MS} ms")
    with tempfile.TemporaryDirectory() as name, Desk() as desk:
        photo = photograph(Path(name), megapixels).rename(Path(name) / "hill.jpg")
        job = Job(desk, photo, keys="keys" in sys.argv)
        for what, act in job.acts():
            begin = time.monotonic()
            act()
            blocks = desk.blocks(begin, time.monotonic())
            own = sorted((block.own_ms for block in blocks), reverse=True)
            worked = max((block.worked_ms for block in blocks), default=0.0)
            three = " ".join(f"{ms:6.1f}" for ms in own[:3])
            print(f"{what:34} longest, ms: {three:20}   worked: {worked:6.1f}", flush=True)
        print(f"load {os.getloadavg()[0]:.1f} at the end")


if __name__ == "__main__":
    main()
