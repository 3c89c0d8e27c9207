"""Odd pictures to lay on the bench."""

from pathlib import Path

import numpy as np
from PIL import Image


def draw_material(folder: Path) -> None:
    """Write every odd picture into ``folder``: white, portrait, panoramic, huge, and no picture."""
    sizes = {
        "portrait": (600, 1500),
        "panorama": (2000, 400),
        "a-photograph-with-a-very-long-file-name-as-cameras-and-people-write-them-2026": (900, 700),
    }
    for name, (width, height) in sizes.items():
        _hills(width, height).save(folder / f"{name}.png")
    Image.new("L", (600, 400), 255).save(folder / "white.png")
    _hills(900, 600).resize((18000, 12000)).save(folder / "huge.png")
    (folder / "not-a-picture.png").write_bytes(b"A letter to the printer, not a picture.\n" * 9)


def _hills(width: int, height: int) -> Image.Image:
    """A sky over hills, of many greys."""
    down, across = np.mgrid[0 : 1 : height * 1j, 0 : 1 : width * 1j].astype(np.float32)
    grey = 245.0 - 90.0 * down
    for number in range(5):
        rise = np.sin(across * (5.0 + 3.0 * number) + 2.0 * number) * 0.05
        grey[down > 0.42 + 0.12 * number + rise] = 200.0 - 42.0 * number
    grey += 9.0 * np.sin(across * 190.0) * np.sin(down * 170.0)
    return Image.fromarray(np.clip(grey, 0, 255).astype(np.uint8))
