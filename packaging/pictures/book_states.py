"""States of the studio book: a book of some winters' work, written before it is looked at."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from pictures.studio import Studio
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QWidget

from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.book.baths import begin_bath, note_use, retire_bath
from toneladder.book.opening import FILE_NAME, Book, open_book
from toneladder.book.plates import keep_plate
from toneladder.book.prints import choose_best, keep_proof, keep_pull
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
from toneladder.plate.identity import identity_of
from toneladder.strip.planning import doubling_strip
from toneladder.strip.values import Patch, Strip
from toneladder.tank.begun import Begun, begun_text
from toneladder.tank.facts import facts_of
from toneladder.tank.record import event_row
from toneladder.tank.values import Event, Kind, Moment
from toneladder_desktop.bench.folders import data_folder
from toneladder_desktop.bench.glimpse import glimpse_of_sample
from toneladder_desktop.book.pictures import as_png, small
from toneladder_desktop.window.bench_window import BenchWindow

_DAY_S = 86_400.0
_NOW_S = 1_773_657_000.0  # 16 March 2026
_READ = (92.0, 84.5, 76.0, 66.0, 52.0, 37.0, 25.0, 20.0)
_PLATES = (
    ("Breakwater at dusk", Metal.COPPER, 6, "Tall tank", 4.0),
    ("Ropery stairs", Metal.COPPER, 5, "Tall tank", None),
    ("Two herons, ebb", Metal.ZINC, 4, "Zinc tray", 7.0),
    (
        "The harbour wall at low water, seen from the upper window of the ropery",
        Metal.COPPER,
        8,
        "",
        2.0,
    ),
    ("Salt marsh", Metal.ZINC, 5, "Zinc tray", None),
    ("Lamp and nets", Metal.COPPER, 6, "Tall tank", 3.0),
    ("Slipway, first snow", Metal.ALUMINIUM, 3, "", None),
    ("Winter beeches", Metal.COPPER, 7, "Old tank", 6.0),
    ("Study of a crab", Metal.ZINC, 4, "Zinc tray", None),
)


def plates(studio: Studio) -> None:
    """The ledger of plates, some of whose files are gone."""
    _filled(studio)
    studio.window.book.open()
    studio.rest(1.0)


def nothing_found(studio: Studio) -> None:
    """A search without hits."""
    plates(studio)
    _part(studio, "plates").search.setText("mezzotint")
    studio.rest(1.0)


def empty(studio: Studio) -> None:
    """A book without plates."""
    studio.sample()
    studio.window.book.open()
    studio.rest(0.6)


def empty_baths(studio: Studio) -> None:
    """A book without baths."""
    studio.sample()
    studio.window.book.open_baths()
    studio.rest(0.6)


def baths(studio: Studio) -> None:
    """The ledger of baths, with the strips of one."""
    _filled(studio)
    studio.window.book.open_baths()
    studio.rest(1.0)


def new_bath(studio: Studio) -> None:
    """A bath begun from the card, for the open plate."""
    _filled(studio)
    studio.window.book.begin_bath()
    studio.rest(1.0)


def record(studio: Studio) -> None:
    """The record of a plate that was at the tank, with proofs and prints."""
    _filled(studio)
    studio.window.book.open_record()
    studio.rest(2.0)


def noting(studio: Studio) -> None:
    """A print is being noted."""
    record(studio)
    _part(studio, "record").note.click()
    studio.rest()


def damaged(studio: Studio) -> None:
    """A book that cannot be read."""
    _filled(studio)
    path = _path()
    path.write_bytes(path.read_bytes()[:100] + b"\x00" * 50_000)
    studio.window.book.open()
    studio.rest(1.0)


def bath_on_the_card(studio: Studio) -> None:
    """The card's own choice of a kept bath."""
    _filled(studio)
    top = studio.window.top
    top.card.open(top.bath)
    studio.rest(0.6)
    top.bath.kept.list.setCurrentIndex(2)
    top.bath.kept.list.activated.emit(2)
    studio.drawn()


BOOK_STATES: dict[str, Callable[[Studio], object]] = {
    "book-plates": plates,
    "book-nothing-found": nothing_found,
    "book-empty": empty,
    "book-baths": baths,
    "book-baths-empty": empty_baths,
    "book-new-bath": new_bath,
    "book-damaged": damaged,
    "bath-on-the-card": bath_on_the_card,
    "record": record,
    "record-noting": noting,
}


def _part(studio: Studio, name: str) -> QWidget:
    return getattr(studio.window.pages.currentWidget(), name)


def _path() -> Path:
    return data_folder() / FILE_NAME


def _filled(studio: Studio) -> None:
    studio.sample()
    with open_book(_path()) as book:
        _keep_baths(book)
        _keep_plates(book, studio.window)
    studio.rest()


def _keep_baths(book: Book) -> None:
    tall = Bath(
        "Tall tank",
        Metal.COPPER,
        Mordant.FERRIC_CHLORIDE,
        "38 °Bé",
        made_on="2026-01-12",
        litres=12.0,
        salt_g=5000.0,
    )
    number = begin_bath(book, tall)
    tray = Bath("Zinc tray", Metal.ZINC, Mordant.COPPER_SULPHATE_SALT, made_on="2026-02-20")
    begin_bath(book, tray)
    old = replace(tall, name="Old tank", made_on="2025-03-02", note="given up: too cold there")
    retire_bath(book, begin_bath(book, old), "2026-01-10")
    for at in range(9):
        use = Use(Bitten.PLATE, f"plate {at}", "2026-02-01", 40.0)
        note_use(book, number, Conditions(), use)
    for at, day in enumerate(("2026-01-14", "2026-02-18", "2026-03-09")):
        bites = doubling_strip(Conditions()).bites_s
        patches = tuple(Patch(bite, level - at) for bite, level in zip(bites, _READ, strict=False))
        keep_strip(book, number, Strip(Conditions(), patches, bitten_on=day, grained_on=day))


def _keep_plates(book: Book, window: BenchWindow) -> None:
    sample = glimpse_of_sample()
    own = Path(window.windowFilePath() or __file__)
    for at, (title, metal, tones, bath, miss) in enumerate(_PLATES):
        identity = f"plate {at}" if at else _identity(window)
        path = str(own) if at % 3 != 2 else f"/plates/winter/{title.lower()}.plate"
        saved = _NOW_S - 9.3 * at * _DAY_S
        entry = PlateEntry(
            identity, title, path, saved, metal, tones, bath, "warm white", "black", "rosin"
        )
        keep_plate(book, entry, as_png(_piece(sample, at)))
        if miss is not None:
            proof = ProofReading("2026-03-14", 2, miss, "{}", note="wiped warm")
            choose_best(book, keep_proof(book, identity, proof))
    _bite_and_print(book, window, _identity(window))


def _bite_and_print(book: Book, window: BenchWindow, identity: str) -> None:
    plan = window.workings.plan
    if plan is None:
        return
    begun = begun_text(Begun(plan.order, facts_of(plan)))
    begin_session(book, TankSession("stay", identity, _NOW_S, begun))
    clock = Moment(100.0, _NOW_S, "boot")
    given = [step.bite_s for step in plan.order.steps]
    events = [Event(0, Kind.CHECKED, clock)]
    for bite in (given[0], given[1] + 12.0):
        at = events[-1].at.later(3.0)
        events.append(Event(len(events), Kind.GIVEN, at, seconds=bite))
        events.append(Event(len(events), Kind.STOPPING_OUT, at.later(30.0)))
        events.append(Event(len(events), Kind.DRY, at.later(3000.0)))
    for event in events:
        row = event_row(event)
        logged = Logged(row.number, row.kind, row.boottime_s, row.utc_s, "boot", row.detail)
        append_event(book, "stay", logged)
    for number in range(1, 5):
        keep_pull(
            book,
            identity,
            Pull("2026-03-15", PullKind.EDITION, number, 20, "rag, 300 g", "bone black"),
        )
    keep_pull(book, identity, Pull("2026-03-15", PullKind.ARTIST, 1, 2, "rag, 300 g"))
    keep_pull(book, identity, Pull("2026-03-14", PullKind.SPOILT, note="creased at the foot"))


def _piece(sample: QImage, at: int) -> QImage:
    """Another piece of the sample's print for every plate."""
    width, height = sample.width(), sample.height()
    share = (1.0, 0.6, 0.5, 0.8, 0.45)[at % 5]
    wide, high = round(width * share), round(height * (share if at % 2 else share * 0.8))
    return small(sample.copy((width - wide) * (at % 3) // 2, (height - high) // 2, wide, high), 320)


def _identity(window: BenchWindow) -> str:
    plate = window.bench.plate
    return "" if plate is None else identity_of(plate)
