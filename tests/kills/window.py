"""Kills the whole program in the midst of random edits, and looks what its next start offers:

python -m tests.kills.window 100 [SEED] [MEGAPIXELS]
"""

import os
import random
import re
import signal
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from tests.bench.pictures import photograph
from tests.kills.edited import told

from toneladder.bite.curve import starting_curve
from toneladder.bite.values import Conditions
from toneladder.picture.opening import open_picture
from toneladder.plate.file import PlateFile, write_plate
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.bench.opening import new_plate
from toneladder_desktop.bench.recovery import CurveOf, Recovery, take_back

ROOT = Path(__file__).parents[2]
MOST_S = 5.0
"""At most so much of the last edits may be lost, seconds."""

_LONGEST_S = 12.0
_START_S = 120.0
_SMALL_MEGAPIXELS = 0.2


@dataclass(frozen=True, slots=True)
class State:
    """The bench from this moment on: which plate, and whether it holds unsaved changes."""

    at_s: float
    unsaved: bool
    plate: str


@dataclass(frozen=True, slots=True)
class Killed:
    """How much work a kill took, seconds, and whether there was anything to be offered."""

    lost_s: float
    edits: int
    offered: bool


def kill_often(times: int, seed: int, megapixels: float = _SMALL_MEGAPIXELS) -> list[Killed]:
    """Kill the program so often, one start after the other in one home.

    Raises
    ------
    AssertionError
        More than the last seconds are lost, what is left belongs to no moment of the work, or
        the next start does not offer it with its time.
    """
    chance = random.Random(seed)  # noqa: S311 (a seeded trial, no secret)
    killed: list[Killed] = []
    with tempfile.TemporaryDirectory() as name:
        home = Path(name)
        plate = _plate(home, megapixels)
        before: datetime | None = None
        for number in range(times):
            log = home / f"{number}.log"
            kill_s = _work(home, log, plate, seed * 1000 + number, chance)
            states, sentence = _read(log)
            _require(before is None or _tells(sentence, before), f"{sentence!r}, kept at {before}")
            one, before = _look(home, states, kill_s)
            _require(one.lost_s <= MOST_S, f"{one.lost_s:.1f} s are lost at kill {number}")
            killed.append(one)
    return killed


def _plate(home: Path, megapixels: float) -> Path:
    photo, path = photograph(home, megapixels), home / "a.plate"
    plate = new_plate(open_picture(photo, name=photo.name).ref, Conditions())
    write_plate(path, PlateFile(plate, starting_curve(Conditions()), photo.read_bytes(), b""))
    return path


def _work(home: Path, log: Path, plate: Path, seed: int, chance: random.Random) -> float:
    """Let a hand work until a moment by chance; returns when it was killed."""
    folders = {f"XDG_{kind}_HOME": str(home) for kind in ("CONFIG", "DATA", "STATE")}
    paths = os.pathsep.join(sys.path)
    program = subprocess.Popen(
        [sys.executable, "-m", "tests.kills.edited", str(seed), str(log), str(plate)],
        cwd=ROOT,
        env={**os.environ, **folders, "HOME": str(home), "PYTHONPATH": paths},
        stderr=subprocess.DEVNULL,
    )
    try:
        begin = time.monotonic()
        while not log.exists() or b"state" not in log.read_bytes():
            _require(time.monotonic() - begin < _START_S, "the window does not come")
            _require(program.poll() is None, "the window has gone")
            time.sleep(0.05)
        time.sleep(chance.uniform(0.0, _LONGEST_S))
    finally:
        program.send_signal(signal.SIGKILL)
        kill_s = time.time()
        program.wait()
    return kill_s


def _read(log: Path) -> tuple[list[State], str]:
    states: list[State] = []
    sentence = ""
    for line in log.read_text(encoding="utf-8").splitlines():
        kind, _, rest = line.partition(" ")
        if kind == "offered":
            sentence, states = rest, []
        elif rest.count(" ") == 2:
            at_s, unsaved, plate = rest.split()
            states.append(State(float(at_s), unsaved == "1", plate))
    return states, sentence


def _look(home: Path, states: list[State], kill_s: float) -> tuple[Killed, datetime | None]:
    """What the kill took, and when what is left was kept."""
    room = home / "toneladder" / "recovery"
    left = Recovery(Bench(), room, CurveOf(), lambda act: act()).left()
    _require(len(left) <= 1, "one plate is left twice")
    found = told(take_back(left[0]).plate) if left else None
    standing = [
        number
        for number, state in enumerate(states)
        if state.plate == found or (found is None and not state.unsaved)
    ]
    _require(bool(standing), "what is left belongs to no moment of the work")
    later = states[standing[-1] + 1 :]
    lost_s = kill_s - later[0].at_s if later else 0.0
    return Killed(lost_s, len(states) - 1, bool(left)), left[0].kept_at if left else None


def _tells(sentence: str, kept_at: datetime) -> bool:
    return all(re.search(rf"\b{kept_at:{form}}\b", sentence) for form in ("%Y-%m-%d", "%H:%M"))


def _require(truth: bool, otherwise: str) -> None:
    if not truth:
        raise AssertionError(otherwise)


def main() -> None:
    """Kill as often as asked, and tell how much each kill took."""
    words = [*sys.argv[1:], *("1", str(_SMALL_MEGAPIXELS))[len(sys.argv) - 2 :]]
    killed = kill_often(int(words[0]), int(words[1]), float(words[2]))
    lost = sorted(one.lost_s for one in killed)
    sys.stdout.write(
        f"killed {len(killed)} times in {sum(one.edits for one in killed)} edits, offered back "
        f"{sum(one.offered for one in killed)} times; lost at most {lost[-1]:.1f} s, "
        f"median {lost[len(lost) // 2]:.1f} s\n"
    )


if __name__ == "__main__":
    main()
