"""Every kind of input there is: how it is damaged, and what reads it."""

import json
import sqlite3
from collections.abc import Callable
from contextlib import closing, suppress
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import Any

from tests.core.tank.hands import facts, order_of
from tests.hostile import reading
from tests.hostile.archives import damaged_plate, damaged_record, record, strip
from tests.hostile.awkward import NUMBERS, TEXTS, damaged_bytes, damaged_text, one_of
from tests.hostile.commands import damaged_command, run_command
from tests.hostile.pictures import damaged_picture
from tests.hostile.trees import damaged_json, deep_text

from toneladder.bite.values import Metal, Mordant
from toneladder.book.giving import bath_text
from toneladder.book.values import Bath, GivenBath
from toneladder.strip.file import strip_text
from toneladder.tank.begun import Begun, begun_text
from toneladder.tank.rehearsal import words

_TABLE = 'total_bite,lightness,spread\r\n0 s,91,0.5\r\n"1 min 15 s",63.5,\r\n2:00;46\r\n'
_TYPED = ("1 min 15 s", "1:15", "8 1/2 x 5 7/8 in", "38 Be", "68 °F", "09:30", "21x0.15", "7.5",
          "½", "-12°", "2026-03-15", "15. 3. 2026", "step 7", "0.05 0.2 0.35 0.5 0.65")  # fmt: skip
_SETTINGS = (
    "[General]\nlanguage=de\ndecimal=comma\ninches=1\nfahrenheit=0\nscheme=dark\npaper=a3\n"
    "printer=Studio\nleast_gain=0.2\nnotes_done=peg; sheets\n"
    "screen_px_per_mm=3.7\nladder_key=1\nmetal=copper\nmordant=ferric chloride\ngrain=rosin\n"
    "fineness=medium\nvarnish=spirit\npace_fill_cm2_per_min=20.0\npace_place_s=5.0\n"
    "pace_dry_min=None\n"
)


_DETAIL = '{"boot": "first", "of": 1, "seconds": 2.5, "reading": 20.0, "text": "x"}'


@dataclass(frozen=True, slots=True)
class Hostile:
    """A kind of input: ``damaged`` makes one, ``read`` gets it and an empty folder.

    ``share`` says how many there are of it among all.
    """

    name: str
    damaged: Callable[[Random], bytes]
    read: Callable[[bytes, Path], None]
    share: int


def _text(make: Callable[[Random], str]) -> Callable[[Random], bytes]:
    return lambda chance: make(chance).encode("utf-8", "surrogatepass")


def _json(text: Callable[[], str]) -> Callable[[Random], bytes]:
    return _text(
        lambda chance: deep_text(chance) if chance.random() < 0.01 else damaged_json(chance, text())
    )


@cache
def _bath() -> str:
    bath = Bath("Tall", Metal.COPPER, Mordant.FERRIC_CHLORIDE, litres=8.0, salt_g=100.0)
    return bath_text(GivenBath(bath, (strip(),)))


def _damaged_script(chance: Random) -> str:
    """A table that begins as a day does, and goes on with rows of any kind."""
    rows = ["0:00:10,in,", "0:00:40,out,", "0:05:00,note,x"][: chance.randint(0, 3)]
    for number in range(chance.randint(0, 4)):
        value = one_of(chance, ("", "1", "20", "0:30", "0:30 62.5", "0:10 ago", *TEXTS, *NUMBERS))
        rows.append(f"0:{6 + number:02}:00,{one_of(chance, (*words(),))},{value}")
    text = "time,event,value\n" + "\n".join(rows) + "\n"
    return damaged_text(chance, text) if chance.random() < 0.3 else text


_PASTED = "0\t91\r\n15 s\t82,5\n0:30;75\n1 min\t62\n\n4:00\t31\n"


def _damaged_words(chance: Random) -> str:
    """The text of a plate whose words are anything, and whose numbers are sound."""
    tree = json.loads(record())
    for _ in range(chance.randint(1, 5)):
        _swap_words(chance, tree)
    return json.dumps(tree)


def _swap_words(chance: Random, tree: Any) -> None:
    """Another text in the place of one that a person wrote."""
    written = [
        (holder, key)
        for holder in (tree["plate"], *tree["plate"]["evidence"]["strips"])
        for key in ("title", "bath", "ink", "paper", "note")
        if key in holder
    ]
    for strip_told in tree["plate"]["evidence"]["strips"]:
        written += [(proof, "name") for proof in strip_told["proofs"]]
    written += [(tree["plate"]["picture"], "name"), (tree["plate"]["conditions"], "strength")]
    written.append((tree["curve"], "source"))
    holder, key = one_of(chance, written)
    holder[key] = one_of(chance, TEXTS)


@cache
def _logged() -> str:
    begun = json.loads(begun_text(Begun(order_of(4), facts())))
    return json.dumps([begun, reading.usual_rows()])


def _damaged_log(chance: Random) -> bytes:
    """Begun and rows, of which at least the outermost list is whole: the book gives rows."""
    begun, rows = json.loads(_logged())
    if chance.random() < 0.4:
        with suppress(ValueError, RecursionError):
            begun = json.loads(damaged_json(chance, json.dumps(begun)))
    for _ in range(chance.randint(0, 6)):
        row = list(one_of(chance, rows))
        what = chance.randrange(4)
        if what == 0:
            row[what] = one_of(chance, TEXTS)
        elif what < 3:
            row[what] = one_of(chance, (0.0, -1e308, 1e308, 1e11, float("nan"), float("inf")))
        else:
            row[what] = damaged_json(chance, _DETAIL)
        rows.insert(chance.randrange(len(rows) + 1), row)
    chance.shuffle(rows)
    return json.dumps([begun, rows[: chance.randint(1, 20)]]).encode()


def _damaged_book(chance: Random) -> bytes:
    """A book with damaged bytes, or with values in its rows that nobody wrote."""
    data = reading.usual_book()
    if chance.random() < 0.5:
        return damaged_bytes(chance, data)
    with TemporaryDirectory() as name:
        path = Path(name) / "book.sqlite"
        path.write_bytes(data)
        with closing(sqlite3.connect(path, isolation_level=None)) as connection:
            connection.execute("PRAGMA ignore_check_constraints = ON")
            _damage_rows(chance, connection)
        return path.read_bytes()


def _damage_rows(chance: Random, connection: sqlite3.Connection) -> None:
    asked = "SELECT name FROM sqlite_master WHERE type = 'table'"
    tables = [name for (name,) in connection.execute(asked) if not name.startswith("sqlite_")]
    for _ in range(chance.randint(1, 4)):
        table = one_of(chance, tables)
        columns = [row[1] for row in connection.execute(f"PRAGMA table_info({table})")]
        value: object = one_of(
            chance,
            (None, -1, 2**62, 1e308, float("inf"), b"\0\xff", "x" * 5000, one_of(chance, TEXTS)),
        )
        if isinstance(value, str):
            value = value.encode("utf-8", "replace").decode()
        act = f"UPDATE {table} SET {one_of(chance, columns)} = ?"  # noqa: S608 (names of our own)
        with suppress(sqlite3.Error):
            connection.execute(act, (value,))
    if chance.random() < 0.1:
        connection.execute(f"PRAGMA user_version = {one_of(chance, (0, -1, 99, 2**31 - 1))}")


def _damaged_settings(chance: Random) -> bytes:
    lines = _SETTINGS.splitlines()
    for _ in range(chance.randint(1, 3)):
        at = chance.randrange(1, len(lines))
        key = lines[at].partition("=")[0]
        lines[at] = f"{key}={one_of(chance, one_of(chance, (TEXTS, NUMBERS)))}"
    text = "\n".join(lines)
    text = damaged_text(chance, text) if chance.random() < 0.3 else text
    data = text.encode("utf-8", "surrogatepass")
    return damaged_bytes(chance, data) if chance.random() < 0.2 else data


def _damaged_recovery(chance: Random) -> bytes:
    parts = [record(), '{"path": "/boats.plate"}', '["/boats.plate", "/waves.plate"]']
    at = chance.randrange(3)
    parts[at] = deep_text(chance) if chance.random() < 0.05 else damaged_json(chance, parts[at])
    return ("\x1e" * 3).join(parts).encode("utf-8", "surrogatepass")


def _damaged_scan(chance: Random) -> bytes:
    from io import BytesIO

    import numpy as np
    from PIL import Image

    if chance.random() < 0.3:
        return damaged_bytes(chance, reading.usual_scan())
    page = np.asarray(Image.open(BytesIO(reading.usual_scan()))).copy()
    for _ in range(chance.randint(1, 4)):
        y, x = chance.randrange(page.shape[0]), chance.randrange(page.shape[1])
        high, wide = one_of(chance, (1, 10, 60, 400)), one_of(chance, (1, 10, 60, 400))
        page[y : y + high, x : x + wide] = one_of(chance, (0, 255, 128))
        if chance.random() < 0.2:
            page = one_of(chance, (page.T, page[::-1], page[: y + 1], page[:, : x + 1], page // 9))
    file = BytesIO()
    Image.fromarray(np.ascontiguousarray(page)).save(file, "PNG")
    return file.getvalue()


KINDS = (
    Hostile("picture", damaged_picture, reading.picture, 30),
    Hostile("plate", damaged_plate, reading.plate_file, 8),
    Hostile("record", _text(damaged_record), reading.plate_record, 10),
    Hostile("strip", _json(lambda: strip_text(strip())), reading.strip_file, 10),
    Hostile("bath", _json(_bath), reading.bath_file, 6),
    Hostile("table", _text(lambda c: damaged_text(c, _TABLE)), reading.table, 10),
    Hostile("typed", _text(lambda c: damaged_text(c, one_of(c, _TYPED))), reading.typed, 10),
    Hostile("events", _text(_damaged_script), reading.events, 6),
    Hostile("logged", _damaged_log, reading.logged, 4),
    Hostile("book", _damaged_book, reading.book, 4),
    Hostile("settings", _damaged_settings, reading.settings, 4),
    Hostile("recovery", _damaged_recovery, reading.recovery, 4),
    Hostile("scan", _damaged_scan, reading.scan, 2),
    Hostile("pasted", _text(lambda c: damaged_text(c, _PASTED)), reading.pasted, 4),
    Hostile("sheets", _text(_damaged_words), reading.sheets, 1),
    Hostile("command", damaged_command, run_command, 2),
)
