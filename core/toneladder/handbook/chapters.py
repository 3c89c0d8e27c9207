"""The chapters of the handbook: Markdown files, one folder for each language.

A chapter's file is ``NN-name.md``: its place in the book, and the name by which other chapters and
the window's parts know it. Its first line is its title.
"""

import re
from dataclasses import dataclass
from importlib.resources import files
from importlib.resources.abc import Traversable

from toneladder.errors import HandbookError
from toneladder.handbook.numbers import every_number
from toneladder.quantities import written
from toneladder.wording import held_together, say

ENGLISH = "en"
NUMBERS = "numbers"
"""The chapter that every number and every source is added to."""

_CODE, _DECIMAL = re.compile(r"(`[^`]*`)"), re.compile(r"(\d)[.,](?=\d)")
KEYS = "keys"
"""The chapter that a window adds the keys of its menus to."""


@dataclass(frozen=True, slots=True)
class Section:
    """A heading and what stands under it, as Markdown."""

    heading: str
    text: str


@dataclass(frozen=True, slots=True)
class Chapter:
    """A chapter: its name, its title, and its whole text as Markdown."""

    name: str
    title: str
    text: str

    @property
    def sections(self) -> tuple[Section, ...]:
        """Its parts by their headings; the first bears the chapter's title."""
        found: list[tuple[str, list[str]]] = []
        for line in self.text.splitlines():
            if line.startswith("#"):
                found.append((line.lstrip("# "), []))
            elif found:
                found[-1][1].append(line)
        return tuple(Section(heading, "\n".join(lines).strip()) for heading, lines in found)


def chapters(language: str = ENGLISH) -> tuple[Chapter, ...]:
    """All chapters in their order; in English if there are none in ``language``."""
    book = files("toneladder.handbook")
    folder = book / language
    if not folder.is_dir():
        folder = book / ENGLISH
    pages = sorted((page for page in folder.iterdir() if page.name.endswith(".md")), key=_place)
    return tuple(_chapter(page) for page in pages)


def chapter(name: str, language: str = ENGLISH) -> Chapter:
    """One chapter by its name.

    Raises
    ------
    HandbookError
        There is none.
    """
    for found in chapters(language):
        if found.name == name:
            return found
    raise HandbookError(
        say("The handbook has no chapter “{name}”. Look at the list of chapters.", name=name)
    )


def _place(page: Traversable) -> str:
    return page.name


def _chapter(page: Traversable) -> Chapter:
    name = page.name.removesuffix(".md").partition("-")[2]
    text = _with_numbers_written(page.read_text(encoding="utf-8").strip() + "\n")
    title = text.partition("\n")[0].lstrip("# ")
    return Chapter(name, title, text + _numbers_and_sources() if name == NUMBERS else text)


def _with_numbers_written(text: str) -> str:
    """The chapter's numbers with the decimal sign that is preferred, and held to their units.

    Code stays as it is.
    """
    parts = _CODE.split(text)
    sign = rf"\g<1>{written().decimal}"
    return "".join(
        part if n % 2 else held_together(_DECIMAL.sub(sign, part)) for n, part in enumerate(parts)
    )


def _numbers_and_sources() -> str:
    lines = [f"- {number.text}" for number in every_number().values()]
    listed = files("toneladder").joinpath("sources.md").read_text(encoding="utf-8")
    sources = [line for line in listed.splitlines() if line.startswith("- ")]
    return (
        f"\n## {say('One by one')}\n\n{chr(10).join(lines)}\n"
        f"\n## {say('Published sources')}\n\n{chr(10).join(sources)}\n"
    )
