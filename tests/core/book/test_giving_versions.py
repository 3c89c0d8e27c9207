"""Baths that older versions gave away are taken in for ever, and mean what they meant."""

import json
from dataclasses import asdict, replace
from pathlib import Path

from toneladder.book.baths import list_baths
from toneladder.book.giving import bath_text, give_bath, read_bath, take_in
from toneladder.book.opening import open_book

VERSIONS = Path(__file__).parents[2] / "data" / "versions"


def test_a_bath_says_what_its_file_says_and_is_written_as_it_was(tmp_path: Path) -> None:
    path = VERSIONS / "bath_1.bath"
    given = read_bath(path)
    told = json.loads(path.read_text(encoding="utf-8"))
    assert json.loads(json.dumps(asdict(given.bath))) == told["bath"]
    assert [len(strip.patches) for strip in given.strips] == [6, 5]
    assert [strip.get("proofs", []) != [] for strip in told["strips"]] == [True, False]
    assert bath_text(given) == path.read_text(encoding="utf-8")
    with open_book(tmp_path / "book.sqlite") as book:
        taken = take_in(book, given)
        assert (taken.new, taken.strips_new) == (True, 2)
        (kept,) = list_baths(book)
        own = tuple(replace(strip, bath=given.bath.name) for strip in given.strips)
        assert give_bath(book, kept.id) == replace(given, strips=own)
