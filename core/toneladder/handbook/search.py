"""Looking words up in the handbook: where all of them stand, the fullest sections first."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from unicodedata import combining, normalize

from toneladder.handbook.chapters import Chapter, Section

_IN_HEADING = 8
_IN_TITLE = 4
_SIDE_BY_SIDE = 10
_AROUND = 60
_WORD = re.compile(r"\w+")


@dataclass(frozen=True, slots=True)
class Hit:
    """A section that holds every word that was looked for, and the place of the first of them."""

    chapter: Chapter
    heading: str
    excerpt: str
    weight: int


def search(chapters: Sequence[Chapter], words: str) -> tuple[Hit, ...]:
    """Sections that hold all of ``words``, each at the beginning of a word.

    Capitals and accents do not matter. A word counts once for every time it stands in the
    section, eight times more in its heading and four times more in the chapter's title; the
    words side by side, as they were typed, count ten times. The section with most comes first,
    and of those alike the one that comes first in the book.

    Parameters
    ----------
    chapters : sequence of Chapter
        The book.
    words : str
        As typed; without a word nothing is found.
    """
    wanted = words_of(words)
    if not wanted:
        return ()
    hits = [
        hit
        for chapter in chapters
        for section in chapter.sections
        if (hit := _hit(chapter, section, wanted)) is not None
    ]
    return tuple(sorted(hits, key=lambda hit: -hit.weight))


def words_of(typed: str) -> tuple[str, ...]:
    """What is looked for, as :func:`plain` writes it, each word once."""
    return tuple(dict.fromkeys(_WORD.findall(plain(typed))))


def plain(text: str) -> str:
    """Small letters without accents.

    >>> plain("Baumé")
    'baume'
    """
    apart = normalize("NFKD", text.casefold())
    return "".join(letter for letter in apart if not combining(letter))


def unmarked(text: str) -> str:
    """Markdown on one line, as it is read.

    >>> unmarked("- *dry*, see [Test strips](test-strips)")
    'dry, see Test strips'
    """
    text = re.sub(r"\[([^]]+)\]\([^)]*\)", r"\1", text)
    text = re.sub(r"(?m)^(- |\d+\. )", "", text)
    return " ".join(re.sub(r"[*#\\]", "", text).split())


def _hit(chapter: Chapter, section: Section, wanted: Sequence[str]) -> Hit | None:
    line, phrase = unmarked(section.text), " ".join(wanted)
    text, heading, title = plain(line), plain(section.heading), plain(chapter.title)
    if not all(_count(text, word) + _count(heading, word) for word in wanted):
        return None
    counts = [
        _count(text, word) + _IN_HEADING * _count(heading, word) + _IN_TITLE * _count(title, word)
        for word in wanted
    ]
    together = _count(text, phrase) + _count(heading, phrase) if len(wanted) > 1 else 0
    weight = sum(counts) + _SIDE_BY_SIDE * together
    return Hit(chapter, section.heading, _excerpt(line, (phrase, *wanted)), weight)


def _count(text: str, word: str) -> int:
    return len(re.findall(rf"\b{re.escape(word)}", text))


def _excerpt(line: str, wanted: Sequence[str]) -> str:
    """What stands round the first of ``wanted`` that is there at all, cut between words."""
    starts = [found.start() for found in re.finditer(r"\S+", line)]
    at = next((s for word in wanted for s in starts if _begins(line[s:], word)), 0)
    first = next((start for start in starts if start >= at - _AROUND), 0)
    last = next((start for start in starts if start > at + _AROUND), len(line))
    cut = line[first:last].strip()
    return f"{'… ' if first else ''}{cut}{' …' if last < len(line) else ''}"


def _begins(text: str, word: str) -> bool:
    """Whether a text begins with a word, whatever stands before its first letter."""
    return plain(text[: 2 * len(word) + 2]).lstrip("(*“‘·").startswith(word)
