"""Strips of a bath: each once, readable for ever, told apart from damage."""

from dataclasses import replace

import pytest

from toneladder.bite.values import Conditions, Fineness, Metal, Mordant
from toneladder.book.baths import begin_bath, change_bath
from toneladder.book.opening import Book
from toneladder.book.strips import (
    add_proof,
    change_strip,
    keep_strip,
    list_strips,
    remove_strip,
    strips_of,
)
from toneladder.book.values import Bath, StripLine
from toneladder.errors import BookError, RefusedPairError, StripError
from toneladder.strip.values import Dryness, Patch, Session, Strip

STRIP = Strip(
    Conditions(fineness=Fineness.FINE, temperature_c=18.5),
    (Patch(0.0, 91.0), Patch(15.0, 82.5, 0.8), Patch(960.0, 19.0)),
    bitten_on="2026-03-15",
    grained_on="2026-03-14",
    ink="Schwärze",
    note="foot went in first",
)
PROOF = Session((Patch(30.0, 70.0), Patch(300.0, 30.0)), 19.0, proof=True, name="boats")


def test_a_strip_comes_back_as_it_was_kept_with_its_baths_name(book: Book, bath_id: int) -> None:
    number = keep_strip(book, bath_id, STRIP)
    later = keep_strip(book, bath_id, replace(STRIP, bitten_on="2026-04-01"))
    undated = keep_strip(book, bath_id, replace(STRIP, bitten_on=""))
    found = strips_of(book, bath_id)
    assert [kept.id for kept in found.strips] == [undated, number, later]
    assert found.strips[1].strip == replace(STRIP, bath="Tall tank")
    assert found.unreadable == ()


def test_the_same_strip_is_kept_once_with_the_proofs_of_both(book: Book, bath_id: int) -> None:
    number = keep_strip(book, bath_id, STRIP)
    add_proof(book, number, PROOF)
    again = replace(STRIP, note="better words", proofs=(replace(PROOF, name="cliffs"),))
    assert keep_strip(book, bath_id, again) == number
    (kept,) = strips_of(book, bath_id).strips
    assert kept.strip.note == "better words"
    assert [proof.name for proof in kept.strip.proofs] == ["boats", "cliffs"]


def test_a_wet_reading_and_another_pull_are_other_strips(book: Book, bath_id: int) -> None:
    keep_strip(book, bath_id, STRIP)
    keep_strip(book, bath_id, replace(STRIP, dryness=Dryness.WET))
    keep_strip(book, bath_id, replace(STRIP, pull=3))
    assert len(strips_of(book, bath_id).strips) == 3


def test_whole_numbers_and_fractions_are_the_same_strip(book: Book, bath_id: int) -> None:
    number = keep_strip(book, bath_id, STRIP)
    whole = replace(STRIP, patches=(Patch(0, 91), Patch(15, 82.5, 0.8), Patch(960, 19)))
    assert keep_strip(book, bath_id, whole) == number
    assert strips_of(book, bath_id).unreadable == ()


def test_a_proof_is_added_once(book: Book, bath_id: int) -> None:
    number = keep_strip(book, bath_id, STRIP)
    assert add_proof(book, number, PROOF).proofs == (PROOF,)
    assert add_proof(book, number, PROOF).proofs == (PROOF,)
    assert list_strips(book)[0].proofs == 1


def test_a_strip_of_another_metal_is_refused(book: Book, bath_id: int) -> None:
    zinc = replace(STRIP, conditions=Conditions(Metal.ZINC, Mordant.NITRIC_ACID))
    with pytest.raises(RefusedPairError, match="does not belong"):
        keep_strip(book, bath_id, zinc)
    number = keep_strip(book, bath_id, STRIP)
    with pytest.raises(RefusedPairError, match="does not belong"):
        change_strip(book, number, zinc)
    assert strips_of(book, bath_id).strips[0].strip.conditions == STRIP.conditions


def test_a_strip_is_changed_and_removed(book: Book, bath_id: int) -> None:
    number = keep_strip(book, bath_id, STRIP)
    other = keep_strip(book, bath_id, replace(STRIP, pull=3))
    change_strip(book, number, replace(STRIP, bitten_on="2026-03-16"))
    assert list_strips(book)[0].bitten_on == "2026-03-16"
    with pytest.raises(BookError, match="already"):
        change_strip(book, other, replace(STRIP, bitten_on="2026-03-16"))
    remove_strip(book, number)
    with pytest.raises(BookError, match="not in the studio book any more"):
        remove_strip(book, number)
    assert [kept.id for kept in strips_of(book, bath_id).strips] == [other]
    with pytest.raises(StripError, match="lightness of patch 1"):
        keep_strip(book, bath_id, replace(STRIP, patches=(Patch(0.0, 101.0),)))


def test_a_renamed_bath_renames_its_strips(book: Book, bath_id: int) -> None:
    keep_strip(book, bath_id, STRIP)
    change_bath(book, bath_id, Bath("Low tray", Metal.COPPER, Mordant.FERRIC_CHLORIDE))
    assert strips_of(book, bath_id).strips[0].strip.bath == "Low tray"
    assert len(list_strips(book, words="low TRAY")) == 1


def test_lines_say_what_a_list_needs_and_are_found_by_words(book: Book, bath_id: int) -> None:
    number = keep_strip(book, bath_id, STRIP)
    other = begin_bath(book, Bath("Zweite", Metal.COPPER, Mordant.FERRIC_CHLORIDE))
    keep_strip(book, other, replace(STRIP, bitten_on="2026-05-01", ink="100% black", note=""))
    line = StripLine(
        number,
        bath_id,
        "2026-03-15",
        "2026-03-14",
        Dryness.DRY,
        STRIP.conditions.grain,
        Fineness.FINE,
        18.5,
        3,
        960.0,
        0,
    )
    assert list_strips(book, bath_id) == (line,)
    for words in ("SCHWÄRZE", "tall foot", "2026-03-15 rosin", "went  FIRST"):
        assert list_strips(book, words=words) == (line,)
    assert [one.bath_id for one in list_strips(book)] == [other, bath_id]
    assert [one.bath_id for one in list_strips(book, words="100%")] == [other]
    for words in ("%", "_", "schw_rze", "foot second"):
        assert all(one.id != number for one in list_strips(book, words=words))
    assert list_strips(book, most=1, after=1) == (line,)


def test_one_bad_strip_hides_no_other(book: Book, bath_id: int) -> None:
    good = keep_strip(book, bath_id, replace(STRIP, pull=5))
    altered, later, lost = (
        keep_strip(book, bath_id, replace(STRIP, pull=pull)) for pull in (1, 2, 3)
    )
    with book.writing() as connection:
        for number, before, after in (
            (altered, "82.5", "28.5"),
            (later, '"format": 1', '"format": 99'),
        ):
            connection.execute(
                "UPDATE strip_text SET text = replace(text, ?, ?) WHERE strip_id = ?",
                (before, after, number),
            )
        connection.execute("DELETE FROM strip_text WHERE strip_id = ?", (lost,))
    found = strips_of(book, bath_id)
    assert [kept.id for kept in found.strips] == [good]
    assert len(found.unreadable) == 3
    assert any("later version" in one for one in found.unreadable)
    assert any("its patches are not those that were kept" in one for one in found.unreadable)
