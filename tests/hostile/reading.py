"""What becomes of each kind of damaged input: it is read and used, or refused in a sentence."""

import json
import sqlite3
from contextlib import closing, suppress
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
from tests.core.tank.hands import facts, order_of
from tests.hostile import parsers
from tests.hostile.archives import plate, strip
from tests.hostile.pictures import pictures

from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.book.baths import list_baths, use_of
from toneladder.book.giving import bath_from, take_in
from toneladder.book.opening import open_book
from toneladder.book.plates import list_plates, thumbnail_of
from toneladder.book.record import record_of
from toneladder.book.strips import list_strips, strips_of
from toneladder.errors import ToneLadderError
from toneladder.picture.opening import open_picture
from toneladder.plan.export import order_json
from toneladder.plan.planning import plan
from toneladder.plate.file import read_plate
from toneladder.plate.record import read_record
from toneladder.strip.curve import fit_strips
from toneladder.strip.file import strip_from
from toneladder.tank.begun import begun_from
from toneladder.tank.record import EventRow, event_from
from toneladder.tank.rehearsal import rehearse, words
from toneladder.tank.script import read_script
from toneladder.tank.session import session
from toneladder.tank.values import Moment

_SMALL_MM2 = 3_000.0
_OF_SVG = {"svg", "title", "desc", "defs", "pattern", "g", "path", "text", "tspan", "rect", "line"}
"""What a drawing of ours is made of: nothing that could run or fetch anything."""


def picture(data: bytes, _folder: Path) -> None:
    """A picture: its light is whole."""
    found = open_picture(data, name="a picture")
    if found.light.dtype != np.uint16 or found.light.size == 0:
        raise AssertionError(found.ref)


def plate_file(data: bytes, folder: Path) -> None:
    """A plate's file: planned, if it can be read and is small."""
    path = folder / "a.plate"
    path.write_bytes(data)
    found = read_plate(path)
    if found.plate.size.width_mm * found.plate.size.height_mm < _SMALL_MM2:
        done = plan(open_picture(found.picture, name="x"), found.plate, found.curve)
        json.loads(order_json(done))


def plate_record(data: bytes, _folder: Path) -> None:
    """The text of a plate: planned with a sound picture, if it can be read and is small."""
    parsers.record(data)
    found = read_record(data.decode("utf-8", "replace"))
    if found.plate.size.width_mm * found.plate.size.height_mm < _SMALL_MM2:
        opened = open_picture(pictures()["png"], name="x")
        done = plan(opened, replace(found.plate, picture=plate().picture), found.curve)
        json.loads(order_json(done))


def strip_file(data: bytes, _folder: Path) -> None:
    """A strip's file: its curve is drawn."""
    parsers.strip(data)
    fit_strips([strip_from(data.decode("utf-8", "replace"), "a.strip")])


def bath_file(data: bytes, folder: Path) -> None:
    """A bath's file: taken into a book."""
    parsers.bath(data)
    given = bath_from(data.decode("utf-8", "replace"), "a.bath")
    with open_book(folder / "book.sqlite") as book:
        take_in(book, given)
        for kept in list_baths(book):
            strips_of(book, kept.id)


def table(data: bytes, _folder: Path) -> None:
    """A pasted table."""
    parsers.table(data)


def typed(data: bytes, _folder: Path) -> None:
    """One typed value, read as all kinds of values."""
    parsers.typed(data)


def events(data: bytes, _folder: Path) -> None:
    """A table of the tank: rehearsed, if it can be read."""
    rows = read_script(data.decode("utf-8", "replace"), tuple(words()))
    rehearse(order_of(4), facts(), rows)


def logged(data: bytes, _folder: Path) -> None:
    """Rows of events, and what they were begun with, as the book keeps them."""
    parsers.begun(json.dumps(json.loads(data)[0]).encode())
    begun, rows = json.loads(data)
    order, told = order_of(4), facts()
    with suppress(ToneLadderError):
        found = begun_from(json.dumps(begun))
        order, told = found.order, found.facts
    made = []
    for number, row in enumerate(rows):
        with suppress(ToneLadderError):
            made.append(event_from(EventRow(number, *row)))
    session(order, told, made, Moment(9_000.0, 1_800_018_400.0, "first"))


def book(data: bytes, folder: Path) -> None:
    """A studio book: everything in it is looked at."""
    path = folder / "studio-book.sqlite"
    path.write_bytes(data)
    with open_book(path, patience_s=0.2) as opened:
        for act in (list_plates, list_strips, list_baths):
            with suppress(ToneLadderError):
                act(opened)
        for kept in list_baths(opened):
            with suppress(ToneLadderError):
                strips_of(opened, kept.id)
                use_of(opened, kept.id)
        for one in list_plates(opened):
            with suppress(ToneLadderError):
                thumbnail_of(opened, one.plate.identity)
                record_of(opened, one.plate.identity)


@cache
def usual_scan() -> bytes:
    """A scan of a strip and a plate's print."""
    from io import BytesIO

    from PIL import Image

    page = np.full((150, 420), 235, np.uint8)
    for number, grey in enumerate((230, 205, 180, 150, 120, 90, 60, 40)):
        page[50:100, 30 + 45 * number : 75 + 45 * number] = grey
    page = page + chance_noise(page.shape)
    file = BytesIO()
    Image.fromarray(page.clip(0, 255).astype(np.uint8)).save(file, "PNG")
    return file.getvalue()


def chance_noise(shape: tuple[int, ...]) -> np.ndarray:
    """A scanner's noise."""
    return np.random.default_rng(2).normal(0.0, 1.5, shape)


def scan(data: bytes, _folder: Path) -> None:
    """A scan, in which a strip and the print of a plate are looked for."""
    from toneladder.proof.reading import read_tones
    from toneladder.proof.registering import register
    from toneladder.scans.finding import find_strip
    from toneladder.scans.reading import read_patches

    light = open_picture(data, name="scan").light
    with suppress(ToneLadderError):
        found = find_strip(light, patches=8)
        read_patches(light, found, (0.0, 15.0, 30.0, 60.0, 90.0, 120.0, 180.0, 240.0))
    del read_tones, register


def settings(data: bytes, folder: Path) -> None:
    """The preferences' file: read, changed and written again."""
    from toneladder_desktop.bench.settings import Preferences

    path = folder / "preferences.ini"
    path.write_bytes(data)
    preferences = Preferences(path)
    preferences.change(paper="a3" if preferences.now.paper != "a3" else "letter")
    again = Preferences(path).now
    if again != preferences.now:
        raise AssertionError((again, preferences.now))


def recovery(data: bytes, folder: Path) -> None:
    """What a crash left, and the list of recent files."""
    from toneladder_desktop.bench.bench import Bench
    from toneladder_desktop.bench.recent import Recent
    from toneladder_desktop.bench.recovery import CurveOf, Recovery, take_back

    record, place, recent = data.split(b"\x1e" * 3)
    room = folder / "recovery"
    lost = room / "0123"
    lost.mkdir(parents=True)
    (lost / "plate.json").write_bytes(record)
    (lost / "place.json").write_bytes(place)
    (lost / plate().picture.sha256).write_bytes(pictures()["png"])
    (folder / "recent.json").write_bytes(recent)
    for path in Recent(folder / "recent.json").files():
        str(path)
    found = Recovery(Bench(), room, CurveOf(), lambda act: act()).left()
    for left in found:
        str(left.title)
        take_back(left)


def pasted(data: bytes, _folder: Path) -> None:
    """A piece of a spreadsheet, put into the strip's table."""
    from toneladder_desktop.strip.draft import Draft, Row

    text = data.decode("utf-8", "replace")
    for column in (0, 1):
        draft = Draft(Conditions(), (Row("0", "91"),)).pasted(text, 1, column)
        draft.bites_s()
        if len(draft.told()) != len(draft.rows):
            raise AssertionError(draft)
        draft.strip()


def sheets(data: bytes, _folder: Path) -> None:
    """A plate whose words are anything: its sheets, in every form they have."""
    from datetime import date
    from xml.etree import ElementTree as ET

    from toneladder.order.temperatures import bites_by_temperature
    from toneladder.sheets.documents import Wanted, documents
    from toneladder.sheets.order_text import order_text
    from toneladder_desktop.output.pdf import pdf_bytes

    found = read_record(data.decode("utf-8", "replace"))
    opened = open_picture(pictures()["png"], name="x")
    done = plan(opened, replace(found.plate, picture=plate().picture), found.curve)
    for document in documents(done, Wanted(date(2026, 3, 16))):
        if {"/", "\0"} & set(document.name):
            raise AssertionError(document.name)
        if document.sheets:
            pdf_bytes(document.sheets)
        else:
            tags = {one.tag.rpartition("}")[2] for one in ET.fromstring(document.text).iter()}  # noqa: S314 (ours)
            if tags - _OF_SVG:
                raise AssertionError(tags)
    json.loads(order_json(done))
    order_text(
        done.plate,
        done.order,
        standing=done.curve.standing,
        source=done.curve.source,
        made_on=date(2026, 3, 16),
        bath_bites=bites_by_temperature(done.order.steps, 20.0),
    )


@cache
def usual_book() -> bytes:
    """A studio book with something of everything in it."""
    from tempfile import TemporaryDirectory

    with TemporaryDirectory() as name:
        path = Path(name) / "book.sqlite"
        _fill(path)
        with closing(sqlite3.connect(path)) as connection:
            connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
            connection.execute("PRAGMA journal_mode = DELETE")
        return path.read_bytes()


def _fill(path: Path) -> None:
    from toneladder.book.baths import begin_bath, note_use
    from toneladder.book.plates import keep_plate
    from toneladder.book.prints import keep_proof, keep_pull
    from toneladder.book.strips import keep_strip
    from toneladder.book.tank_log import append_event, begin_session
    from toneladder.book.values import (
        Bath,
        Bitten,
        Logged,
        PlateEntry,
        ProofReading,
        Pull,
        PullKind,
        TankSession,
        Use,
    )
    from toneladder.tank.begun import Begun, begun_text

    with open_book(path) as opened:
        bath = begin_bath(opened, Bath("Tall", Metal.COPPER, Mordant.FERRIC_CHLORIDE))
        keep_strip(opened, bath, strip())
        note_use(opened, bath, Conditions(), Use(Bitten.PLATE, "boats", metal_g=1.0))
        entry = PlateEntry("boats", "Boats", "/boats.plate", 1.0, Metal.COPPER, 5, bath="Tall")
        keep_plate(opened, entry, pictures()["png"])
        keep_proof(opened, "boats", ProofReading("2026-03-15", 1, 2.0, "{}"))
        keep_pull(opened, "boats", Pull("2026-03-15", next(iter(PullKind))))
        text = begun_text(Begun(order_of(4), facts()))
        begin_session(opened, TankSession("stay", "boats", 1.8e9, text))
        for number, kind in enumerate(("counting", "started", "lifted", "closed")):
            append_event(opened, "stay", Logged(number, kind, 60.0 * number, 1.8e9 + 60 * number))


def usual_rows() -> list[list[object]]:
    """Events as they lie in the book."""
    from toneladder.tank.values import Kind

    return [
        [kind.value, 5000.0 + 20.0 * number, 1.8e9 + 20.0 * number, '{"boot": "first", "of": 1}']
        for number, kind in enumerate(Kind)
    ]
