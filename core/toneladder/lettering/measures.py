"""Widths and kerning of one bundled font, read from its tables."""

from collections.abc import Iterator
from dataclasses import dataclass
from struct import iter_unpack, unpack_from


@dataclass(frozen=True)
class Measures:
    """How far letters reach, in the units of the grid they are drawn on."""

    units_per_em: int
    empty_box: int
    """Width of the box that stands for a missing character."""
    advance: dict[str, int]
    kerning: dict[tuple[str, str], int]


def read_measures(font: bytes) -> Measures:
    """The measures of a bundled font.

    Parameters
    ----------
    font : bytes
        An OpenType file as packaging/make_letters.py writes it: one list of characters in
        plain runs, one plain table of kerned pairs.

    References
    ----------
    [ISO14496-22] Open Font Format: tables cmap (format 12), head, hhea, hmtx, kern (format 0).
    """
    (count,) = unpack_from(">H", font, 4)
    tables = {
        tag.decode(): font[start : start + length]
        for tag, _, start, length in iter_unpack(">4sIII", font[12 : 12 + 16 * count])
    }
    (units_per_em,) = unpack_from(">H", tables["head"], 18)
    advances = _advances(tables["hmtx"], *unpack_from(">H", tables["hhea"], 34))
    glyph_of = dict(_characters(tables["cmap"]))
    letter_of: dict[int, list[str]] = {}
    for letter, glyph in glyph_of.items():
        letter_of.setdefault(glyph, []).append(letter)
    return Measures(
        units_per_em=units_per_em,
        empty_box=advances[0],
        advance={letter: advances[glyph] for letter, glyph in glyph_of.items()},
        kerning={
            (left, right): value
            for first, second, value in iter_unpack(">HHh", _pairs(tables["kern"]))
            for left in letter_of[first]
            for right in letter_of[second]
        },
    )


def _advances(hmtx: bytes, count: int) -> list[int]:
    """Width of every glyph; those past ``count`` are as wide as the last one told."""
    told = [advance for advance, _ in iter_unpack(">Hh", hmtx[: 4 * count])]
    return told + [told[-1]] * ((len(hmtx) - 4 * count) // 2)


def _characters(cmap: bytes) -> Iterator[tuple[str, int]]:
    (count,) = unpack_from(">H", cmap, 2)
    starts = [start for _, _, start in iter_unpack(">HHI", cmap[4 : 4 + 8 * count])]
    (runs,) = (start for start in starts if unpack_from(">H", cmap, start) == (12,))
    (groups,) = unpack_from(">I", cmap, runs + 12)
    for first, last, glyph in iter_unpack(">III", cmap[runs + 16 : runs + 16 + 12 * groups]):
        for code in range(first, last + 1):
            yield chr(code), glyph + code - first


def _pairs(kern: bytes) -> bytes:
    """The rows left glyph, right glyph, value of the only subtable."""
    (count,) = unpack_from(">H", kern, 10)
    return kern[18 : 18 + 6 * count]
