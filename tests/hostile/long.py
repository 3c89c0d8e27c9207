"""Feeds damaged inputs of all kinds to the program, for as long as is asked.

``python -m tests.hostile.long --minutes 60`` or ``--inputs 100000``; ``--seed`` chooses others,
``--kind`` one kind alone. Every fault is told with its kind, seed and number, by which it can
be made again: ``python -m tests.hostile.worker KIND SEED NUMBER 1 /dev/stderr``.
"""

import argparse
import json
import os
import resource
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from tests.hostile.kinds import KINDS, Hostile

_ROUND = 20_000
_MOST_A_ROW = 2_000
_ROOT = Path(__file__).parents[2]
_ALIKE = 3
"""Faults of one cause that are told in full."""


@dataclass
class Tally:
    """What has been run, and what was wrong."""

    inputs: Counter[str] = field(default_factory=Counter)
    taken: Counter[str] = field(default_factory=Counter)
    refused: Counter[str] = field(default_factory=Counter)
    seconds: Counter[str] = field(default_factory=Counter)
    causes: Counter[str] = field(default_factory=Counter)

    def note(self, fault: dict[str, object]) -> None:
        """Count a fault, and tell of the first ones of its cause."""
        text = str(fault["fault"])
        cause = f"{fault['kind']}: {text.strip().splitlines()[-1][:160]}"
        self.causes[cause] += 1
        if self.causes[cause] <= _ALIKE:
            sys.stdout.write(f"{fault['kind']} {fault['seed']} {fault['number']}\n{text}\n")
            sys.stdout.flush()

    def __str__(self) -> str:
        """A table of the kinds, and of the causes of faults."""
        rows = [
            f"{name:10} {number:8} inputs {self.taken[name]:8} taken {self.refused[name]:8} refused"
            f" {self.seconds[name]:6.0f} s"
            for name, number in self.inputs.items()
        ]
        rows += [f"{number} × {cause}" for cause, number in self.causes.most_common()]
        inputs, faults = sum(self.inputs.values()), sum(self.causes.values())
        return "\n".join([*rows, f"{inputs} inputs, {faults} faults"])


def run_row(kind: Hostile, seed: int, first: int, number: int, tally: Tally) -> None:
    """Run one row of inputs; what kills the process is told, and the row goes on behind it."""
    end = first + number
    tally.inputs[kind.name] += number
    began = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime
    with tempfile.TemporaryDirectory() as room:
        told = Path(room) / "told"
        while first < end:
            told.write_text(str(first), encoding="ascii")
            words = [kind.name, str(seed), str(first), str(end - first), str(told)]
            done = subprocess.run(
                [sys.executable, "-m", "tests.hostile.worker", *words],
                cwd=_ROOT,
                env=_environment(),
                capture_output=True,
                text=True,
                check=False,
            )
            for line in done.stdout.splitlines():
                told_of = json.loads(line)
                if "fault" in told_of:
                    tally.note(told_of)
                else:
                    tally.taken[kind.name] += told_of["taken"]
                    tally.refused[kind.name] += told_of["refused"]
            if done.returncode == 0:
                break
            at = int(told.read_text(encoding="ascii"))
            fault = f"{done.stderr[-1500:]}\nended with {done.returncode}"
            tally.note({"kind": kind.name, "seed": seed, "number": at, "fault": fault})
            first = at + 1
    spent = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime - began
    tally.seconds[kind.name] += round(spent)


def rows(wanted: int, kinds: tuple[Hostile, ...]) -> Iterator[tuple[Hostile, int, int]]:
    """Kind, first number and number of inputs, round by round; ``wanted`` in all."""
    shares = sum(kind.share for kind in kinds)
    done = 0
    for turn in range(1 + wanted // _ROUND):
        here = min(_ROUND, wanted - done)
        done += here
        for kind in kinds:
            number = -(-here * kind.share // shares)
            first = turn * _ROUND
            for start in range(0, number, _MOST_A_ROW):
                yield kind, first + start, min(_MOST_A_ROW, number - start)


def main() -> int:
    """Run, and print what was found; the exit status is 1 if there were faults."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--minutes", type=float, default=1e9)
    words.add_argument("--inputs", type=int, default=100_000_000)
    words.add_argument("--seed", type=int, default=1)
    words.add_argument("--kind", action="append", choices=[kind.name for kind in KINDS])
    chosen = words.parse_args()
    kinds = tuple(kind for kind in KINDS if not chosen.kind or kind.name in chosen.kind)
    tally, end = Tally(), time.monotonic() + 60.0 * chosen.minutes
    with suppress(KeyboardInterrupt):
        for kind, first, number in rows(chosen.inputs, kinds):
            if time.monotonic() > end:
                break
            run_row(kind, chosen.seed, first, number, tally)
    sys.stdout.write(f"{tally}\n")
    return 1 if tally.causes else 0


def _environment() -> dict[str, str]:
    """Nothing of this computer's owner, one thread, and no display."""
    kept = {name: os.environ[name] for name in ("PATH", "TMPDIR", "LANG") if name in os.environ}
    path = os.pathsep.join(str(_ROOT / part) for part in ("core", "desktop", "."))
    return kept | {
        "PYTHONPATH": path,
        "PYTHONDONTWRITEBYTECODE": "1",
        "OMP_NUM_THREADS": "1",
        "OPENBLAS_NUM_THREADS": "1",
        "QT_QPA_PLATFORM": "offscreen",
    }


if __name__ == "__main__":
    sys.exit(main())
