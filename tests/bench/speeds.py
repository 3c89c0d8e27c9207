"""Prints how long things take, beside something general done in the same run.

Run it as ``python tests/bench/speeds.py``; it asserts nothing.
"""

import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
from PIL import Image
from scipy import ndimage, optimize

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT / "core"), str(ROOT / "desktop")]

from toneladder.bite.curve import starting_curve
from toneladder.bite.values import Conditions
from toneladder.optics import FloatArray
from toneladder.picture.opening import open_picture
from toneladder.picture.values import PictureRef, PlateSize
from toneladder.plan.choosing import choose
from toneladder.plan.memory import Memory
from toneladder.plan.planning import plan
from toneladder.plan.preparing import prepare, seen_of
from toneladder.plan.standing import curve_of
from toneladder.plate.values import Plate
from toneladder.strip.curve import fit_strips
from toneladder.strip.values import Evidence, Patch, Strip
from toneladder.tones.brush import paintable
from toneladder.tones.choose import Demand, levels_following
from toneladder.tones.values import Brush, Choice, ToneChoice

RUNS = 7
A4 = PlateSize(297.0, 210.0)


def seconds(work: Callable[[], object], runs: int = RUNS) -> float:
    """Median of ``runs`` times, after one that is not counted."""
    work()
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def row(what: str, beside: str, ours_s: float, floor_s: float, goal: str) -> None:
    """One line of the table."""
    ratio = ours_s / floor_s
    ours, floor = f"{ours_s * 1e3:9.1f} ms", f"{floor_s * 1e3:8.1f} ms"
    print(f"{what:44} {ours}  {beside:28} {floor} {ratio:7.2f}  {goal}")


def photograph(folder: Path, megapixels: float) -> Path:
    """A made-up photograph of so many megapixels: soft shapes and fine noise."""
    height = round((megapixels * 1e6 / 1.5) ** 0.5)
    width = round(height * 1.5)
    rng = np.random.default_rng(5)
    small = ndimage.gaussian_filter(
        rng.normal(size=(height // 8 + 1, width // 8 + 1, 3)), (9, 9, 0)
    )
    small = (small - small.min()) / np.ptp(small)
    picture = Image.fromarray((small * 255).astype(np.uint8)).resize((width, height))
    cells = np.asarray(picture).astype(np.int16) + rng.integers(-6, 7, (height, width, 3))
    path = folder / f"{megapixels:g}.jpg"
    Image.fromarray(np.clip(cells, 0, 255).astype(np.uint8)).save(path, quality=90)
    return path


def peak_megabytes(code: str, *words: str) -> float:
    """Peak memory of a fresh Python that runs ``code``, less that of the same one idle."""

    def peak(text: str) -> float:
        program = (
            f"import sys; sys.path[:0] = {sys.path[:2]!r}\n{text}\n"
            "from pathlib import Path\n"
            "print(Path('/proc/self/status').read_text().split('VmHWM:')[1].split()[0])"
        )
        done = subprocess.run(
            [sys.executable, "-c", program, *words], capture_output=True, text=True, check=True
        )
        return float(done.stdout.split()[-1]) / 1024.0

    return peak(code) - peak("import numpy, PIL.Image, toneladder.picture.opening")


def decode(path: Path) -> None:
    """The floor of opening: one decode."""
    with Image.open(path) as picture:
        picture.load()


def main() -> None:
    """The whole table."""
    print(f"{os.cpu_count()} cores, Python {sys.version.split()[0]}, medians of {RUNS}")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        path = photograph(folder, 24.0)
        floor = seconds(lambda: decode(path))
        opened = seconds(lambda: open_picture(path, name="24.jpg"))
        row("open a 24-megapixel photograph", "one decode of it", opened, floor, "goal 2.5")
        _planning(path, floor)
        _fitting()
        _memory(folder)


def _planning(path: Path, floor: float) -> None:
    picture = open_picture(path, name=path.name)
    plate = Plate("bench", picture.ref, A4, tones=ToneChoice(8, Choice.PICTURE))
    curve = starting_curve(plate.conditions)
    memory = Memory()
    prepared = prepare(picture, seen_of(plate), memory)
    px = prepared.grid.px_per_mm

    def brushed() -> object:
        return paintable(prepared.asked, 1.5 * px, 2.0 * px)

    row("change the brush, A4 plate", "one decode", seconds(brushed), floor, "goal 0.7")
    grey = np.arange(24_000_000, dtype=np.uint32).astype(np.uint8)
    count = seconds(lambda: np.bincount(grey))
    weights = prepared.asked_counts.astype(float)
    targets = np.linspace(24.0, 90.0, 256)
    pinned = Demand(90.0, 24.0, 6.0)

    def solved() -> object:
        return levels_following(targets, weights, range(2, 13), pinned)

    row(
        "solve 2 to 12 tones, pinned, least gap",
        "bincount of 24 million",
        seconds(solved),
        count,
        "goal 0.2",
    )
    row(
        "choose tones and bites (dragged peg)",
        "one frame, 16 ms",
        seconds(lambda: choose(prepared, plate, curve)),
        0.016,
        "goal 1",
    )

    def whole() -> object:
        return plan(picture, plate, curve, memory=Memory())

    row("whole plan, A4 plate, 8 tones", "one decode", seconds(whole), floor, "goal 8")
    other = replace(plate, brush=Brush(1.5, 2.1))
    plans = iter([other, plate] * (RUNS + 1))

    def again() -> object:
        return plan(picture, next(plans), curve, memory=memory)

    row("whole plan after a change of brush", "one decode", seconds(again), floor, "")


def _fitting() -> None:
    """A strip of sixteen patches against least squares of a plain exponential."""
    bites = np.array([0.0, *(15.0 * 2.0 ** (k / 2.33) for k in range(15))])
    tones = 22.0 + 68.0 * np.exp(-((bites / 150.0) ** 0.8))

    def falling(bite: FloatArray, white: float, black: float, tau: float) -> FloatArray:
        return black + (white - black) * np.exp(-bite / tau)

    def squares() -> object:
        return optimize.curve_fit(falling, bites, tones, p0=(90.0, 20.0, 100.0))

    pairs = zip(bites.tolist(), tones.tolist(), strict=True)
    strip = Strip(Conditions(), tuple(Patch(bite, tone) for bite, tone in pairs))
    fitted, least = seconds(lambda: fit_strips([strip])), seconds(squares)
    row("fit a strip of 16 patches", "curve_fit, three parameters", fitted, least, "goal 50 ms")
    plate = Plate("bench", PictureRef("0" * 64, "none", 1, 1, 8), A4, evidence=Evidence((strip,)))
    memory = Memory()
    again = seconds(lambda: curve_of(plate, memory))
    row("its curve once more, another day", "curve_fit, three parameters", again, least, "")


def _memory(folder: Path) -> None:
    large = photograph(folder, 60.0)
    with Image.open(large) as picture:
        decoded = picture.width * picture.height * 3 / 2**20
    peak = peak_megabytes(
        "from pathlib import Path; from toneladder.picture.opening import open_picture\n"
        "open_picture(Path(sys.argv[1]), name='x')",
        str(large),
    )
    print(
        f"{'peak memory, open 60 megapixels':44} {peak:9.0f} MB  {'decoded picture':28} "
        f"{decoded:8.0f} MB {peak / decoded:7.2f}  goal 3"
    )


if __name__ == "__main__":
    main()
