"""One table of how long things take and how much memory, ours and a floor side by side:

python -m tests.bench                 everything; some minutes
python -m tests.bench --only plan     a part: plan, curves, large, window, others or growth
python -m tests.bench --quick         fewer turns and smaller photographs, to see that it works
python -m tests.bench --write         everything, into DEVELOPERS.md

It asserts nothing. Let nothing else run meanwhile; it says how much did.
"""

import argparse
import os
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT / "core"), str(ROOT / "desktop")]
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # as the program's own start has it

from tests.bench import clock, curves, growth, large, others, planning, window
from tests.bench.table import Table, printed, speeds, tell, write

RUNS, FEW = 7, 3
PARTS = ("plan", "curves", "large", "window", "others", "growth")


def main(arguments: list[str]) -> None:
    """Measure, and print or write."""
    asked = _asked(arguments)
    runs = FEW if asked.quick else RUNS
    begin, others_begin = time.monotonic(), clock.others_s()
    with tempfile.TemporaryDirectory() as name:
        found = list(_tables(Path(name), asked.only or PARTS, runs, quick=asked.quick))
    took, cores = time.monotonic() - begin, os.cpu_count() or 1
    elsewhere = (clock.others_s() - others_begin) / took / cores
    head = (
        f"Python {sys.version.split()[0]} on {cores} cores. Times are medians of {runs}"
        " on the clock, ± half of the middle half of them; CPU is the least processor time of"
        f" them. Meanwhile other work had {100.0 * elsewhere:.0f} % of the cores."
    )
    print("\n".join([head, "", *map(printed, found)]))
    tell(f"{took:.0f} s")
    if asked.write:
        write(found, head)


def _asked(arguments: list[str]) -> argparse.Namespace:
    words = argparse.ArgumentParser(prog="python -m tests.bench", allow_abbrev=False)
    words.add_argument("--only", nargs="+", choices=PARTS, help="some parts")
    words.add_argument("--quick", action="store_true", help="to see that it works")
    words.add_argument("--write", action="store_true", help="into DEVELOPERS.md")
    return words.parse_args(arguments)


def _tables(folder: Path, parts: Sequence[str], runs: int, *, quick: bool) -> Iterator[Table]:
    largest = 24.0 if quick else 100.0
    made: dict[str, Callable[[], Iterator[Table]]] = {
        "plan": lambda: iter([speeds("From a photograph to sheets", planning.rows(folder, runs))]),
        "curves": lambda: iter([speeds("Strips and proofs", curves.rows(runs))]),
        "large": lambda: iter([large.table(folder)]),
        "window": lambda: window.tables(folder, runs),
        "others": lambda: others.tables(runs),
        "growth": lambda: growth.tables(folder, runs, largest=largest),
    }
    for part, tables in made.items():
        if part in parts:
            yield from tables()


if __name__ == "__main__":
    main(sys.argv[1:])
