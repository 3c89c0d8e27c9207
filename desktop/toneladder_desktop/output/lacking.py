"""Letters that no font here has: on sheets a box stands for each of them, and that is said."""

from collections.abc import Iterable, Iterator
from functools import lru_cache
from unicodedata import category

from PySide6.QtGui import QTextLayout

from toneladder.lettering import Face, has_letter
from toneladder.plate.values import Plate
from toneladder.wording import say
from toneladder_desktop.output.painting import letters

_MOST_NAMED = 12
_REMEMBERED = 1024
_UNSEEN = ("Cc", "Cf", "Cs", "Zl", "Zp", "Zs", "Mn", "Me")
"""Kinds of signs that have no shape of their own."""


def lacking(texts: Iterable[str]) -> str:
    """Letters of ``texts`` that no font here has, each once, in the order met."""
    met = dict.fromkeys(letter for text in texts for letter in text)
    return "".join(
        letter
        for letter in met
        if not has_letter(letter, Face.SANS) and category(letter) not in _UNSEEN and _boxed(letter)
    )


def boxes_told(texts: Iterable[str]) -> str:
    """A sentence about letters that come out as boxes; empty if there are none."""
    found = lacking(texts)
    if not found:
        return ""
    named = found if len(found) <= _MOST_NAMED else f"{found[:_MOST_NAMED]}…"
    return say(
        "No font here has {letters}: on the sheets a box stands for each. Write them otherwise, or "
        "install a font that has them, and start again.",
        letters=" ".join(named),
    )


def words_of(plate: Plate) -> Iterator[str]:
    """What its etcher wrote on a plate, as sheets bear it."""
    yield from (plate.title, plate.bath, plate.conditions.strength)
    for strip in plate.evidence.strips:
        yield from (strip.bath, strip.ink, strip.paper)


@lru_cache(maxsize=_REMEMBERED)
def _boxed(letter: str) -> bool:
    """Whether a box would be drawn; glyph 0 is the box in every font [ISO14496-22]."""
    layout = QTextLayout(letter, letters(Face.SANS))
    layout.beginLayout()
    layout.createLine()
    layout.endLayout()
    runs = layout.glyphRuns()
    return not runs or any(0 in run.glyphIndexes() for run in runs)
