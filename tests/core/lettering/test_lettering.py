"""The bundled letters are what sheets and windows rely on."""

from collections.abc import Iterator
from itertools import pairwise

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from toneladder.lettering import CAPITAL_EM, FIGURE_EM, Face, font_path, text_width, wrapped

ASCII = "".join(map(chr, range(0x20, 0x7F)))
SIGNS = "½¼¾⅛⅜⅝⅞°×−–—…“”‘’≈·→µμΩ☐✓▲▶«»±²³′″•‰€é ü ß ø å ç ñ ł ž ő İ\u00a0\u2007\u2009"
every_face = pytest.mark.parametrize("face", list(Face))


@pytest.fixture(params=list(Face))
def font(request: pytest.FixtureRequest) -> Iterator[TTFont]:
    with TTFont(font_path(request.param)) as opened:
        yield opened


@every_face
def test_all_digits_are_equally_wide(face: Face) -> None:
    assert len({text_width(digit, face, 1.0) for digit in "0123456789"}) == 1
    assert text_width("11", face, 1.0) == text_width("00", face, 1.0)


@every_face
def test_a_figure_space_is_as_wide_as_a_digit(face: Face) -> None:
    assert text_width("\u2007", face, 1.0) == text_width("0", face, 1.0)


def test_every_needed_character_has_a_letter(font: TTFont) -> None:
    missing = {sign for sign in ASCII + SIGNS if ord(sign) not in font.getBestCmap()}
    assert not missing


def test_digits_stand_on_the_line_and_are_equally_high(font: TTFont) -> None:
    cmap, glyphs = font.getBestCmap(), font["glyf"]
    for digit in "0123456789":
        glyph = glyphs[cmap[ord(digit)]]
        assert glyph.yMin == pytest.approx(0, abs=15)
        assert glyph.yMax == pytest.approx(612, abs=30)


def test_capitals_and_digits_are_as_high_as_is_said(font: TTFont) -> None:
    cmap, glyphs, em = font.getBestCmap(), font["glyf"], font["head"].unitsPerEm
    capital, figure = (glyphs[cmap[ord(sign)]].yMax / em for sign in "H1")
    assert 0.6 < CAPITAL_EM <= capital < 0.7
    assert 0.55 < FIGURE_EM <= figure < 0.7


def test_there_are_no_features_that_only_some_layouts_know(font: TTFont) -> None:
    assert not {"GSUB", "GPOS", "morx"} & set(font.keys())


def test_the_kerning_is_read_when_measuring() -> None:
    apart = text_width("T", Face.SANS, 1.0) + text_width("o", Face.SANS, 1.0)
    assert text_width("To", Face.SANS, 1.0) < apart


def test_families_have_names_of_their_own(font: TTFont) -> None:
    named = {record.nameID: str(record) for record in font["name"].names}
    assert named[1] in {face.family for face in Face}
    assert "Alegreya" not in named[1] + named[4] + named[6]
    assert "Open Font License" in named[13]


@every_face
def test_bold_and_italic_are_marked_in_the_file(face: Face) -> None:
    with TTFont(font_path(face)) as font:
        assert bool(font["OS/2"].fsSelection & 1 << 5) == face.bold
        assert bool(font["OS/2"].fsSelection & 1) == face.italic


def test_width_grows_with_the_size() -> None:
    assert text_width("tone", Face.SANS, 6.0) == pytest.approx(
        2 * text_width("tone", Face.SANS, 3.0)
    )


@given(st.text(alphabet="abc é1-\n", max_size=60), st.floats(5.0, 60.0))
def test_no_line_is_wider_than_its_room_and_no_letter_is_lost(text: str, width: float) -> None:
    lines = wrapped(text, Face.SANS, 4.0, width)
    assert all(text_width(line, Face.SANS, 4.0) <= width for line in lines)
    assert [letter for line in lines for letter in line if letter not in " \n"] == [
        letter for letter in text if letter not in " \n"
    ]


def test_lines_are_as_full_as_they_can_be() -> None:
    text = "Let it dry, blot it, look under the loupe and mend what has lifted"
    lines = wrapped(text, Face.SANS, 4.0, 40.0)
    assert " ".join(lines) == text
    for line, following in pairwise(lines):
        assert text_width(f"{line} {following.split(' ')[0]}", Face.SANS, 4.0) > 40.0


def test_a_no_break_space_holds_a_time_together() -> None:
    assert wrapped("bite 25\u00a0s", Face.SANS, 4.0, 12.0) == ("bite", "25\u00a0s")
