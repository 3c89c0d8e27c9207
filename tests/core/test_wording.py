"""Texts can be said in another language."""

from collections.abc import Iterator
from gettext import NullTranslations

import pytest

from toneladder.wording import say, say_number, speak


class Shouting(NullTranslations):
    def gettext(self, message: str) -> str:
        return message.upper().replace("{N}", "{n}")


@pytest.fixture
def shouting() -> Iterator[None]:
    speak(Shouting())
    yield
    speak(NullTranslations())


@pytest.mark.usefixtures("shouting")
def test_a_text_is_said_in_the_language_that_was_set() -> None:
    assert say("{n} tones", n=5) == "5 TONES"


def test_the_form_goes_with_the_number() -> None:
    assert say_number("{n} place", "{n} places", 2) == "2 places"
