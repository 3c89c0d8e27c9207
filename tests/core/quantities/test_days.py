"""Days are read as people write them, and written as the language writes them."""

from collections.abc import Iterator

import pytest

from toneladder.errors import QuantityError
from toneladder.quantities import read_day, write_day
from toneladder.wording import ENGLISH, speak_language


@pytest.fixture(autouse=True)
def _english_again() -> Iterator[None]:
    yield
    speak_language(ENGLISH)


@pytest.mark.parametrize("typed", ["2026-11-25", "25.11.2026", " 25. 11. 2026 "])
def test_a_day_is_read_in_either_form(typed: str) -> None:
    assert read_day(typed) == "2026-11-25"


@pytest.mark.parametrize(("language", "written"), [("en", "2026-11-25"), ("de", "25.11.2026")])
def test_a_day_is_written_in_the_manner_of_the_language(language: str, written: str) -> None:
    speak_language(language)
    assert write_day("2026-11-25") == written
    assert read_day(written) == "2026-11-25"


def test_what_was_typed_is_quoted_in_the_manner_of_the_language() -> None:
    speak_language("de")
    with pytest.raises(QuantityError, match=r"„25/11/2026“ .* 15\.03\.2026\."):
        read_day("25/11/2026")
