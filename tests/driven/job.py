"""The whole job of one plate, act by act, whoever's hand does it.

A photograph is laid on a plate, sized, parted into tones; a parting is moved and a place noted
otherwise; it is planned by a strip that was typed; it is saved, its sheets go into a PDF; it is
bitten, its proof is read, and on another day it lies there as it was left.
"""

import time
from collections.abc import Callable
from pathlib import Path

from tests.driven.desk import Desk, until
from tests.driven.evidence import pull, readings
from tests.driven.hands import ByKeys, ByReader, Hand
from tests.driven.reader import Part, Reader, UnreachableError

from toneladder.plate.file import PlateFile, read_plate

TONES = 3
SIZE = "90 x 60 mm"
NOTED_MM = (75.0, 40.0)
READINGS = "Readings of the strip"
_WAITED_FOR = ("Not yet", "Is it out?")
_LONGEST_S = 90.0


class Job:
    """One plate's way through the program; ``acts`` are to be done in their order."""

    def __init__(self, desk: Desk, photo: Path, keys: bool) -> None:
        self.desk, self._photo, self._keys = desk, photo, keys
        self.plate, self.pdf = desk.home / "plate.plate", desk.home / "sheets.pdf"
        self.again = desk.home / "again.plate"
        self.reader: Reader
        self.app: Part
        self.hand: Hand

    def acts(self) -> list[tuple[str, Callable[[], None]]]:
        """Every act, with its name."""
        return [
            ("open the window", self.begin),
            ("open a photograph", self.open_photograph),
            ("set the size of the plate", self.size),
            ("set the number of tones", self.tones),
            ("move a parting", self.part),
            ("note a place on the print", self.note),
            ("type a strip, and plan by it", self.strip),
            ("save", self.save),
            ("sheets into a PDF", self.sheets),
            ("bite at the tank", self.bite),
            ("read a proof", self.proof),
            ("save again", self.save_again),
            ("close, and open the plate again", self.reopen),
        ]

    def begin(self) -> None:
        """The window comes with its sample."""
        self._open()
        self._front("Breakwater at dusk")
        self._settle("Tones: 6 tones")

    def open_photograph(self) -> None:
        self.hand.menu("File", "Open …", "o")
        self.hand.file("Open a plate or a picture", self._photo)
        self._front("Hill")
        self._settle("Picture: hill.jpg")

    def size(self) -> None:
        self.hand.answer("Width × height", SIZE)
        self._settle("Plate: copper, 90\N{NO-BREAK SPACE}×\N{NO-BREAK SPACE}60")

    def tones(self) -> None:
        self.hand.press("Tones: ", "check box")
        self.hand.number("Number of tones", TONES)
        self._settle(f"Tones: {TONES} tones")

    def part(self) -> None:
        self.hand.move("Parting of tones 1 and 2", 4)
        self._settle(f"Tones: {TONES} tones, 2 bites; even steps, 1 held")

    def note(self) -> None:
        self.hand.press("Notes on the print", "check box")
        self.hand.press("Lighter by one", "check box")
        self.hand.mark(*NOTED_MM)
        self._settle("Notes on the print: 1 note")

    def strip(self) -> None:
        self.hand.menu("Bath", "Test strip …", "s")
        table = self.app.find("table", READINGS)
        bites = [table.cell(row, 0).name for row in range(table.rows - 1)]
        self.hand.fill(READINGS, 1, readings(bites))
        self.hand.press("Plan by this strip")
        self._settle(f"Strip: read; {len(bites)} patches")

    def save(self) -> None:
        self.hand.menu("File", "Save", "s")
        self.hand.file("Save the plate", self.plate)
        self._saved(self.plate)

    def sheets(self) -> None:
        self.hand.press("Sheets to print")
        self.app.find("dialog", "Sheets to print").find("label", "3 pages")
        self.hand.press("Save as a PDF")
        self.hand.file("Save the sheets as a PDF", self.pdf)
        self.app.find("label", "Saved as")
        self.hand.away("Sheets to print")

    def bite(self) -> None:
        """Both bites, as the tank asks for them."""
        self.hand.menu("Bath", "At the tank …", "t")
        end, done = time.monotonic() + _LONGEST_S, ""
        while done != "Close":
            asked = self._asked()
            if asked and asked[1] != done and not asked[1].startswith(_WAITED_FOR):
                done = asked[1]
                self.hand.main_act(done)
            elif asked and asked[1].startswith(_WAITED_FOR):
                done = ""
            if time.monotonic() > end:
                raise TimeoutError(done)
            time.sleep(0.1)
        self.app.find("label", "The bites that were really given")

    def proof(self) -> None:
        proof = self.desk.home / "proof.png"
        pull(self.file(), proof)
        self.hand.menu("Bath", "Read a proof …", "p")
        self.hand.press("Open a scan")
        self.hand.file("Open a scan or a photograph", proof)
        table = self.app.find("table", "Tones, as planned and as printed")
        until(lambda: table.cell(0, 2).name != "not read", "the proof")
        self.hand.press("Leave as it was")
        self._settle("Tones:")

    def save_again(self) -> None:
        before = self.plate.stat().st_mtime_ns
        self.hand.menu("File", "Save", "s")
        until(lambda: self.plate.stat().st_mtime_ns != before, "saving")
        self._saved(self.plate)

    def reopen(self) -> None:
        """The window goes, and another comes with the plate's file, which is saved elsewhere."""
        self.hand.menu("File", "Close the window", "c")
        until(lambda: self._program.poll() == 0, "the end of the program")
        self._open(self.plate)
        self._front("Hill")
        self._settle("Notes on the print: 1 note")
        self.hand.menu("File", "Save as …", "a")
        self.hand.file("Save the plate", self.again)
        self._saved(self.again)

    def file(self) -> PlateFile:
        """The plate as it was saved."""
        return read_plate(self.plate)

    def _open(self, *paths: Path) -> None:
        self._program = self.desk.open(*paths)
        self.reader = self.desk.read()
        self.app = self.reader.desktop.find("application", "Tone Ladder", _LONGEST_S)
        self.hand = ByKeys(self.app, self.reader, self.desk) if self._keys else ByReader(self.app)

    def _front(self, title: str) -> None:
        self.app.find("frame", title, _LONGEST_S)

    def _settle(self, answer: str) -> None:
        """An answer on the card, and the day that follows from it."""
        self.app.find("check box", answer, _LONGEST_S)
        until(self._planned, answer, _LONGEST_S)

    def _planned(self) -> bool:
        day = self.app.seek("filler", "The day")
        return day is not None and "begin" in day.description

    def _saved(self, path: Path) -> None:
        self.app.find("label", path.name)
        until(lambda: self.app.seek("frame", "Hill –") is not None, f"{path.name} saved")

    def _asked(self) -> tuple[str, str] | None:
        """What the tank says, and the one thing that it asks."""
        for window in self.app.children:
            try:
                if window.role == "dialog" and not window.is_called("Sheets"):
                    (main, *_) = [part for part, role in window.walk() if role == "push button"]
                    return window.name, main.name
            except (UnreachableError, ValueError):
                continue
        return None
