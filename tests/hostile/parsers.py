"""Every reader that is the program's own, fed bytes: it reads them, or refuses with a sentence.

What was read is written and read again where that can be done, and has to be the same.
"""

import os
import tempfile
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from toneladder import quantities
from toneladder.book.giving import bath_from, bath_text
from toneladder.errors import ToneLadderError
from toneladder.picture.profile import way_of
from toneladder.plate.file import read_plate, write_plate
from toneladder.plate.record import read_record, write_record
from toneladder.scans.greys import read_grey_scale
from toneladder.strip.file import strip_from, strip_text
from toneladder.strip.readings import Unit, read_reading, read_spread
from toneladder.strip.table import read_table, write_table
from toneladder.tank.begun import begun_from, begun_text
from toneladder.tank.rehearsal import words
from toneladder.tank.script import read_script

TYPED: tuple[Callable[[str], object], ...] = (
    quantities.read_bite,
    quantities.read_time_of_day,
    quantities.read_day,
    quantities.read_length,
    lambda text: quantities.read_length(text, "in"),
    quantities.read_size,
    quantities.read_temperature,
    quantities.read_strength,
    lambda text: quantities.read_number(text, 0.0, 100.0, "7.5"),
    quantities.read_tone,
    quantities.read_angle,
    read_spread,
    read_grey_scale,
    *(lambda text, unit=unit: read_reading(text, unit, (0.05, 0.3, 0.6)) for unit in Unit),
)
"""Readers of one typed value."""


class NotTheSameError(AssertionError):
    """What was written is not what was read."""


def typed(data: bytes) -> None:
    """One value as somebody typed it; bytes that are no text arrive as halves of letters."""
    text = data.decode("utf-8", "surrogateescape")
    for reader in TYPED:
        with suppress(ToneLadderError):
            reader(text)


def table(data: bytes) -> None:
    """A pasted table of readings."""
    text = data.decode("utf-8", "replace")
    for unit in (None, *Unit):
        with suppress(ToneLadderError):
            found = read_table(text, unit, (0.05, 0.3, 0.6))
            str(found.sentence)
            if found.patches:
                again = read_table(write_table(found.patches))
                _same(len(again.patches), len(found.patches))


def script(data: bytes) -> None:
    """A table of what happened at the tank."""
    with suppress(ToneLadderError):
        read_script(data.decode("utf-8", "replace"), tuple(words()))


def record(data: bytes) -> None:
    """``plate.json``."""
    with suppress(ToneLadderError):
        found = read_record(data.decode("utf-8", "replace"))
        text = write_record(found.plate, found.curve)
        _same(read_record(text), read_record(text.encode().decode()))


def strip(data: bytes) -> None:
    """A strip's file."""
    with suppress(ToneLadderError):
        found = strip_from(data.decode("utf-8", "replace"), "a.strip")
        _same(strip_from(strip_text(found).encode().decode(), "a.strip"), found)


def bath(data: bytes) -> None:
    """A bath's file."""
    with suppress(ToneLadderError):
        found = bath_from(data.decode("utf-8", "replace"), "a.bath")
        _same(bath_from(bath_text(found).encode().decode(), "a.bath"), found)


def begun(data: bytes) -> None:
    """What a session at the tank was begun with."""
    with suppress(ToneLadderError):
        found = begun_from(data.decode("utf-8", "replace"))
        _same(begun_from(begun_text(found).encode().decode()), found)


def plate(data: bytes) -> None:
    """A plate's file, read and written again."""
    folder = Path("/dev/shm") if os.access("/dev/shm", os.W_OK) else Path(tempfile.gettempdir())  # noqa: S108 (names are made by mkdtemp)
    with tempfile.TemporaryDirectory(dir=folder) as name:
        path, again = Path(name) / "a.plate", Path(name) / "b.plate"
        path.write_bytes(data)
        with suppress(ToneLadderError):
            found = read_plate(path)
            write_plate(again, found)
            _same(read_plate(again), found)


def profile(data: bytes) -> None:
    """A colour profile, whose tone curves are read here."""
    for channels, space in ((1, b"GRAY"), (3, b"RGB ")):
        way_of(data[:16] + space + data[20:], channels, 256)


def _same(found: object, wanted: object) -> None:
    if found != wanted:
        raise NotTheSameError(repr(found)[:500])
