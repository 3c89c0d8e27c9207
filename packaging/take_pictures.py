"""Take pictures of the window: `python packaging/take_pictures.py --out DIR [state ...]`.

Every state of the program is brought about without a screen and kept as a picture, light and
dark, small and large, on plain and on fine screens; `contact.png` shows them all on one sheet.
They are to be looked at, not to be compared by machines; texts that had too little room are told
while they are taken. With `--tank` only the tank's face is taken, in every state, as large as on
three common screens. With `--readme` the readme's pictures are taken anew. With `--language de` or
`x-long` (every text two fifths longer) each state is taken once in that language; with
`--dress 'small dark'` and `--scale 1.5` once in that dress.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

HERE = Path(__file__).resolve().parent
SCREENSHOTS = HERE / "screenshots"
README_PICTURES = {
    "bench": "readme",
    "how-many": "how-many",
    "strip": "strip-page",
    "tank": "tank-biting",
}
"""The state that each of the readme's pictures shows."""

README_SIZE = (1440, 900)
MOST_BYTES = 400_000
COLOURS = 96

SIZES = {"small": (1280, 720), "large": (1920, 1080)}
SCALES = ("1", "1.5", "2")
PLAIN = ("small light 1",)
TWICE = ("small light 1", "large dark 1")
OFTEN = ("small light 1", "small dark 1", "large light 1", "large dark 2")
DRESSES = {
    "rest": (*OFTEN, "large dark 1", "small light 2", "small light 1.5"),
    "12-tones": OFTEN,
    "too-close": TWICE,
    "strip": TWICE,
    "held-pegs": ("small dark 1", "large light 1"),
    "moving-a-parting": TWICE,
    "empty": TWICE,
    "how-many": TWICE,
    "laying": TWICE,
    "book-plates": OFTEN,
    "book-baths": TWICE,
    "record": OFTEN,
    "decision-tones": TWICE,
    "soft-passages": ("small light 1", "small dark 1"),
    "first-notes": TWICE,
    "handbook": TWICE,
}
THUMB, ACROSS, LABEL = 480, 4, 18


@dataclass(frozen=True)
class Shot:
    """One picture to take."""

    state: str
    size: str
    scheme: str
    scale: str
    language: str = "en"

    @property
    def file(self) -> str:
        """The picture's file."""
        language = "" if self.language == "en" else f"-{self.language}"
        return f"{self.state}-{self.size}-{self.scheme}-{self.scale}{language}.png"


def main() -> int:
    """Take the pictures that were asked for."""
    parser = argparse.ArgumentParser(description="Take pictures of Tone Ladder's window.")
    parser.add_argument("states", nargs="*", metavar="state", help="only these; else all")
    parser.add_argument("--tank", action="store_true", help="the tank's face, in every state")
    parser.add_argument("--out", type=Path, help="folder to write to")
    parser.add_argument("--readme", action="store_true", help="take the readme's pictures")
    parser.add_argument("--language", choices=("en", "de", "x-long"), default="en")
    parser.add_argument("--scale", choices=SCALES, help="only on screens so fine")
    parser.add_argument("--dress", metavar="'small dark'", help="every state in this dress alone")
    parser.add_argument("--apart", action="store_true", help=argparse.SUPPRESS)
    asked = parser.parse_args()
    if asked.readme:
        return _apart("1", "en", _take_readme)
    if asked.out is None:
        parser.error("--out is needed: the folder to write to")
    asked.out.mkdir(parents=True, exist_ok=True)
    if asked.tank:
        return _apart("1", asked.language, lambda: _take_faces(asked.states, asked.out))
    if asked.apart:
        shots = _shots(asked)
        return _apart(asked.scale, asked.language, lambda: _take(shots, asked.out))
    for scale in (asked.scale,) if asked.scale else SCALES:
        how = ["--out", asked.out, "--scale", scale, "--language", asked.language, "--apart"]
        how += ["--dress", asked.dress] if asked.dress else []
        subprocess.run([sys.executable, __file__, *how, *asked.states], check=True)
    _contact_sheet(asked.out)
    return 0


def _shots(asked: argparse.Namespace) -> list[Shot]:
    from pictures.states import STATES

    states = [state for state in STATES if not asked.states or state in asked.states]
    if asked.dress:
        return [Shot(state, *asked.dress.split(), asked.scale, asked.language) for state in states]
    return [
        shot
        for state in states
        for dress in (DRESSES.get(state, PLAIN) if asked.language == "en" else PLAIN)
        if (shot := Shot(state, *dress.split(), asked.language)).scale == asked.scale
    ]


def _apart(scale: str, language: str, act) -> int:  # noqa: ANN001 - any act
    os.environ |= {"QT_QPA_PLATFORM": "offscreen", "QT_SCALE_FACTOR": scale}
    os.environ["LC_ALL"] = "de_DE.UTF-8" if language == "de" else "C.UTF-8"
    from PySide6.QtWidgets import QApplication

    from toneladder.wording import speak_language
    from toneladder_desktop.window.language import translate_qt

    app = QApplication([])
    speak_language(language)
    translate_qt(app)
    act()
    del app
    return 0


def _take(shots: list[Shot], out: Path) -> None:
    from pictures.clipping import Clipping
    from pictures.material import draw_material
    from pictures.states import STATES
    from pictures.studio import studio

    from toneladder_desktop.drawing.style import Scheme

    clipping = Clipping()
    with TemporaryDirectory() as folder:
        draw_material(Path(folder))
        for shot in shots:
            with studio(SIZES[shot.size], Scheme(shot.scheme), Path(folder)) as place:
                try:
                    STATES[shot.state](place)
                except TimeoutError:
                    print(f"{shot.file}: waited in vain; taken as it is")
                place.picture().save(str(out / shot.file))
                print(shot.file, *clipping.found(), sep="\n    ", flush=True)


def _take_faces(states: list[str], out: Path) -> None:
    """The tank's face in every state and size, light and dark."""
    from pictures.tank_faces import NAMES, SIZES, face

    for name in states or NAMES:
        for width, height in SIZES:
            for dark in (False, True):
                file = f"{name}-{width}-{'dark' if dark else 'light'}.png"
                face(name, width, height, dark=dark).save(str(out / file))
        print(name)


def _take_readme() -> None:
    from pictures.states import STATES
    from pictures.studio import studio
    from PIL import Image

    from toneladder_desktop.drawing.style import Scheme

    SCREENSHOTS.mkdir(exist_ok=True)
    for name, state in README_PICTURES.items():
        file = SCREENSHOTS / f"{name}.png"
        with (
            TemporaryDirectory() as folder,
            studio(README_SIZE, Scheme.LIGHT, Path(folder)) as place,
        ):
            STATES[state](place)
            place.picture().save(str(file))
        few = Image.open(file).convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE)
        few.save(file, optimize=True)
        size = file.stat().st_size
        print(f"{file.name}: {size} bytes")
        if size > MOST_BYTES:
            raise SystemExit(f"more than {MOST_BYTES} bytes")


def _contact_sheet(out: Path) -> None:
    from PIL import Image, ImageDraw

    files = sorted(path for path in out.glob("*.png") if path.name != "contact.png")
    high = THUMB * 9 // 16 + LABEL
    rows = -(-len(files) // ACROSS)
    sheet = Image.new("RGB", (ACROSS * (THUMB + 4), rows * (high + 4)), "#A9A9A9")
    pen = ImageDraw.Draw(sheet)
    for number, path in enumerate(files):
        left, top = number % ACROSS * (THUMB + 4), number // ACROSS * (high + 4)
        with Image.open(path) as picture:
            small = picture.convert("RGB")
        small.thumbnail((THUMB, high - LABEL))
        sheet.paste(small, (left, top + LABEL))
        pen.text((left + 2, top + 2), path.stem, fill="black")
    sheet.save(out / "contact.png")


if __name__ == "__main__":
    sys.exit(main())
