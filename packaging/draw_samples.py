"""Draw the sample pictures: `python packaging/draw_samples.py [name ...] [--out DIR]`.

Every picture is computed from numbers alone, with fixed seeds: the same versions of numpy,
scipy and Pillow on the same kind of processor give the same files byte for byte. Another
processor may round a few pixels one level differently.
"""

from __future__ import annotations

import argparse
import importlib
import sys
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import Image

HERE = Path(__file__).resolve().parent
SAMPLES = HERE.parent / "sample_images"


@dataclass(frozen=True)
class Sample:
    """A picture's file and how its tones are stored."""

    file: str
    module: str
    levels: int = 256


PICTURES = (
    Sample("breakwater.png", "breakwater"),
    Sample("alley.png", "alley"),
    Sample("night.png", "night"),
    Sample("boathouse.png", "boathouse"),
    Sample("still-life.png", "still_life", levels=1024),
)


def main() -> int:
    """Draw the named pictures, or all of them."""
    names = [Path(p.file).stem for p in PICTURES]
    parser = argparse.ArgumentParser(description="Draw Tone Ladder's sample pictures.")
    parser.add_argument("names", nargs="*", metavar="name", help=", ".join(names))
    parser.add_argument("--out", type=Path, default=SAMPLES, help="folder to write to")
    chosen = parser.parse_args()
    unknown = sorted(set(chosen.names) - set(names))
    if unknown:
        parser.error(f"no such picture: {', '.join(unknown)}; there are {', '.join(names)}")
    chosen.out.mkdir(parents=True, exist_ok=True)
    for picture, name in zip(PICTURES, names, strict=True):
        if not chosen.names or name in chosen.names:
            tone = importlib.import_module(f"samples.{picture.module}").draw()
            target = chosen.out / picture.file
            write(tone, target, picture.levels)
            print(
                f"{target.name}: {tone.shape[1]} x {tone.shape[0]}, {target.stat().st_size} bytes"
            )
    return 0


def write(tone: NDArray[np.float32], target: Path, levels: int = 256) -> None:
    """Store a tone, 0..1: 8 bits a pixel up to 256 levels, else 16 bits with that many levels."""
    steps = np.rint(np.clip(tone, 0, 1) * (levels - 1))
    if levels <= 256:
        image = Image.fromarray(np.rint(steps * (255 / (levels - 1))).astype(np.uint8))
    else:
        image = Image.fromarray(np.rint(steps * (65535 / (levels - 1))).astype(np.uint16))
    if target.suffix == ".jpg":
        image.save(target, quality=92)
    else:
        image.save(target, optimize=True)


if __name__ == "__main__":
    sys.exit(main())
