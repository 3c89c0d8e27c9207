"""What is done with the book beside the window, where no window is needed to see it."""

from dataclasses import replace
from pathlib import Path

from tests.core.tank.hands import Hands
from tests.desktop.book.conftest import TALL

from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.book.baths import begin_bath, use_of
from toneladder.book.opening import open_book
from toneladder.book.tank_log import append_event, begin_session
from toneladder.book.values import BathUse, Logged, PlateEntry, TankSession
from toneladder.tank.begun import Begun, begun_text
from toneladder.tank.record import event_row
from toneladder_desktop.book.asked import KeepPlate
from toneladder_desktop.book.work import BookWork

ENTRY = PlateEntry("pier", "Pier", "/none/pier.plate", 1.0, Metal.COPPER, 6, bath="tall TANK")


def kept(path: Path, request: KeepPlate) -> BathUse:
    """How the one bath was used when the plate has been kept."""
    list(BookWork(path).work(request, lambda _words: None))
    with open_book(path) as book:
        return use_of(book, 1)


def bitten(path: Path) -> None:
    """A bath, and a plate that had its first bite."""
    hands = Hands()
    hands.bite()
    with open_book(path) as book:
        begin_bath(book, TALL)
        begun = Begun(hands.order, hands.facts)
        begin_session(book, TankSession("stay", "pier", hands.now.utc_s, begun_text(begun)))
        for event in hands.events:
            row = event_row(event)
            append_event(
                book,
                "stay",
                Logged(row.number, row.kind, row.boottime_s, row.utc_s, "first", row.detail),
            )


def test_a_plate_that_was_in_the_bath_counts_once_however_often_it_is_saved(path: Path) -> None:
    bitten(path)
    request = KeepPlate(ENTRY, Conditions())
    assert kept(path, request).plates == 1
    assert kept(path, request).plates == 1


def test_a_plate_that_was_never_bitten_uses_no_bath(path: Path) -> None:
    with open_book(path) as book:
        begin_bath(book, TALL)
    assert kept(path, KeepPlate(ENTRY, Conditions())).plates == 0


def test_a_plate_of_another_metal_never_counts_for_the_bath(path: Path) -> None:
    bitten(path)
    zinc = Conditions(metal=Metal.ZINC, mordant=Mordant.COPPER_SULPHATE_SALT)
    request = KeepPlate(replace(ENTRY, metal=Metal.ZINC), zinc)
    assert kept(path, request).plates == 0
