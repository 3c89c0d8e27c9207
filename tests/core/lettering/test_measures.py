"""Measures agree with an independent reader of fonts, and letter by letter with a renderer."""

from itertools import product

import pytest
from fontTools.ttLib import TTFont
from PIL import ImageFont

from toneladder.lettering import Face, font_path
from toneladder.lettering.measures import read_measures

every_face = pytest.mark.parametrize("face", list(Face))


@every_face
def test_every_width_and_kerned_pair_is_the_one_fonttools_reads(face: Face) -> None:
    ours = read_measures(font_path(face).read_bytes())
    with TTFont(font_path(face)) as font:
        named = font.getBestCmap()
        (table,) = font["kern"].kernTables
        widths = {chr(code): font["hmtx"][name][0] for code, name in named.items()}
        pairs = {
            (chr(left), chr(right)): table.kernTable[named[left], named[right]]
            for left, right in product(named, repeat=2)
            if (named[left], named[right]) in table.kernTable
        }
        assert ours.units_per_em == font["head"].unitsPerEm
        assert ours.empty_box == font["hmtx"][".notdef"][0]
    assert ours.advance == widths
    assert ours.kerning == pairs
    assert len(pairs) > 1000


@every_face
def test_every_letter_is_as_wide_as_freetype_says(face: Face) -> None:
    ours = read_measures(font_path(face).read_bytes())
    font = ImageFont.truetype(
        font_path(face), ours.units_per_em, layout_engine=ImageFont.Layout.BASIC
    )
    assert {letter: font.getlength(letter) for letter in ours.advance} == ours.advance
