"""The bundled letters: one family of files for windows, sheets and their measuring.

Whoever measures here and draws there, with Qt or anything else, reads the same file: its digits
are all equally wide, it has no ligatures, and its kerning is one plain table.

>>> wrapped("Stop out tones 0 and 1", Face.SANS, 4.0, 24.0)
('Stop out tones', '0 and 1')
"""

from enum import StrEnum
from functools import cache, lru_cache
from itertools import pairwise
from pathlib import Path

from toneladder.lettering.measures import Measures, read_measures

CAPITAL_EM = 0.64
"""Height of a capital as a share of the letters' size, the least of all faces."""

FIGURE_EM = 0.594
"""Height of a digit 1 as a share of the letters' size, the least of all faces."""

_HERE = Path(__file__).parent
_REMEMBERED = 4096  # texts


class Face(StrEnum):
    """One cut of the letters; its value is the name of its file."""

    SANS = "sans"
    SANS_BOLD = "sans-bold"
    SANS_ITALIC = "sans-italic"
    SERIF_BOLD = "serif-bold"
    SERIF_ITALIC = "serif-italic"

    @property
    def family(self) -> str:
        """Name by which a font database knows the family."""
        return "Tone Ladder Serif" if self.startswith("serif") else "Tone Ladder Sans"

    @property
    def bold(self) -> bool:
        """Whether it is the family's bold cut."""
        return self.endswith("-bold")

    @property
    def italic(self) -> bool:
        """Whether it is the family's italic cut."""
        return self.endswith("-italic")


def font_path(face: Face) -> Path:
    """The file of ``face``, an OpenType font with TrueType outlines."""
    return _HERE / f"{face}.ttf"


def has_letter(letter: str, face: Face) -> bool:
    """Whether a face has a letter; another font, or its empty box, stands for one that it lacks."""
    return letter in _measures(face).advance


def text_width(text: str, face: Face, size: float) -> float:
    """Width of one line of ``text``, in the unit of ``size``.

    Parameters
    ----------
    text : str
        One line; characters that the face lacks count as its empty box.
    face : Face
        The cut it is set in.
    size : float, > 0
        Size of the letters (their em), in millimetres, points or pixels.

    Returns
    -------
    float, >= 0
        From the start of the first letter to where a next one would begin.
    """
    return _units(text, face) * size / _measures(face).units_per_em


def wrapped(text: str, face: Face, size: float, width: float) -> tuple[str, ...]:
    """``text`` broken at spaces into lines no wider than ``width``.

    Parameters
    ----------
    text : str
        Line ends in it are kept; a no-break space is never broken at.
    face : Face
        The cut it is set in.
    size : float, > 0
        Size of the letters, in the unit of ``width``.
    width : float, > 0
        Room for a line; a single word that is wider is broken between letters.

    Returns
    -------
    tuple of str
        At least one line, which is empty for an empty text.
    """
    lines: list[str] = []
    for paragraph in text.split("\n"):
        line = ""
        for word in paragraph.split(" "):
            longer = f"{line} {word}" if line else word
            if text_width(longer, face, size) <= width:
                line = longer
                continue
            if line:
                lines.append(line)
            *full, line = _pieces(word, face, size, width)
            lines.extend(full)
        lines.append(line)
    return tuple(lines)


def _pieces(word: str, face: Face, size: float, width: float) -> list[str]:
    pieces = [""]
    for letter in word:
        if pieces[-1] and text_width(pieces[-1] + letter, face, size) > width:
            pieces.append("")
        pieces[-1] += letter
    return pieces


@lru_cache(maxsize=_REMEMBERED)
def _units(text: str, face: Face) -> int:
    """Width of ``text`` in the units of the face; pages repeat their words."""
    measures = _measures(face)
    units = sum(measures.advance.get(letter, measures.empty_box) for letter in text)
    return units + sum(measures.kerning.get(pair, 0) for pair in pairwise(text))


@cache
def _measures(face: Face) -> Measures:
    return read_measures(font_path(face).read_bytes())
