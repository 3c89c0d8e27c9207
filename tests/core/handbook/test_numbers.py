"""Every number that is explained says what it rests on."""

from dataclasses import asdict

import pytest

from toneladder.handbook.numbers import Explained, Source, every_number, number
from toneladder.order.values import Rates

NUMBERS = every_number()


@pytest.mark.parametrize("explained", NUMBERS.values(), ids=list(NUMBERS))
def test_a_number_names_its_source(explained: Explained) -> None:
    assert f"Source: {explained.source.value}." in explained.text
    assert explained.sentence.endswith(".")
    assert 30 < len(explained.text) < 260


def test_every_kind_of_source_is_met() -> None:
    assert {explained.source for explained in NUMBERS.values()} == set(Source)


def test_every_rate_of_the_hand_is_explained() -> None:
    assert {name for name in NUMBERS if name.startswith("pace.")} == {
        f"pace.{rate}" for rate in asdict(Rates())
    }


def test_one_number_is_found_by_its_name() -> None:
    assert number("curve.q").text == NUMBERS["curve.q"].text
    with pytest.raises(KeyError):
        number("curve.nothing")
