"""What the etcher of the driven job brings: a photograph, a strip's readings, a pulled proof."""

from dataclasses import replace
from pathlib import Path

import numpy as np
from PIL import Image

from toneladder.bite.curve import lightness_at, starting_curve
from toneladder.bite.values import Conditions
from toneladder.picture.opening import open_picture
from toneladder.plan.choosing import choose
from toneladder.plan.memory import Memory
from toneladder.plan.planning import Plan, finish
from toneladder.plan.preparing import prepare, seen_of
from toneladder.plan.previewing import preview_of
from toneladder.plan.standing import curve_of
from toneladder.plate.file import PlateFile
from toneladder.preview.preview import preview_png
from toneladder.quantities import read_bite

_FASTER = 2.5


def readings(bites: list[str]) -> list[str]:
    """The lightness of a strip's patches in a bath a good deal faster than the usual one."""
    curve = starting_curve(Conditions())
    return [f"{float(lightness_at(curve, read_bite(bite) * _FASTER)):.1f}" for bite in bites]


def plan_of(file: PlateFile) -> Plan:
    """The plan of a plate."""
    plate = file.plate
    picture = open_picture(file.picture, name=plate.picture.name)
    prepared = prepare(picture, seen_of(plate), Memory())
    curve = curve_of(plate)
    return finish(prepared, choose(prepared, plate, curve), plate, curve)


def tone_at(file: PlateFile, place_mm: tuple[float, float]) -> int:
    """The tone of a place of the plate, as it prints."""
    tones = plan_of(file).tones
    across, down = place_mm
    size = file.plate.size
    row = int(down / size.height_mm * tones.shape[0])
    return int(tones[row, int(across / size.width_mm * tones.shape[1])])


def without_notes(file: PlateFile) -> PlateFile:
    """The same plate, with nothing noted on its print."""
    return replace(file, plate=replace(file.plate, notes=()))


def pull(file: PlateFile, path: Path) -> None:
    """A proof of the plate as a scanner sees it: with paper round it, and a little noise."""
    path.write_bytes(preview_png(preview_of(plan_of(file))))
    with Image.open(path) as print_:
        dots = np.asarray(print_.convert("L")).astype(np.float64)
    framed = np.pad(dots, 40, constant_values=243.0)
    noise = np.random.default_rng(7).normal(0.0, 2.0, framed.shape)
    Image.fromarray(np.clip(framed + noise, 0, 255).astype(np.uint8)).save(path)
