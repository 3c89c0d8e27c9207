"""Command lines made wrong on purpose, and the files that they name."""

import contextlib
import io
import os
from functools import cache
from pathlib import Path
from random import Random

from tests.hostile.archives import damaged_plate, plate, strip
from tests.hostile.awkward import TEXTS, damaged_bytes, one_of, text_or_number
from tests.hostile.pictures import damaged_picture, pictures

from toneladder.bite.curve import starting_curve
from toneladder.bite.values import Conditions
from toneladder.plate.file import PlateFile, write_plate
from toneladder.strip.file import strip_text
from toneladder_desktop.app import main

_PARTED = "\n\x1e\n"
_OPTIONS: dict[str, tuple[str, ...]] = {
    "--tones": ("2", "5", "12", "1e308", "1"),
    "--plate": ("30x22mm", "2x1in", "5mm x 5mm", "0x0", "1e9x1"),
    "--crop": ("0,0,1,1", "0.1,0.1,0.5,0.5", "0,0,1e-9,1e-9", "1,1,1,1", "5,5,10,9"),
    "--turn": ("3", "-360", "1e308", "nan"),
    "--squint": ("0", "1mm", "50mm"),
    "--brush": ("0.3mm", "1mm", "20mm"),
    "--gap": ("0.3mm", "20mm"),
    "--gap-lightness": ("0", "50", "-1"),
    "--smallest-area": ("0", "1e4", "-1"),
    "--choose": ("even", "picture", "hand", "strip"),
    "--temperature": ("0C", "68F", "60", "-5"),
    "--strength": ("38 Be", "60", "0"),
    "--check": ("1:00,62", "1:00,nan", "9999:00,100", ","),
    "--patches": ("0:15,1:00", "0,0,0", "9999:59"),
    "--lines": ("1mm", "0.01mm", "10m"),
    "--line-depths": ("1", "4", "1e300"),
    "--line-bites": ("15:00", "15:00,1 h", "0"),
    "--second-grain": ("1", "11", "-1", "1e300"),
    "--start": ("09:30", "24:00"),
    "--title": ("Boats", "A" * 4001),
    "--limit-megapixels": ("400", "0", "-1", "1e-9"),
    "--grained-on": ("2026-03-15", "0000-00-00"),
    "--margin-strip": ("top", "left"),
    "--paper": ("a4", "a3", "letter", "60"),
    "--metal": ("copper", "zinc", "steel"),
    "--mordant": ("ferric chloride", "nitric acid"),
    "--bites": ("0,0:15,0:30", "0", ","),
    "--wedge": ("21x0.15", "0 1 2", "0x0"),
    "--only": ("maps", "order,tracing", "x"),
    "--margin": ("60mm", "500mm"),
    "--size": ("120x30mm", "1x1"),
    "--simulate": ("events.csv",),
    "--strip": ("a.strip",),
    "--keep-edges": (),
    "--darkest-free": (),
    "--replace": (),
    "--wet": (),
    "--json": (),
    "--photograph": (),
    "--telling": (),
}
_STARTS = (
    ("plan", "picture", "--out", "out", "--plate", "30x22mm"),
    ("plan", "picture", "--out", "out", "--tones", "3", "--plate", "20x15mm", "--lines"),
    ("sheets", "a.plate", "--out", "out", "--only", "order"),
    ("strip", "plan", "--out", "card.pdf"),
    ("strip", "plan", "--plan", "a.plate"),
    ("strip", "read", "picture", "--bites", "0,0:15,0:30", "--out", "b.strip"),
    ("strip", "fit", "readings.csv", "--out", "b.strip"),
    ("curve", "a.strip"),
    ("curve", "a.strip", "--json"),
    ("tank", "a.plate", "--simulate", "events.csv"),
    ("--version",),
)
_PLACES = (".", "", "nowhere/x", "picture", "a" * 300, "a/" * 3000, "..")
_DEEP = Path("a/b/c/d/e/f/g")
"""Deeper than any word climbs."""


def damaged_command(chance: Random) -> bytes:
    """A command line, its words damaged; a last word says what becomes of the files."""
    words = list(one_of(chance, _STARTS))
    for _ in range(chance.randint(0, 4)):
        what = chance.randrange(6)
        at = chance.randrange(1, len(words) + 1)
        if what < 3:
            option = one_of(chance, sorted(_OPTIONS))
            usual = one_of(chance, _OPTIONS[option] or ("",))
            value = text_or_number(chance) if chance.random() < 0.25 else usual
            words += [option, value] if _OPTIONS[option] and chance.random() < 0.95 else [option]
        elif what == 3:
            words[at:at] = [text_or_number(chance)]
        elif what == 4 and at < len(words):
            words[at] = one_of(chance, (*_PLACES, *TEXTS))
        elif at < len(words):
            del words[at]
    files = one_of(chance, ("good", "good", "good", "damaged"))
    sound = (word.replace("\0", "") for word in (*words, files, str(chance.randrange(10**9))))
    return os.fsencode(_PARTED.join(sound).encode("utf-8", "replace").decode())


def run_command(data: bytes, folder: Path) -> None:
    """Run the words in ``folder``: they succeed, or are refused in a sentence."""
    *words, files, number = os.fsdecode(data).split(_PARTED)
    words = [word.lstrip("/") for word in words]  # what is asked for may be replaced
    folder = folder / _DEEP
    folder.mkdir(parents=True)
    _lay_out(folder, Random(number) if files == "damaged" else None)  # noqa: S311 (a seeded trial)
    said, errors = io.StringIO(), io.StringIO()
    before = Path.cwd()
    os.chdir(folder)
    try:
        with contextlib.redirect_stdout(said), contextlib.redirect_stderr(errors):
            status = _status(words)
    finally:
        os.chdir(before)
    told = errors.getvalue()
    if status not in (0, 2) or "Traceback" in told or (status == 2 and len(told) < 10):
        raise AssertionError(f"{status}: {told[-500:]}")


def _status(words: list[str]) -> int:
    if words and words[0] not in ("plan", "sheets", "strip", "curve", "tank", "--version"):
        words = ["plan", *words]  # anything else opens the window
    try:
        return main(words)
    except SystemExit as end:
        return int(end.code or 0)


@cache
def _files() -> dict[str, bytes]:
    return {
        "picture": pictures()["png"],
        "a.strip": strip_text(strip()).encode(),
        "readings.csv": b"total_bite,lightness\n0 s,91\n0:30,75\n1:00,62\n2:00,46\n4:00,31\n",
        "events.csv": b"time,event,value\n0:00:10,in\n0:00:40,out\n",
    }


def _lay_out(folder: Path, chance: Random | None) -> None:
    for name, content in _files().items():
        (folder / name).write_bytes(damaged_bytes(chance, content) if chance else content)
    curve = starting_curve(Conditions())
    write_plate(folder / "a.plate", PlateFile(plate(), curve, pictures()["png"]))
    if chance is not None:
        (folder / "picture").write_bytes(damaged_picture(chance))
        (folder / "a.plate").write_bytes(damaged_plate(chance))
