"""The handbook says in every language what it says in English: chapter by chapter, part by part."""

import re
from itertools import pairwise

import pytest

from toneladder.handbook.chapters import Chapter, chapters
from toneladder.wording import LANGUAGES

_LINK = re.compile(r"\]\(([a-z-]+)\)")
_FIGURE = re.compile(r"(?<![A-Za-z])\d+(?:[.,]\d+)?")
OTHERS = sorted(set(LANGUAGES) - {"en"})


def pairs() -> list[tuple[Chapter, Chapter]]:
    english = chapters()
    return [pair for one in OTHERS for pair in zip(english, chapters(one), strict=True)]


def figures(chapter: Chapter) -> list[str]:
    """Its numbers, a decimal comma being a point; those that count a list's items left out."""
    text = re.sub(r"^\d+\. ", "", chapter.text, flags=re.MULTILINE)
    return sorted(found.replace(",", ".") for found in _FIGURE.findall(text))


@pytest.mark.parametrize(("english", "other"), pairs(), ids=lambda chapter: chapter.name)
def test_a_chapter_has_the_same_parts_links_and_figures(english: Chapter, other: Chapter) -> None:
    assert other.name == english.name
    assert len(other.sections) == len(english.sections)
    assert sorted(_LINK.findall(other.text)) == sorted(_LINK.findall(english.text))
    assert figures(other) == figures(english)
    for mine, theirs in zip(other.sections, english.sections, strict=True):
        if english.name != "words":  # its list has an order of its own in each language
            assert items(mine.text) == items(theirs.text)


def items(text: str) -> list[str]:
    """How the lists go on: every dash or number that begins an item."""
    return re.findall(r"^(?:-|\d+\.) ", text, flags=re.MULTILINE)


@pytest.mark.parametrize("language", OTHERS)
def test_words_are_in_the_order_of_the_alphabet(language: str) -> None:
    (words,) = (one for one in chapters(language) if one.name == "words")
    found = re.findall(r"^- \*\*([^*,]+)", words.text, flags=re.MULTILINE)
    plain = str.maketrans("äöü", "aou")
    assert all(a <= b for a, b in pairwise([word.lower().translate(plain) for word in found]))
