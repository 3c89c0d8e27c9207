r"""Every text a person reads goes through here, so that it can be said in another language.

>>> say("{n} tones, {bites} bites", n=6, bites=5)
'6 tones, 5 bites'
>>> say_number("{n} place", "{n} places", 1)
'1 place'

A number and its unit stay on one line, whoever wrote them.

>>> say("dries {n} min", n=20)
'dries 20\xa0min'
"""

import re
from collections.abc import Iterable, Mapping
from functools import cache
from gettext import GNUTranslations, NullTranslations, bindtextdomain, textdomain
from pathlib import Path

ENGLISH = "en"
LANGUAGES = {ENGLISH: "English", "de": "Deutsch"}
"""The languages that the program speaks, each by its own name."""

LONGER = "x-long"
"""English with every text two fifths longer: a trial of the room that texts have."""

_LONGER_BY = 0.4
_OUTSIDE_BRACES = re.compile(r"(\{[^}]*\})")
_VOWELS = "aeiouAEIOU"
_ACCENTED = str.maketrans(_VOWELS, "áéïöüÁÉÏÖÜ")
_HARD_SPACE = "\N{NO-BREAK SPACE}"
_BEFORE_UNIT = re.compile(
    r"(?<=[\d}]) (?=(?:mm|cm|cm²|m|s|min|h|g|MB|%|°C|°F|°Bé|L\*)(?![\w\N{PRIME}]))"
)
_ASKED_BY = ("LC_ALL", "LC_MESSAGES", "LANG")
_FOLDER = Path(__file__).parent / "languages"
_DOMAIN, _NO_DOMAIN = "toneladder", "messages"


class _Tongue:
    """The language spoken by the whole program; it is set once, at the start."""

    catalogue = NullTranslations()
    language = ENGLISH


def speak(catalogue: NullTranslations, language: str = ENGLISH) -> None:
    """Say everything from now on in the language of ``catalogue``."""
    _Tongue.catalogue, _Tongue.language = catalogue, language


def speak_language(language: str) -> None:
    """Say everything from now on in one of `LANGUAGES` or `LONGER`; in English if it is neither.

    What the standard library says of a command line comes out of the same catalogue.
    """
    textdomain(_NO_DOMAIN)
    if language == LONGER:
        speak(_Longer(), LONGER)
        return
    file = _FOLDER / language / "LC_MESSAGES" / f"{_DOMAIN}.mo"
    if language == ENGLISH or language not in LANGUAGES or not file.is_file():
        speak(NullTranslations())
        return
    with file.open("rb") as texts:
        speak(GNUTranslations(texts), language)
    bindtextdomain(_DOMAIN, str(_FOLDER))
    textdomain(_DOMAIN)


def spoken() -> str:
    """The language that everything is said in now."""
    return _Tongue.language


def language_of(names: Iterable[str]) -> str:
    """The first language that is spoken here, out of names such as ``de_AT.UTF-8``; else English.

    >>> language_of(["nl_NL.UTF-8", "de-AT", "en"])
    'de'
    """
    for name in names:
        if name == LONGER:
            return LONGER
        plain = re.split(r"[-_.@]", name.lower())[0]
        if plain in LANGUAGES:
            return plain
    return ENGLISH


def asked_for(environment: Mapping[str, str]) -> list[str]:
    """The languages that an environment asks for, the best first, as gettext reads it.

    >>> asked_for({"LANG": "de_DE.UTF-8"})
    ['de_DE.UTF-8']
    """
    place = next((environment[key] for key in _ASKED_BY if environment.get(key)), "C")
    if place.partition(".")[0] in {"C", "POSIX"}:
        return []
    return [name for name in environment.get("LANGUAGE", "").split(":") if name] or [place]


def say(text: str, /, **values: object) -> str:
    """``text`` in the reader's language, its ``{names}`` filled from ``values``."""
    said = held_together(_Tongue.catalogue.gettext(text))
    return said.format(**values) if values else said


def say_number(one: str, many: str, n: int, /, **values: object) -> str:
    """The form of the sentence that goes with ``n``; ``{n}`` is the number itself."""
    return held_together(_Tongue.catalogue.ngettext(one, many, n)).format(n=n, **values)


def begins(words: str) -> str:
    """Words as a sentence begins with them.

    >>> begins("line bite 2")
    'Line bite 2'
    """
    return words[:1].upper() + words[1:]


@cache
def held_together(text: str) -> str:
    """``text`` with no end of a line between a number and its unit."""
    return _BEFORE_UNIT.sub(_HARD_SPACE, text)


class _Longer(NullTranslations):
    """Each text drawn out."""

    def gettext(self, message: str) -> str:
        return longer(message)

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return longer(msgid1 if n == 1 else msgid2)


def longer(text: str) -> str:
    """``text`` two fifths longer, its vowels accented and drawn out; what is in braces stays.

    >>> longer("{n} tones of the plate")
    '{n} tööönééés ööf théé pláátéé'
    """
    parts = _OUTSIDE_BRACES.split(text)
    return "".join(part if n % 2 else _drawn_out(part) for n, part in enumerate(parts))


def _drawn_out(text: str) -> str:
    vowels = sum(letter in _VOWELS for letter in text)
    each, more = divmod(round(_LONGER_BY * len(text)), max(vowels, 1))
    drawn, met = "", 0
    for letter in text:
        drawn += letter
        if letter in _VOWELS:
            drawn += letter.lower() * (each + (met < more))
            met += 1
    return drawn.translate(_ACCENTED)
