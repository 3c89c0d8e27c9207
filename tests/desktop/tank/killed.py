"""A stay at the tank killed at a random moment, and what is found afterwards.

`python -m tests.desktop.tank.killed 300` kills three hundred of them and prints what was lost.
"""

import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np

from toneladder.bite.curve import starting_curve
from toneladder.bite.values import Conditions
from toneladder.order.values import Order, Step, Tone
from toneladder.tank.begun import Begun
from toneladder.tank.session import session
from toneladder.tank.values import Event, Facts, Kind, Moment
from toneladder.tones.values import Painting
from toneladder_desktop.tank.clock import read_clocks
from toneladder_desktop.tank.notebook import Begin, LetGo, Look, Note, Opened, _Work

PLATE = "plate"
LONGEST_S = 0.25


@dataclass(frozen=True)
class Found:
    """After one kill: events that were reported and are gone, and how far the bite is off, s."""

    reported: int
    lost: int
    off_s: float | None


def begun() -> Begun:
    """A plate of one step, ten minutes long, whose count-in takes no time."""
    tones = (Tone(0, 92.0, 92.0, 90.0, 94.0, 0.0, 0.5), Tone(1, 20.0, 20.0, 18.0, 22.0, 600.0, 0.5))
    step = Step(1, (0,), 600.0, 600.0, Painting(1.0, 1, 1.0), 1.0, 1.0, (600.0,), 700.0)
    order = Order(2, tones, (step,), (), (), (), (), ())
    facts = Facts(starting_curve(Conditions()), 1.0, 20.0, count_in_s=0.0)
    return Begun(order, facts)


def child(book: Path) -> None:
    """Begin, bite, and note readings without end; say each number when it is safe."""
    work = _Work(book)
    now = read_clocks()
    (opened,) = work.work(Begin(PLATE, begun(), now), str)
    if not isinstance(opened, Opened):
        raise TypeError(opened)
    kinds = [Kind.CHECKED, Kind.COUNTING, Kind.STARTED]
    number = 0
    while True:
        kind = kinds[number] if number < len(kinds) else Kind.NOTE
        event = Event(number, kind, read_clocks(), text="a note" if kind is Kind.NOTE else "")
        for _ in work.work(Note(opened.session, event), str):
            print(f"{number} {event.at.boottime_s!r}", flush=True)
        number += 1


def kill_once(book: Path, chance: np.random.Generator) -> Found:
    """Start a stay, kill it, and open the book again."""
    process = subprocess.Popen(
        [sys.executable, "-m", "tests.desktop.tank.killed", "child", str(book)],
        stdout=subprocess.PIPE,
        text=True,
    )
    if process.stdout is None:
        raise TypeError(process)
    first = process.stdout.readline()
    time.sleep(chance.uniform(0.0, LONGEST_S))
    process.kill()
    lines = [first, *process.stdout.read().splitlines()]
    process.stdout.close()
    process.wait()
    said = [line.split() for line in lines if len(line.split()) == 2]
    numbers = {int(number) for number, _ in said}
    work = _Work(book)
    answers = list(work.work(Look(PLATE), str))
    list(work.work(LetGo(PLATE, "nobody"), str))
    opened = answers[0] if answers else None
    kept = {event.number for event in opened.events} if isinstance(opened, Opened) else set()
    return Found(len(numbers), len(numbers - kept), _off(opened, said))


def _off(opened: object, said: list[list[str]]) -> float | None:
    """How far the resumed bite is from the true one, if the plate was in the bath."""
    started = [float(at) for number, at in said if int(number) == 2]
    if not isinstance(opened, Opened) or not started:
        return None
    now: Moment = read_clocks()
    standing = session(opened.begun.order, opened.begun.facts, opened.events, now)
    if not standing.in_bath:
        return float("inf")
    return abs(standing.bitten_s - (now.boottime_s - started[0]))


def main(times: int) -> None:
    """Kill so many, and print what was found."""
    chance, found = np.random.default_rng(1), []
    for _ in range(times):
        with TemporaryDirectory() as folder:
            found.append(kill_once(Path(folder) / "book.sqlite", chance))
    bites = [one.off_s for one in found if one.off_s is not None]
    print(f"killed {len(found)}, events reported {sum(one.reported for one in found)}")
    print(f"events lost {sum(one.lost for one in found)}")
    print(f"bites resumed {len(bites)}, worst off {max(bites, default=0.0):.3f} s")


if __name__ == "__main__":
    if sys.argv[1] == "child":
        child(Path(sys.argv[2]))
    else:
        main(int(sys.argv[1]))
