"""A bath given to a colleague and taken in again."""

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.book.baths import begin_bath, list_baths
from toneladder.book.giving import (
    LONGEST_TEXT,
    bath_from,
    bath_text,
    give_bath,
    read_bath,
    take_in,
    what_was_done,
    write_bath,
)
from toneladder.book.opening import Book, open_book
from toneladder.book.strips import add_proof, keep_strip, strips_of
from toneladder.book.values import Bath, GivenBath
from toneladder.errors import BookError, RefusedPairError, StripError
from toneladder.strip.values import Patch, Session, Strip

BATH = Bath("Große Wanne", Metal.COPPER, Mordant.FERRIC_CHLORIDE, "38 °Bé", made_on="2026-01-01")
STRIP = Strip(
    Conditions(), (Patch(0.0, 91.0), Patch(960.0, 19.0)), bitten_on="2026-03-15", bath=BATH.name
)
LATER = replace(STRIP, bitten_on="2026-04-01")
PROOF = Session((Patch(30.0, 70.0),), 19.0, proof=True, name="boats")
GIVEN = GivenBath(BATH, (STRIP, LATER))


@pytest.fixture
def colleague(tmp_path: Path) -> Iterator[Book]:
    with open_book(tmp_path / "colleague.sqlite") as book:
        yield book


def test_a_bath_goes_from_one_book_into_another(
    book: Book, colleague: Book, tmp_path: Path
) -> None:
    number = begin_bath(book, BATH)
    for strip in (LATER, STRIP):
        keep_strip(book, number, strip)
    path = tmp_path / "a.bath"
    write_bath(path, give_bath(book, number))
    taken = take_in(colleague, read_bath(path))
    assert what_was_done(taken) == (
        "The bath “Große Wanne” was new to the studio book. With it came 2 new strips."
    )
    assert [kept.bath for kept in list_baths(colleague)] == [BATH]
    assert [one.strip for one in strips_of(colleague, taken.bath_id).strips] == [STRIP, LATER]
    assert give_bath(colleague, taken.bath_id) == GIVEN


def test_the_file_is_readable_and_each_strip_is_what_its_own_file_would_be() -> None:
    tree = json.loads(bath_text(GIVEN))
    assert next(iter(tree)) == "format"
    assert tree["format"] == 1
    assert tree["bath"]["name"] == "Große Wanne"
    assert "Große Wanne" in bath_text(GIVEN)
    assert tree["strips"][0]["format"] == 1
    assert tree["strips"][0]["patches"][1]["lightness"] == 19.0


def test_taken_in_again_only_what_is_new_is_added(book: Book) -> None:
    number = take_in(book, GivenBath(BATH, (replace(STRIP, note="mine"),))).bath_id
    both = replace(GIVEN, strips=(replace(STRIP, proofs=(PROOF,), note="theirs"), LATER))
    both = replace(both, bath=replace(BATH, note="theirs", made_on=""))
    taken = take_in(book, both)
    assert (taken.new, taken.strips_new, taken.strips_known, taken.proofs_new) == (False, 1, 1, 1)
    assert what_was_done(taken) == (
        "The bath “Große Wanne” was in the studio book already and is unchanged."
        " With it came 1 new strip, 1 strip that was there already, 1 new proof."
    )
    assert [kept.bath for kept in list_baths(book)] == [BATH]
    (first, _) = strips_of(book, number).strips
    assert (first.strip.note, first.strip.proofs) == ("mine", (PROOF,))
    assert what_was_done(take_in(book, replace(both, strips=()))).endswith("came no strips.")
    again = take_in(book, both)
    assert (again.strips_new, again.strips_known, again.proofs_new) == (0, 2, 0)


def test_a_proof_of_ones_own_outlives_the_colleagues_older_strip(book: Book) -> None:
    number = take_in(book, GIVEN).bath_id
    add_proof(book, strips_of(book, number).strips[0].id, PROOF)
    take_in(book, GIVEN)
    assert strips_of(book, number).strips[0].strip.proofs == (PROOF,)


def test_another_bath_of_the_same_name_is_refused_and_can_be_renamed(book: Book) -> None:
    begin_bath(book, replace(BATH, mordant=Mordant.NITRIC_ACID))
    with pytest.raises(RefusedPairError, match=r"is another.*Nothing was changed.*another name"):
        take_in(book, GIVEN)
    assert len(list_baths(book)) == 1
    taken = take_in(book, GIVEN, name="From a friend")
    assert (taken.new, taken.name) == (True, "From a friend")
    lot = replace(GIVEN, bath=replace(BATH, name="from a FRIEND", made_on="2026-02-02"))
    with pytest.raises(BookError, match="two lots"):
        take_in(book, lot)


def test_a_bath_with_an_unreadable_strip_is_not_given_in_part(book: Book) -> None:
    number = take_in(book, GIVEN).bath_id
    with book.writing() as connection:
        connection.execute("UPDATE strip_text SET text = '{}' WHERE strip_id = 1")
    with pytest.raises(StripError):
        give_bath(book, number)
    taken = take_in(book, GIVEN)
    assert (taken.strips_new, taken.strips_known) == (0, 2)


def test_nothing_is_taken_in_by_halves(book: Book) -> None:
    zinc = replace(STRIP, conditions=Conditions(Metal.ZINC, Mordant.NITRIC_ACID))
    with pytest.raises(RefusedPairError):
        take_in(book, replace(GIVEN, strips=(STRIP, zinc)))
    assert list_baths(book) == ()


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"format": 9}, "later version"),
        ({"format": 0}, "format is 0"),
        ({"colour": 1}, "“colour” is not known"),
        ({"bath": {"name": "a", "metal": "gold", "mordant": "nitric acid"}}, "bath.metal"),
        ({"bath": {"name": "a", "metal": "zinc", "mordant": "ferric chloride"}}, "Zinc must not"),
        ({"bath": {"name": "", "metal": "zinc", "mordant": "nitric acid"}}, "no name"),
        ({"bath": {"name": "a", "metal": "zinc", "mordant": "nitric acid"}}, "does not belong"),
        ({"bath": None}, "bath"),
        ({"strips": [{"format": 1}]}, "strip 1 is no strip"),
        ({"strips": [{"format": 99}]}, "strip 1 was saved by a later version"),
        ({"strips": ["text"]}, "strips"),
        ({"strips": {"a": 1}}, "strips"),
        ({"strips": [{}] * 2001}, "number of strips is 2001"),
    ],
)
def test_what_is_no_bath_is_refused_with_every_fault(change: dict[str, object], words: str) -> None:
    tree = json.loads(bath_text(GIVEN)) | change
    with pytest.raises(BookError, match=words):
        bath_from(json.dumps(tree), "a.bath")


@pytest.mark.parametrize(
    "text",
    [
        "",
        "[]",
        "null",
        "{",
        "[" * 100_000,
        '{"format": ' + "[" * 100_000,
        '{"format": 1e400}',
        '{"format": NaN}',
        '{"format": true}',
        '{"format": 99999999999999999999999999}',
        '{"format": 1, "strips": [' + '{"a":' * 50_000 + "1" + "}" * 50_000 + "]}",
        '{"format": 1, "bath": {"name": "\\ud800", "metal": "zinc", "mordant": "nitric acid"}}',
        '{"format": 1, "bath": {"name": "\\u0000", "metal": "zinc", "mordant": "nitric acid"}}',
        " " * (LONGEST_TEXT + 1),
    ],
    ids=lambda text: text[:24].strip() or "blank",
)
def test_hostile_text_is_refused_with_a_sentence(text: str) -> None:
    with pytest.raises(BookError):
        bath_from(text, "a.bath")


def test_files_that_are_no_baths_are_refused(tmp_path: Path) -> None:
    path = tmp_path / "a.bath"
    path.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(BookError, match="not text"):
        read_bath(path)
    for nowhere in (tmp_path / "none.bath", tmp_path):
        with pytest.raises(BookError, match="cannot be opened"):
            read_bath(nowhere)
    with pytest.raises(BookError, match="no name"):
        write_bath(tmp_path / "b.bath", GivenBath(replace(BATH, name=""), ()))
    assert not (tmp_path / "b.bath").exists()
