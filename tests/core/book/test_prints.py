"""Proofs that were read, and prints with paper and ink."""

from dataclasses import replace

import pytest

from toneladder.bite.values import Metal
from toneladder.book.opening import Book
from toneladder.book.plates import keep_plate
from toneladder.book.prints import (
    change_pull,
    choose_best,
    keep_proof,
    keep_pull,
    proofs_of,
    pulls_of,
    remove_proof,
    remove_pull,
)
from toneladder.book.values import KeptProof, KeptPull, PlateEntry, ProofReading, Pull, PullKind
from toneladder.errors import BookError

PROOF = ProofReading("2026-05-01", 2, 1.25, '{"tones": []}', scan="/scans/1.tif", note="dry")
PULL = Pull("2026-06-01", PullKind.EDITION, 3, 30, "cream rag", "black", "deckle left")


@pytest.fixture(autouse=True)
def _plate(book: Book) -> None:
    keep_plate(book, PlateEntry("one", "Boats", "/boats.plate", 0.0, Metal.COPPER, 5))


def test_one_proof_at_most_is_the_best(book: Book) -> None:
    first, second = (keep_proof(book, "one", replace(PROOF, pull=pull)) for pull in (2, 3))
    choose_best(book, first)
    choose_best(book, second)
    assert proofs_of(book, "one") == (
        KeptProof(first, best=False, proof=PROOF),
        KeptProof(second, best=True, proof=replace(PROOF, pull=3)),
    )
    remove_proof(book, second)
    with pytest.raises(BookError, match="Nothing was changed"):
        choose_best(book, second)
    assert [kept.best for kept in proofs_of(book, "one")] == [False]


def test_prints_are_kept_changed_and_removed(book: Book) -> None:
    later = keep_pull(book, "one", PULL)
    earlier = keep_pull(book, "one", Pull("2026-05-30", PullKind.ARTIST))
    assert pulls_of(book, "one") == (
        KeptPull(earlier, Pull("2026-05-30", PullKind.ARTIST)),
        KeptPull(later, PULL),
    )
    change_pull(book, later, replace(PULL, kind=PullKind.SPOILT))
    remove_pull(book, earlier)
    assert pulls_of(book, "one") == (KeptPull(later, replace(PULL, kind=PullKind.SPOILT)),)
    with pytest.raises(BookError, match="Nothing was changed"):
        remove_pull(book, earlier)
    with pytest.raises(BookError, match="Nothing was changed"):
        change_pull(book, earlier, PULL)


@pytest.mark.parametrize(
    ("pull", "words"),
    [
        (replace(PULL, number=31), "31 is more than the edition of 30"),
        (replace(PULL, number=0), "number is 0"),
        (replace(PULL, pulled_on="1 June"), "no date"),
        (replace(PULL, paper="x" * 500), "longer"),
    ],
)
def test_a_print_out_of_bounds_is_refused(book: Book, pull: Pull, words: str) -> None:
    with pytest.raises(BookError, match=words):
        keep_pull(book, "one", pull)
    assert pulls_of(book, "one") == ()


@pytest.mark.parametrize(
    ("proof", "words"),
    [
        (replace(PROOF, reading="{"), "no JSON"),
        (replace(PROOF, miss=float("nan")), "missed is nan"),
        (replace(PROOF, pull=0), "pull is 0"),
    ],
)
def test_a_reading_out_of_bounds_is_refused(book: Book, proof: ProofReading, words: str) -> None:
    with pytest.raises(BookError, match=words):
        keep_proof(book, "one", proof)
    with pytest.raises(BookError, match="does not know this plate"):
        keep_proof(book, "two", PROOF)
    assert proofs_of(book, "one") == ()
