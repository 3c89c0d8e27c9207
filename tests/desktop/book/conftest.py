"""A book of two plates and two baths, and a window that looks at it."""

from collections.abc import Callable
from pathlib import Path
from typing import Protocol, TypeVar

import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QMessageBox
from pytestqt.qtbot import QtBot

from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.book.baths import begin_bath
from toneladder.book.opening import FILE_NAME, Book, open_book
from toneladder.book.plates import keep_plate
from toneladder.book.strips import keep_strip
from toneladder.book.values import Bath, PlateEntry
from toneladder.proof.values import DifferenceMap, ProofReading, Registration, ToneReading
from toneladder.strip.values import Patch, Strip
from toneladder_desktop.bench.bench import Lying
from toneladder_desktop.bench.folders import data_folder
from toneladder_desktop.book.ledger import Ledger
from toneladder_desktop.book.view import BookView
from toneladder_desktop.window.bench_window import BenchWindow

PLENTY_MS = 20_000
Found = TypeVar("Found")
TALL = Bath(
    "Tall tank", Metal.COPPER, Mordant.FERRIC_CHLORIDE, "38 °Bé", made_on="2026-01-12", salt_g=5e3
)
TRAY = Bath("Zinc tray", Metal.ZINC, Mordant.COPPER_SULPHATE_SALT)
STRIP = Strip(
    Conditions(strength="38 °Bé"),
    tuple(Patch(bite, level) for bite, level in ((0, 93), (30, 80), (120, 58), (480, 26))),
    bitten_on="2026-03-09",
    grained_on="2026-03-08",
)


@pytest.fixture
def path() -> Path:
    return data_folder() / FILE_NAME


@pytest.fixture
def filled(path: Path, tmp_path: Path) -> Path:
    """The book is written before any window opens."""
    there = tmp_path / "pier.plate"
    there.touch()
    with open_book(path) as book:
        keep_strip(book, begin_bath(book, TALL), STRIP)
        begin_bath(book, TRAY)
        for identity, title, file, day in (
            ("pier", "Pier", there, 1),
            ("gone", "Herons", tmp_path / "herons.plate", 0),
        ):
            utc_s = 1_773_657_000.0 + 86_400.0 * day
            keep_plate(book, PlateEntry(identity, title, str(file), utc_s, Metal.COPPER, 5))
    return path


class Look(Protocol):
    """Reads in the book beside the window."""

    def __call__(self, act: Callable[[Book], Found]) -> Found:
        raise NotImplementedError


@pytest.fixture
def look(path: Path) -> Look:
    def read(act: Callable[[Book], Found]) -> Found:
        with open_book(path) as book:
            return act(book)

    return read


@pytest.fixture
def laid(window: BenchWindow, lying: Lying) -> BenchWindow:
    """A window with a plate that nobody waits for to be worked out."""
    window.bench.lay(lying)
    return window


def reading_of(*tones: ToneReading) -> ProofReading:
    """A proof that lay straight on its scan, with these tones read."""
    straight = Registration(
        matrix=((10.0, 0.0, 0.0), (0.0, 10.0, 0.0)),
        rotation_deg=0.0,
        scale=1.0,
        shift_mm=(0.0, 0.0),
        shear=0.0,
        residual_mm=0.1,
        score=0.9,
        confidence=0.9,
    )
    nothing = DifferenceMap(np.full((4, 6), np.nan, dtype=np.float32), 10.0)
    return ProofReading(straight, tones, unread=(), places=(), map=nothing)


def page(window: BenchWindow) -> BookView:
    view = window.pages.currentWidget()
    assert isinstance(view, BookView)
    return view


def shown(ledger: Ledger, row: int, column: int) -> str:
    """What a screen reader says of a cell."""
    return str(ledger.model().index(row, column).data(Qt.ItemDataRole.AccessibleTextRole))


def answer(qtbot: QtBot, verb: str) -> None:
    """Press a button of the question that lies over the window."""

    def asked() -> list[QMessageBox]:
        boxes = [w for w in QApplication.topLevelWidgets() if isinstance(w, QMessageBox)]
        return [box for box in boxes if box.isVisible()]

    qtbot.waitUntil(lambda: bool(asked()))
    next(button for button in asked()[0].buttons() if button.text() == verb).click()
