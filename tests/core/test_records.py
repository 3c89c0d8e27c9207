"""Texts of files as values: strict, and every fault named."""

from dataclasses import asdict, dataclass

import pytest

from toneladder.records import bounds, format_of, listed, read_record, text_of


@dataclass(frozen=True, slots=True)
class Pot:
    name: str
    litres: float = 1.0


@dataclass(frozen=True, slots=True)
class Shelf:
    format: int
    pots: tuple[Pot, ...] = ()


SHELF = Shelf(1, (Pot("bone black", 0.5), Pot("extender")))


def test_what_is_written_is_read_again() -> None:
    text = text_of(asdict(SHELF))
    assert read_record(text, Shelf, longest=1000) == (SHELF, ())
    assert format_of(text) == 1


def test_every_fault_is_named_also_inside_of_lists() -> None:
    text = '{"format": "one", "pots": [{"name": "oil", "litres": 2, "colour": 3}, {}], "lid": 1}'
    record, found = read_record(text, Shelf, longest=1000)
    assert record is None
    sentence = listed(found)
    for word in ("“pots.0.colour” is not known", "“lid” is not known", "format:", "pots.1.name"):
        assert word in sentence


@pytest.mark.parametrize(
    "text", ["", "{", "[" * 100_000, '{"format": NaN}', '{"format": 1e999}', '{"format": 1}' * 2]
)
def test_what_is_no_json_is_no_record(text: str) -> None:
    record, found = read_record(text, Shelf, longest=1_000_000)
    assert record is None
    assert len(found) == 1
    assert "no JSON" in found[0]


def test_a_text_that_is_far_too_long_is_not_read_at_all() -> None:
    assert "far too long" in read_record(" " * 101, Shelf, longest=100)[1][0]


def test_a_format_is_a_number_or_nothing() -> None:
    assert [format_of(text) for text in ('{"format": "2"}', "[1]", "{")] == [None, None, None]


def test_a_long_list_of_faults_is_cut_and_counted() -> None:
    assert listed([f"fault {n}." for n in range(30)]).endswith("fault 19; and 10 more")


def test_bounds_speak_only_when_they_are_passed() -> None:
    assert list(bounds("The pot", 2.0, 0.0, 5.0)) == []
    assert list(bounds("The pot", 7.0, 0.0, 5.0, unit=" l")) == [
        "The pot is 7 l; it must lie between 0 and 5."
    ]
    assert len(list(bounds("The pot", float("nan"), 0.0, 5.0))) == 1


@pytest.mark.parametrize("value", [10**400, -(10**400), float("nan"), float("inf")])
def test_a_number_beyond_every_bound_is_still_told_of(value: float) -> None:
    (sentence,) = bounds("The count", value, 0, 10)
    assert sentence.startswith("The count is ")
