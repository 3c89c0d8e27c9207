"""Draw what the window shows of the sample plate before anything is worked out.

`python packaging/draw_sample_look.py`, after the sample picture or the preview has changed.
"""

import sys
from pathlib import Path

import numpy as np
from PIL import Image

ROOT = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(ROOT / "core"), str(ROOT / "desktop")]

from toneladder.bite.curve import starting_curve
from toneladder.picture.opening import open_picture
from toneladder.plan.memory import Memory
from toneladder.plan.planning import plan
from toneladder.plan.previewing import preview_of
from toneladder_desktop.bench.glimpse import SAMPLE_LOOK
from toneladder_desktop.bench.opening import sample_picture, sample_plate

PX_PER_MM = 4.5


def main() -> int:
    """Write it where the window looks for it."""
    path = sample_picture()
    if path is None:
        print("the sample picture is not there", file=sys.stderr)
        return 1
    picture = open_picture(path, name=path.name)
    plate = sample_plate(picture.ref)
    print_ = preview_of(
        plan(picture, plate, starting_curve(plate.conditions), memory=Memory()),
        px_per_mm=PX_PER_MM,
        margins=False,
    )
    image = Image.fromarray(print_)
    colours = len(np.unique(print_.reshape(-1, 3), axis=0))
    image.quantize(min(colours, 256), dither=Image.Dither.NONE).save(SAMPLE_LOOK, optimize=True)
    print(f"{SAMPLE_LOOK.name}: {image.size}, {colours} colours, {SAMPLE_LOOK.stat().st_size}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
