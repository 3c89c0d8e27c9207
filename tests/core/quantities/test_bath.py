"""Temperatures and strengths as people write them."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.errors import QuantityError
from toneladder.quantities import Manner, read_strength, read_temperature, write_temperature


def sentence_of(read: Callable[[str], object], text: str) -> str:
    try:
        read(text)
    except QuantityError as error:
        return str(error)
    return ""


@pytest.mark.parametrize(
    ("text", "celsius"),
    [
        ("20", 20.0),
        ("20C", 20.0),
        ("20 °C", 20.0),
        ("20\u00a0℃", 20.0),
        ("20 c", 20.0),
        ("20 °", 20.0),
        ("20,5", 20.5),
        ("+20", 20.0),
        ("68F", 20.0),
        ("68 °F", 20.0),
        ("32 °F", 0.0),  # by definition of the scale
        ("0", 0.0),
        ("60", 60.0),
    ],
)
def test_a_temperature_is_read_as_it_is_meant(text: str, celsius: float) -> None:
    assert read_temperature(text) == pytest.approx(celsius, abs=1e-9)


@pytest.mark.parametrize("text", ["-1", "−3 °C", "61", "31F", "212 °F", "1000000000"])
def test_no_bath_is_frozen_or_near_boiling(text: str) -> None:
    with pytest.raises(QuantityError, match="is outside"):
        read_temperature(text)


def test_the_bounds_are_named_on_the_scale_that_was_typed() -> None:
    with pytest.raises(QuantityError, match="outside 32\xa0°F to 140\xa0°F"):
        read_temperature("212 °F")


@pytest.mark.parametrize("text", ["", "warm", "20 K", "nan", "1,234", "20 °C °C", "2\x000"])
def test_what_is_no_temperature_is_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        read_temperature(text)


@given(st.integers(0, 600), st.sampled_from(".,"))
def test_what_is_written_is_read_back(tenths: int, decimal: str) -> None:
    celsius = tenths / 10
    assert read_temperature(write_temperature(celsius, Manner(decimal))) == celsius
    fahrenheit = write_temperature(celsius, Manner(decimal, fahrenheit=True))
    assert read_temperature(fahrenheit) == pytest.approx(celsius, abs=0.05 * 5 / 9 + 1e-9)


@pytest.mark.parametrize("text", ["38 °Bé", "38 Be", "38Bé", "38", "38 degrees Baumé", "38° be."])
def test_a_strength_is_a_label(text: str) -> None:
    assert read_strength(text) == "38\xa0°Bé"
    assert read_strength(read_strength(text)) == "38\xa0°Bé"


@pytest.mark.parametrize("text", ["", "0", "61", "-3", "strong", "38 %"])
def test_what_is_no_strength_is_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        read_strength(text)


@given(st.text(max_size=80))
def test_any_text_is_read_or_a_sentence(text: str) -> None:
    for read in (read_temperature, read_strength):
        assert sentence_of(read, text).replace("\xa0", " ").isprintable()
