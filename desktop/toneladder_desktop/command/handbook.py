"""``toneladder handbook``: a chapter of the handbook, or where words stand in it."""

import argparse

from toneladder.handbook.chapters import Chapter, chapters
from toneladder.handbook.search import plain, search
from toneladder.wording import say, spoken

_MOST_HITS = 12


def add_handbook_words(commands: argparse.ArgumentParser) -> None:
    """The words of ``handbook``."""
    commands.set_defaults(run=run)
    commands.add_argument(
        "words", nargs="*", metavar="WORDS", help=say("a chapter's name, or words to look for")
    )


def run(chosen: argparse.Namespace) -> int:
    """Print the chapter of that name, or where the words stand; without words, all chapters."""
    book, words = chapters(spoken()), " ".join(chosen.words)
    for line in told(book, words):
        print(line)
    return 0


def told(book: tuple[Chapter, ...], words: str) -> list[str]:
    """What is printed."""
    if not words.strip():
        return [f"{chapter.name:<26}{chapter.title}" for chapter in book]
    for chapter in book:
        if plain(words) in {plain(chapter.name), plain(chapter.title)}:
            return chapter.text.splitlines()
    hits = search(book, words)
    if not hits:
        return [
            say(
                "“{words}” does not stand in the handbook. “toneladder handbook” lists its"
                " chapters.",
                words=words,
            )
        ]
    return [
        line
        for hit in hits[:_MOST_HITS]
        for line in (f"{hit.chapter.name}: {hit.heading}", f"    {hit.excerpt}")
    ]
