"""Texts can be said in another language."""

import re
from collections.abc import Iterator
from gettext import NullTranslations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.wording import (
    LANGUAGES,
    LONGER,
    asked_for,
    language_of,
    longer,
    say,
    say_number,
    speak,
    speak_language,
    spoken,
)


class Shouting(NullTranslations):
    def gettext(self, message: str) -> str:
        return message.upper().replace("{N}", "{n}")


@pytest.fixture(autouse=True)
def _english_again() -> Iterator[None]:
    yield
    speak(NullTranslations())


def test_a_text_is_said_in_the_language_that_was_set() -> None:
    speak(Shouting())
    assert say("{n} tones", n=5) == "5 TONES"


def test_the_form_goes_with_the_number() -> None:
    assert say_number("{n} place", "{n} places", 2) == "2 places"


def test_german_has_its_own_words_and_forms() -> None:
    speak_language("de")
    assert spoken() == "de"
    assert say("plate") == "Platte"
    assert say_number("{n} place", "{n} places", 1) == "1 Stelle"
    assert say_number("{n} place", "{n} places", 0) == "0 Stellen"


def test_a_text_without_a_translation_is_said_in_english() -> None:
    speak_language("de")
    assert say("nobody says this {n} times", n=2) == "nobody says this 2 times"


@pytest.mark.parametrize("language", ["en", "", "tlh", "../de"])
def test_any_other_language_is_english(language: str) -> None:
    speak_language("de")
    speak_language(language)
    assert (spoken(), say("plate")) == ("en", "plate")


@pytest.mark.parametrize("language", sorted(set(LANGUAGES) - {"en"}))
def test_every_offered_language_is_there(language: str) -> None:
    speak_language(language)
    assert spoken() == language


@pytest.mark.parametrize(
    ("environment", "language"),
    # the order of these four, and that LANGUAGE says nothing in the C locale, is gettext's:
    # GNU gettext manual, 2.3 "Setting the POSIX Locale" and 2.3.3 "LANGUAGE", from memory
    [
        ({}, "en"),
        ({"LANG": "de_DE.UTF-8"}, "de"),
        ({"LANG": "de"}, "de"),
        ({"LANG": "de_AT@euro"}, "de"),
        ({"LANG": "de_DE.UTF-8", "LC_ALL": "en_GB.UTF-8"}, "en"),
        ({"LANG": "en_GB.UTF-8", "LC_MESSAGES": "de_CH.UTF-8"}, "de"),
        ({"LANG": "en_GB.UTF-8", "LANGUAGE": "nl:de:en"}, "de"),
        ({"LANG": "C.UTF-8", "LANGUAGE": "de"}, "en"),
        ({"LANG": "de_DE.UTF-8", "LC_ALL": "C"}, "en"),
        ({"LANG": "den_CA.UTF-8"}, "en"),
        ({"LANG": "de_DE.UTF-8", "LC_ALL": ""}, "de"),
        ({"LANG": "en_GB.UTF-8", "LANGUAGE": "x-long"}, LONGER),
    ],
)
def test_the_environment_names_the_language(environment: dict[str, str], language: str) -> None:
    assert language_of(asked_for(environment)) == language


def test_the_longer_language_is_two_fifths_longer() -> None:
    text = "Nothing was changed. Choose a number in between."
    assert len(longer(text)) == pytest.approx(1.4 * len(text), abs=1)


def test_the_longer_language_fills_names_as_ever() -> None:
    speak_language(LONGER)
    assert "{" not in say("{head} The times: {source}", head="Hm.", source="x")
    assert say_number("{n:.0f} place", "{n:.0f} places", 3).startswith("3 ")


@given(st.text(alphabet="abeiou {}AEZ.&", max_size=40))
def test_what_stands_in_braces_is_never_touched(text: str) -> None:
    assert re.findall(r"\{[^}]*\}", longer(text)) == re.findall(r"\{[^}]*\}", text)


@pytest.mark.parametrize(
    ("text", "values", "said"),
    [
        ("about {n} min", {"n": 5}, "about 5\u00a0min"),
        ("{n} cm² a minute", {"n": 15}, "15\u00a0cm² a minute"),
        ("print at 100 %", {}, "print at 100\u00a0%"),
        ("10 to 20 min more", {}, "10 to 20\u00a0min more"),
        ("{metal} in {mordant}", {"metal": "zinc", "mordant": "acid"}, "zinc in acid"),
        ("Step 3 makes tone {n}", {"n": 3}, "Step 3 makes tone 3"),
        ("{n} months, {n} hours", {"n": 2}, "2 months, 2 hours"),
    ],
)
def test_no_line_ends_between_a_number_and_its_unit(
    text: str, values: dict[str, object], said: str
) -> None:
    assert say(text, **values) == said
