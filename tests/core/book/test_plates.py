"""Plates: kept under their identity, found by their words."""

from dataclasses import replace

import pytest

from toneladder.bite.values import Metal
from toneladder.book.opening import Book
from toneladder.book.plates import forget_plate, keep_plate, list_plates, plate_of, thumbnail_of
from toneladder.book.prints import choose_best, keep_proof, keep_pull, proofs_of, pulls_of
from toneladder.book.tank_log import begin_session, sessions_of
from toneladder.book.values import (
    KeptPlate,
    PlateEntry,
    ProofReading,
    Pull,
    PullKind,
    TankSession,
)
from toneladder.errors import BookError

PNG = b"\x89PNG\r\n\x1a\n" + bytes(40)
BOATS = PlateEntry(
    "one",
    "Boats at Étaples",
    "/plates/boats.plate",
    1_700_000_000.0,
    Metal.COPPER,
    5,
    bath="Große Wanne",
    paper="cream rag",
    ink="Schwärze 100%",
    record="calm_sea",
)
CLIFFS = replace(
    BOATS, identity="two", title="Cliffs", saved_utc_s=1_800_000_000.0, metal=Metal.ZINC, record=""
)


def test_a_plate_saved_again_takes_its_own_place(book: Book) -> None:
    keep_plate(book, BOATS, PNG)
    moved = replace(BOATS, path="/elsewhere/boats.plate", tones=6, saved_utc_s=1_900_000_000.0)
    keep_plate(book, moved)
    assert list_plates(book) == (KeptPlate(moved, None),)
    assert plate_of(book, "one") == KeptPlate(moved, None)
    assert plate_of(book, "none") is None
    assert thumbnail_of(book, "one") == PNG
    assert thumbnail_of(book, "none") == b""
    keep_plate(book, moved, PNG + b"new")
    assert thumbnail_of(book, "one") == PNG + b"new"


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("", ["two", "one"]),
        ("étaples", ["one"]),
        ("ÉTAPLES boats", ["one"]),
        ("zinc", ["two"]),
        ("GROSSE", ["two", "one"]),
        ("schwärze RAG copper", ["one"]),
        ("100%", ["two", "one"]),
        ("calm_sea", ["one"]),
        ("%", ["two", "one"]),
        ("calm%sea", []),
        ("b_ats", []),
        ("boats cliffs", []),
        ("'; DROP TABLE plate; --", []),
    ],
)
def test_every_word_must_be_found_and_no_sign_is_special(
    book: Book, words: str, found: list[str]
) -> None:
    for plate in (BOATS, CLIFFS):
        keep_plate(book, plate)
    assert [kept.plate.identity for kept in list_plates(book, words)] == found


def test_a_long_list_comes_in_pieces(book: Book) -> None:
    for number in range(5):
        keep_plate(book, replace(BOATS, identity=str(number), saved_utc_s=float(number)))
    pieces = [list_plates(book, "boats", most=2, after=after) for after in (0, 2, 4, 6)]
    found = [[kept.plate.identity for kept in piece] for piece in pieces]
    assert found == [["4", "3"], ["2", "1"], ["0"], []]


def test_a_plate_is_found_by_what_it_was_printed_on(book: Book) -> None:
    keep_plate(book, BOATS)
    keep_plate(book, CLIFFS)
    keep_pull(book, "two", Pull("2026-05-01", PullKind.EDITION, 1, 20, "Japan ÜBER", "sepia"))
    assert [kept.plate.identity for kept in list_plates(book, "über SEPIA cliffs")] == ["two"]


def test_the_list_says_what_the_best_proof_missed(book: Book) -> None:
    keep_plate(book, BOATS)
    first = keep_proof(book, "one", ProofReading("2026-05-01", 2, 1.25, "{}"))
    keep_proof(book, "one", ProofReading("2026-05-02", 3, 2.5, "{}"))
    assert list_plates(book)[0].best_miss is None
    choose_best(book, first)
    assert list_plates(book)[0].best_miss == 1.25


def test_a_forgotten_plate_takes_its_prints_along_but_not_the_tanks_log(book: Book) -> None:
    keep_plate(book, BOATS, PNG)
    keep_proof(book, "one", ProofReading("2026-05-01", 2, 1.25, "{}"))
    keep_pull(book, "one", Pull("2026-05-01", PullKind.ARTIST))
    begin_session(book, TankSession("s", "one", 0.0, "{}"))
    forget_plate(book, "one")
    assert list_plates(book) == ()
    assert (thumbnail_of(book, "one"), proofs_of(book, "one"), pulls_of(book, "one")) == (
        b"",
        (),
        (),
    )
    assert len(sessions_of(book, "one")) == 1
    with pytest.raises(BookError, match="does not know this plate"):
        forget_plate(book, "one")


@pytest.mark.parametrize(
    ("plate", "thumbnail", "words"),
    [
        (replace(BOATS, identity=""), b"", "no name of its own"),
        (replace(BOATS, tones=1), b"", "number of tones"),
        (replace(BOATS, saved_utc_s=float("inf")), b"", "moment is inf"),
        (replace(BOATS, path="a\udcffb"), b"", "cannot be written"),
        (replace(BOATS, record="x" * 20_001), b"", "longer than"),
        (BOATS, b"GIF89a", "no PNG"),
        (BOATS, PNG + bytes(1_000_000), "too large"),
    ],
)
def test_a_plate_out_of_bounds_is_refused(
    book: Book, plate: PlateEntry, thumbnail: bytes, words: str
) -> None:
    with pytest.raises(BookError, match=words):
        keep_plate(book, plate, thumbnail)
    assert list_plates(book) == ()
