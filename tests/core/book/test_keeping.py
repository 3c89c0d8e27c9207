"""Copies of the book, and a damaged one set aside."""

import random
from pathlib import Path

import pytest

from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.book.baths import begin_bath, list_baths, note_use, use_of
from toneladder.book.giving import bath_text, give_bath, take_in
from toneladder.book.keeping import copy_book, require_sound, set_aside
from toneladder.book.opening import Book, open_book
from toneladder.book.plates import keep_plate, list_plates, thumbnail_of
from toneladder.book.prints import keep_proof, keep_pull, proofs_of, pulls_of
from toneladder.book.strips import keep_strip, list_strips, strips_of
from toneladder.book.tank_log import append_event, begin_session, events_of, sessions_of
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
from toneladder.errors import BookError, DamagedBookError, OutputError, ToneLadderError
from toneladder.strip.values import Patch, Strip

PNG = b"\x89PNG\r\n\x1a\n" + bytes(9000)
PLATES, EVENTS = 6, 4


def fill(book: Book) -> None:
    for name in ("Tall", "Low"):
        bath = begin_bath(book, Bath(name, Metal.COPPER, Mordant.FERRIC_CHLORIDE))
        for pull in range(1, 6):
            patches = tuple(Patch(15.0 * step, 91.0 - 9.0 * step) for step in range(8))
            keep_strip(book, bath, Strip(Conditions(), patches, pull=pull, note="x" * 300))
            note_use(book, bath, Conditions(), Use(Bitten.STRIP, str(pull), metal_g=1.0))
    for number in range(PLATES):
        name = str(number)
        plate = PlateEntry(
            name, "Boats " * 9, "/boats.plate", 1.0, Metal.COPPER, 5, record="w" * 99
        )
        keep_plate(book, plate, PNG)
        keep_proof(book, name, ProofReading("2026-01-01", 1, 0.5, "{}", note="n" * 200))
        keep_pull(book, name, Pull("2026-01-01", PullKind.STATE, note="n" * 200))
        begin_session(book, TankSession(name, name, 1.0, "{}"))
        for event in range(EVENTS):
            append_event(book, name, Logged(event, "note", 1.0, 2.0, "boot", '{"text": "calm"}'))


def use_all(path: Path) -> None:
    """Everything a window does with a book, each act by itself."""
    with open_book(path) as book:
        for act in (
            lambda: [strips_of(book, kept.id) for kept in list_baths(book)],
            lambda: [use_of(book, kept.id) for kept in list_baths(book)],
            lambda: [bath_text(give_bath(book, kept.id)) for kept in list_baths(book)],
            lambda: list_strips(book, words="rosin"),
            lambda: [thumbnail_of(book, one.plate.identity) for one in list_plates(book, "boats")],
            lambda: [proofs_of(book, str(number)) for number in range(PLATES)],
            lambda: [pulls_of(book, str(number)) for number in range(PLATES)],
            lambda: [sessions_of(book, str(number)) for number in range(PLATES)],
            lambda: [events_of(book, str(number)) for number in range(PLATES)],
            lambda: append_event(book, "3", Logged(EVENTS, "lifted", 1.0, 2.0)),
            lambda: keep_plate(book, PlateEntry("3", "n", "", 1.0, Metal.ZINC, 3), PNG),
            lambda: take_in(book, give_bath(book, 1), name="Third"),
        ):
            try:
                act()
            except ToneLadderError as fault:
                said.append(str(fault))


said: list[str] = []


def test_flipped_bytes_end_in_sentences_and_never_in_a_crash(path: Path) -> None:
    with open_book(path) as book:
        fill(book)
    whole = path.read_bytes()
    chance = random.Random(7)  # noqa: S311  (a seeded trial, no secret)
    refused = 0
    for _ in range(60):
        data = bytearray(whole)
        for _ in range(chance.choice((1, 20, 400))):
            data[chance.randrange(len(data))] ^= chance.randrange(1, 256)
        path.write_bytes(data)
        said.clear()
        try:
            use_all(path)
        except BookError as fault:
            said.append(str(fault))
        refused += bool(said)
        assert all(sentence.endswith(".") for sentence in said)
        for left in path.parent.glob("*-*"):
            left.unlink()
    assert refused > 20


def test_a_book_cut_short_is_damaged_and_stays_as_it_is(path: Path) -> None:
    with open_book(path) as book:
        fill(book)
    cut = path.read_bytes()[:50_001]
    path.write_bytes(cut)
    with (
        pytest.raises(DamagedBookError, match=r"damaged.*left as it is.*set aside.*fresh one"),
        open_book(path) as book,
        book.reading() as connection,
    ):
        require_sound(path, connection)
    assert path.read_bytes() == cut


def test_a_damaged_book_is_set_aside_with_all_its_parts_and_a_fresh_one_begun(path: Path) -> None:
    parts = {
        "": b"no book " * 1000,
        "-wal": b"its log",
        "-shm": b"its index",
        "-journal": b"its journal",
    }
    for _ in range(2):
        path.write_bytes(parts[""])
        with pytest.raises(DamagedBookError):
            open_book(path)
        for ending, data in parts.items():
            path.with_name(path.name + ending).write_bytes(data)
        aside = set_aside(path, "2026-03-15")
        assert {end: aside.with_name(aside.name + end).read_bytes() for end in parts} == parts
        with open_book(path) as book:
            fill(book)
    assert aside.name == "studio book set aside 2026-03-15 2.sqlite"
    assert path.with_name("studio book set aside 2026-03-15.sqlite").read_bytes() == parts[""]


def test_a_copy_is_whole_while_somebody_writes(book: Book, path: Path, tmp_path: Path) -> None:
    fill(book)
    to = tmp_path / "copy.sqlite"
    with book.writing() as connection:
        connection.execute("DELETE FROM plate")
        copy_book(path, to)
    with open_book(to) as copy:
        assert len(list_plates(copy)) == PLATES
        assert len(list_baths(copy)) == 2
    assert list_plates(book) == ()
    assert not list(tmp_path.glob(".*"))


def test_a_copy_that_cannot_be_made_leaves_what_was_there(
    book: Book, path: Path, tmp_path: Path
) -> None:
    fill(book)
    with pytest.raises((BookError, OutputError)):
        copy_book(path, tmp_path / "no such folder" / "copy.sqlite")
    with pytest.raises(BookError):
        copy_book(tmp_path / "no such book.sqlite", tmp_path / "copy.sqlite")
    assert not (tmp_path / "copy.sqlite").exists()
