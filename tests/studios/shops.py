"""Fourteen studios, no two alike: invented grounds, baths, inks and hands, and how they print.

``prints.csv`` holds the print of every studio at every depth, worked out once by

    python -m tests.studios.shops
"""

import csv
from dataclasses import dataclass, fields
from functools import cache
from pathlib import Path

import numpy as np
from numpy.typing import ArrayLike
from tests.studios.etching import DEPTHS_UM, Studio, depth_um, printed_by_depth, white

from toneladder.bite.values import (
    Conditions,
    Fineness,
    GrainKind,
    Metal,
    Mordant,
    Movement,
)
from toneladder.optics import FloatArray

HERE = Path(__file__).parent
STUDIOS, PRINTS = HERE / "studios.csv", HERE / "prints.csv"
_FIRST_SHADE = 1.5  # logarithm of depth below the first tabulated one at which nothing shows


@dataclass(frozen=True, slots=True, eq=False)
class Shop:
    """A studio and what it prints: CIE L* at ``DEPTHS_UM``."""

    studio: Studio
    seed: int
    by_depth: FloatArray

    def prints(self, bites_s: ArrayLike, rate: float = 1.0) -> FloatArray:
        """True lightness of total bites, on a plate that bites ``rate`` times as fast."""
        depth = depth_um(self.studio, np.asarray(bites_s, dtype=np.float64) * rate)
        log_depths = np.log(DEPTHS_UM)
        known = np.concatenate([[log_depths[0] - _FIRST_SHADE], log_depths])
        shown = np.concatenate([[white(self.studio)], self.by_depth])
        return np.asarray(np.interp(np.log(np.maximum(depth, 1e-9)), known, shown))


@cache
def all_shops() -> tuple[Shop, ...]:
    with PRINTS.open(encoding="utf-8", newline="") as file:
        prints = {row[0]: np.array(row[1:], dtype=np.float64) for row in csv.reader(file)}
    return tuple(Shop(studio, seed, prints[studio.name]) for seed, studio in enumerate(_studios()))


def _studios() -> list[Studio]:
    with STUDIOS.open(encoding="utf-8", newline="") as file:
        return [_studio(row) for row in csv.DictReader(file)]


def _studio(row: dict[str, str]) -> Studio:
    conditions = Conditions(
        metal=Metal(row["metal"]),
        mordant=Mordant(row["mordant"]),
        grain=GrainKind(row["grain"]),
        fineness=Fineness(row["fineness"]),
        movement=Movement(row["movement"]),
    )
    numbers = [field.name for field in fields(Studio)][2:]
    return Studio(row["name"], conditions, **{name: float(row[name]) for name in numbers})


def _tabulate() -> None:
    with PRINTS.open("w", encoding="utf-8", newline="") as file:
        rows = csv.writer(file, lineterminator="\n")
        for seed, studio in enumerate(_studios()):
            rows.writerow([studio.name, *(f"{v:.3f}" for v in printed_by_depth(studio, seed))])


if __name__ == "__main__":
    _tabulate()
