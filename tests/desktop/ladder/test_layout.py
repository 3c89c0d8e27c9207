"""From two to twelve tones nothing on the ladder overlaps, at any height of the window."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.boxes import Box
from toneladder.wording import ENGLISH, LANGUAGES, LONGER, say, speak_language
from toneladder_desktop.drawing.ruling import width_of
from toneladder_desktop.drawing.style import Type
from toneladder_desktop.ladder.content import Content, Peg, Remark, Side
from toneladder_desktop.ladder.layout import (
    HIT_HEIGHT,
    LEAST_ROW,
    LEAST_SWATCH,
    MOST_SWATCH,
    Layout,
    lay_out,
)
from toneladder_desktop.ladder.painting import box_beside
from toneladder_desktop.ladder.read_out import ReadOut
from toneladder_desktop.ladder.rungs import words_of_sign

if TYPE_CHECKING:
    from tests.desktop.conftest import MadeLadder


@dataclass(frozen=True)
class Size:
    width: float
    height: float


sizes = st.builds(Size, st.floats(312.0, 420.0), st.floats(500.0, 1000.0))


@st.composite
def tones(draw: st.DrawFn) -> tuple[list[float], list[float]]:
    """Falling lightness and rising total bites of two to twelve tones, however near."""
    count = draw(st.integers(2, 12))
    falls = draw(st.lists(st.floats(0.1, 6.0), min_size=count, max_size=count))
    bites = draw(st.lists(st.floats(15.0, 600.0), min_size=count - 1, max_size=count - 1))
    lightness = [90.0 - sum(falls[:k]) for k in range(count)]
    return lightness, [sum(bites[:k]) for k in range(count)]


def side_of(layout: Layout, side: Side) -> list[Box]:
    return [place.hit for place in layout.pegs if place.peg.side is side]


@given(tones(), sizes)
def test_no_two_pegs_share_a_pixel(
    made_ladder: "MadeLadder", given_tones: tuple[Sequence[float], Sequence[float]], size: Size
) -> None:
    layout = lay_out(made_ladder(*given_tones), size.width, size.height)
    assert not any(a.hit.meets(b.hit) for a, b in combinations(layout.pegs, 2))
    assert all(place.hit.x >= 0.0 and place.hit.right <= size.width for place in layout.pegs)
    assert all(place.hit.height == pytest.approx(HIT_HEIGHT) for place in layout.pegs)


@given(tones(), sizes)
def test_pegs_keep_the_order_of_their_places(
    made_ladder: "MadeLadder", given_tones: tuple[Sequence[float], Sequence[float]], size: Size
) -> None:
    layout = lay_out(made_ladder(*given_tones), size.width, size.height)
    for side in Side:
        places = [place for place in layout.pegs if place.peg.side is side]
        assert all(a.true_y <= b.true_y + 1e-9 for a, b in pairwise(places))
        assert all(a.body.middle < b.body.middle for a, b in pairwise(places))


@given(tones(), sizes)
def test_rungs_stand_evenly_inside_the_strip(
    made_ladder: "MadeLadder", given_tones: tuple[Sequence[float], Sequence[float]], size: Size
) -> None:
    layout = lay_out(made_ladder(*given_tones), size.width, size.height)
    swatches = [rung.swatch for rung in layout.rungs]
    assert all(LEAST_SWATCH <= swatch.height <= MOST_SWATCH for swatch in swatches)
    assert all(a.bottom + 4.0 <= b.y + 1e-6 for a, b in pairwise(swatches))
    assert swatches[0].y >= layout.strip.y
    assert swatches[-1].bottom <= layout.strip.bottom
    steps = [b.middle - a.middle for a, b in pairwise(swatches)]
    assert steps == pytest.approx([layout.strip.height / len(swatches)] * len(steps))


@given(tones(), sizes, st.booleans())
def test_signs_cover_no_words(
    made_ladder: "MadeLadder",
    given_tones: tuple[Sequence[float], Sequence[float]],
    size: Size,
    all_alike: bool,
) -> None:
    count = len(given_tones[0])
    alike = tuple(range(count - 1)) if all_alike else (count - 2,)
    content = made_ladder(*given_tones, alike=alike)
    layout = lay_out(content, size.width, size.height)
    words = [box for rung in layout.rungs for box in words_of(layout, rung.row)]
    numbers = [Box(r.swatch.x, r.swatch.middle - 6.0, 52.0, 12.0) for r in layout.rungs]
    for sign in layout.signs:
        assert not any(sign.box.meets(box) for box in (*words, *numbers))
    assert not any(a.box.meets(b.box) for a, b in combinations(layout.signs, 2))


def words_of(layout: Layout, row: Box) -> list[Box]:
    """Where the words beside a rung may be inked: one or two lines of capitals."""
    x, width = layout.columns.text, layout.columns.text_end - layout.columns.text
    if layout.ranges_shown:
        return [
            Box(x, row.middle - 8.0 - 6.0, width, 12.0),
            Box(x, row.middle + 9.0 - 5.0, width, 10.0),
        ]
    return [Box(x, row.middle - 6.0, width, 12.0)]


@given(tones(), sizes)
def test_the_range_moves_to_the_read_out_where_rows_are_low(
    made_ladder: "MadeLadder", given_tones: tuple[Sequence[float], Sequence[float]], size: Size
) -> None:
    layout = lay_out(made_ladder(*given_tones), size.width, size.height)
    assert layout.ranges_shown is (layout.rungs[0].row.height >= LEAST_ROW)


@given(tones(), sizes)
def test_whoever_clicks_a_peg_or_a_rung_finds_it(
    made_ladder: "MadeLadder", given_tones: tuple[Sequence[float], Sequence[float]], size: Size
) -> None:
    layout = lay_out(made_ladder(*given_tones), size.width, size.height)
    for place in layout.pegs:
        assert layout.found_at(place.body.x + 9.0, place.body.middle) == place.peg
    for k, rung in enumerate(layout.rungs):
        assert layout.found_at(rung.swatch.x + 20.0, rung.swatch.middle) == k
    assert layout.found_at(-1.0, -1.0) is None


@pytest.mark.parametrize(
    "words", ["10 min 30 s", "12 min 45 s", "1 h 10 min", "14 min 55 s", "59 min"]
)
def test_long_totals_fit_between_the_strip_and_the_brackets(
    made_ladder: "MadeLadder", words: str
) -> None:
    columns = lay_out(made_ladder([90.0, 50.0], [0.0, 60.0]), 312.0, 600.0).columns
    assert width_of(words, Type.ANSWER) <= columns.text_end - columns.text


def test_a_rail_keeps_its_end_while_a_peg_moves(made_ladder: "MadeLadder") -> None:
    content = made_ladder([90.0, 50.0], [0.0, 60.0])
    assert lay_out(content, 312.0, 600.0, 2000.0).bites.end_s == 2000.0


def test_a_rung_out_of_its_place_is_marked(made_ladder: "MadeLadder") -> None:
    content: Content = made_ladder([90.0, 50.0], [0.0, 60.0], remarks=(Remark.LIGHTER,))
    assert all(rung.displaced for rung in lay_out(content, 312.0, 600.0).rungs)


def test_there_is_no_peg_beyond_the_last(made_ladder: "MadeLadder") -> None:
    layout = lay_out(made_ladder([90.0, 50.0], [0.0, 60.0]), 312.0, 600.0)
    with pytest.raises(KeyError):
        layout.place(Peg(Side.BITE, 2))


@given(tones(), sizes, st.integers(2, 4))
def test_the_note_beside_a_hand_hides_no_rung_that_the_hand_changes(
    made_ladder: "MadeLadder",
    given_tones: tuple[Sequence[float], Sequence[float]],
    size: Size,
    more: int,
) -> None:
    layout = lay_out(made_ladder(*given_tones), size.width, size.height)
    said = ReadOut("Parting 2 | 3", ("a line",) * more)
    for place in layout.pegs:
        note = box_beside(layout, place, said)
        assert layout.strip.y <= note.y
        assert note.bottom <= layout.strip.bottom
        changed = {place.peg.step, place.peg.step - (place.peg.side is Side.PARTING)}
        assert not any(note.meets(layout.rungs[step].swatch) for step in changed)
        assert not note.meets(place.body)


@pytest.mark.parametrize("language", [*LANGUAGES, LONGER])
def test_the_link_of_a_sign_stands_behind_its_words(
    made_ladder: "MadeLadder", language: str, qapp: object
) -> None:
    assert qapp is not None
    speak_language(language)
    try:
        levels, totals = [95.0, 70.0, 45.0, 20.0], [0.0, 60.0, 240.0, 900.0]
        layout = lay_out(made_ladder(levels, totals, alike=(1,)), 312.0, 600.0)
        (sign,) = layout.signs
        said = words_of_sign(sign.box)
        assert sign.wordy
        assert said.words_x + width_of(said.words, Type.SMALL) <= said.link_x
        assert said.link_x + width_of(say("make one"), Type.SMALL) < sign.box.x + said.width
        if language != LONGER:
            assert said.words == say("print alike")
            assert said.width <= sign.box.width
    finally:
        speak_language(ENGLISH)
