"""Random scans of proofs of the sample pictures, and how well they are laid and read."""

import time
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np
import skimage
from numpy.typing import NDArray
from tests.core.proof.drawing import Array, Look, Scan, draw

from toneladder.errors import ProofError
from toneladder.picture.opening import open_picture
from toneladder.picture.values import PlateSize
from toneladder.plan.planning import plan
from toneladder.plate.values import Plate
from toneladder.proof.reading import read_tones
from toneladder.proof.registering import register
from toneladder.proof.values import ProofReading, Registration
from toneladder.tones.values import ToneChoice

SAMPLES = Path(__file__).parents[3] / "sample_images"
LONGEST_MM = {
    "alley": 100.0,
    "boathouse": 150.0,
    "breakwater": 200.0,
    "night": 150.0,
    "still-life": 100.0,
}
NAMES = tuple(LONGEST_MM)
FINE_DPI = 300.0
"""Above this only small plates are drawn: a large one takes long to draw."""

PHOTOGRAPHS = tuple(
    sorted(
        path
        for path in Path(skimage.__file__).parent.joinpath("data").iterdir()
        if path.suffix in {".png", ".jpg"}
    )
)
COUNTS = (2, 3, 4, 5, 6, 8, 12)
DPI = (100.0, 150.0, 200.0, 300.0, 400.0, 600.0)
WORTH = 0.01
"""Share of the plate above which a tone must be read."""


@dataclass(frozen=True)
class Planned:
    """A plan as the reader is given it."""

    tones: NDArray[np.uint8]
    lightness: Array
    px_per_mm: float


@dataclass(frozen=True)
class Trial:
    """One scan: how it was seen, how far off it was laid (worst corner) and read.

    ``errors`` are read less printed lightness, a tone each; ``missing`` counts tones over one
    per cent of the plate that were not read.
    """

    seed: int
    look: Look
    tones: int
    off_mm: float = np.inf
    residual_mm: float = np.inf
    score: float = 0.0
    errors: tuple[float, ...] = ()
    spreads: tuple[float, ...] = ()
    missing: int = 0
    places: int = 0
    seconds: float = 0.0

    @property
    def laid(self) -> bool:
        return self.off_mm <= 0.3


@cache
def planned(name: str, count: int) -> Planned:
    picture = open_picture(SAMPLES / f"{name}.png", name=name)
    sides = np.array([picture.ref.width, picture.ref.height], dtype=float)
    width, height = np.round(sides * LONGEST_MM[name] / sides.max(), 1)
    plate = Plate(
        name,
        picture.ref,
        PlateSize(float(width), float(height)),
        tones=ToneChoice(count=count),
    )
    made = plan(picture, plate)
    lightness = np.array([tone.lightness for tone in made.order.tones])
    return Planned(made.tones, lightness, made.prepared.grid.px_per_mm)


def random_print(chance: np.random.Generator, plate: Planned) -> Array:
    """What the tones print: up to 10 L* off the plan, two neighbours swapped."""
    printed = plate.lightness + chance.uniform(-10.0, 10.0, len(plate.lightness))
    printed = np.clip(printed, 8.0, 93.0)
    if len(printed) > 2:
        first = int(chance.integers(1, len(printed) - 1))
        printed[[first, first + 1]] = printed[[first + 1, first]]
    return printed


def random_look(chance: np.random.Generator, dpi: float, *, cropped: bool) -> Look:
    shift = chance.uniform(-15.0, 15.0, 2)
    warm = float(chance.uniform(0.9, 1.0))
    # blue falls, red rises so that luminance stays [IEC 61966-2-1: 0.2126 R, 0.0722 B]
    tint = (1.0 + (1.0 - warm) * 0.0722 / 0.2126, 1.0, warm)
    return Look(
        dpi=dpi,
        turn=float(chance.uniform(-4.0, 4.0)),
        scale=float(chance.uniform(0.9, 1.1)),
        shift=(float(shift[0]), float(shift[1])),
        shear=float(chance.uniform(-0.02, 0.02)),
        margin=None if cropped else float(chance.uniform(15.0, 40.0)),
        crop=float(chance.uniform(0.0, 0.06)) if cropped else 0.0,
        blur=float(chance.uniform(0.5, 1.4)) * max(1.0, dpi / 300.0),
        noise=float(chance.uniform(0.001, 0.01)),
        grain=float(chance.uniform(0.02, 0.08)),
        gradient=0.0 if cropped else float(chance.uniform(0.0, 0.15)),
        gradient_towards=float(chance.uniform(0.0, 360.0)),
        warm=tint if chance.random() < 0.3 else (1.0, 1.0, 1.0),
        bits=int(chance.choice([8, 16])),
        jpeg=60 if chance.random() < 0.5 else None,
    )


def random_scan(seed: int) -> tuple[Planned, Array, Look, Scan]:
    chance = np.random.default_rng(seed)
    dpi = float(chance.choice(DPI))
    names = [name for name in NAMES if dpi <= FINE_DPI or LONGEST_MM[name] <= 100.0]
    plate = planned(str(chance.choice(names)), int(chance.choice(COUNTS)))
    printed = random_print(chance, plate)
    look = random_look(chance, dpi, cropped=bool(chance.random() < 0.35))
    return plate, printed, look, draw(plate.tones, printed, plate.px_per_mm, look, seed)


def tried(seed: int, *, says_dpi: bool = True) -> Trial:
    plate, printed, look, scan = random_scan(seed)
    light = open_picture(scan.data, name="scan").light
    began = time.process_time()
    try:
        laid = register(light, plate.tones, plate.px_per_mm, dpi=look.dpi if says_dpi else None)
    except ProofError:
        return Trial(seed, look, len(printed))
    read = read_tones(
        light, laid, plate.tones, plate.px_per_mm, plate.lightness.tolist(), paper=look.paper
    )
    took = time.process_time() - began
    return Trial(
        seed=seed,
        look=look,
        tones=len(printed),
        off_mm=off_mm(laid, scan.matrix, plate),
        residual_mm=laid.residual_mm,
        score=laid.score,
        errors=tuple(tone.printed_lightness - float(printed[tone.tone]) for tone in read.tones),
        spreads=tuple(tone.spread for tone in read.tones),
        missing=_missing(plate, read),
        places=len(read.places),
        seconds=took,
    )


def taken_for_a_proof(seed: int) -> bool:
    """Whether a photograph, or the print of another plate, is taken for a proof of a plate."""
    chance = np.random.default_rng([seed, 77])
    name = str(chance.choice(NAMES))
    plate = planned(name, int(chance.choice(COUNTS)))
    if chance.random() < 0.5:
        other = planned(str(chance.choice([o for o in NAMES if o != name])), 6)
        look = random_look(chance, 100.0, cropped=bool(chance.random() < 0.35))
        scan = draw(other.tones, other.lightness, other.px_per_mm, look, seed)
        light = open_picture(scan.data, name="other").light
    else:
        light = open_picture(PHOTOGRAPHS[seed % len(PHOTOGRAPHS)], name="photograph").light
    try:
        register(light, plate.tones, plate.px_per_mm)
    except ProofError:
        return False
    return True


def off_mm(laid: Registration, matrix: Array, plate: Planned) -> float:
    """How far the worst place of the plate is off, in millimetres on the plate."""
    rows, columns = plate.tones.shape
    x, y = np.meshgrid(
        np.linspace(0.0, columns / plate.px_per_mm, 9), np.linspace(0.0, rows / plate.px_per_mm, 9)
    )
    points = np.stack([x.ravel(), y.ravel(), np.ones(x.size)])
    off = np.array(laid.matrix) @ points - matrix @ points
    return float(np.hypot(*off).max() / laid.px_per_mm)


def _missing(plate: Planned, read: ProofReading) -> int:
    shares = np.bincount(plate.tones.ravel()) / plate.tones.size
    return len(set(np.flatnonzero(shares > WORTH).tolist()) - {tone.tone for tone in read.tones})
