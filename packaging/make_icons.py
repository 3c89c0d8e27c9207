"""Makes the icons of every size from the one drawing: `python packaging/make_icons.py`.

The drawing is the scalable icon under `packaging/linux/share`; beside it go the sizes that
desktops ask for, and into the program the one its windows bear. Nothing is drawn here.
"""

import sys
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QImage, QPainter
from PySide6.QtSvg import QSvgRenderer

ROOT = Path(__file__).resolve().parents[1]
THEME = ROOT / "packaging" / "linux" / "share" / "icons" / "hicolor"
DRAWING = THEME / "scalable" / "apps" / "art.toneladder.planner.svg"
OF_THE_WINDOW = ROOT / "desktop" / "toneladder_desktop" / "drawing" / "icon.png"

SIZES = (16, 22, 24, 32, 48, 64, 96, 128, 256, 512)
WINDOW_SIZE = 128
"""Eight times 16: a window manager makes the small ones of it without a rest."""


def main() -> None:
    """Write every size."""
    for path, size in icons():
        path.parent.mkdir(parents=True, exist_ok=True)
        if not drawn(size).save(str(path)):
            sys.exit(f"{path} could not be written.")


def icons() -> list[tuple[Path, int]]:
    """Each file that is made, and how many pixels it is wide and high."""
    of_the_theme = [
        (THEME / f"{size}x{size}" / "apps" / DRAWING.with_suffix(".png").name, size)
        for size in SIZES
    ]
    return [*of_the_theme, (OF_THE_WINDOW, WINDOW_SIZE)]


def drawn(size: int) -> QImage:
    """The drawing in ``size`` by ``size`` pixels."""
    image = QImage(size, size, QImage.Format.Format_ARGB32)
    image.fill(Qt.GlobalColor.transparent)
    painter = QPainter(image)
    QSvgRenderer(str(DRAWING)).render(painter)
    painter.end()
    return image


if __name__ == "__main__":
    main()
