"""What the ladder says: plain sentences, figures with units, nothing old as if it were new."""

from dataclasses import replace
from math import inf
from typing import TYPE_CHECKING

import pytest

from toneladder.quantities import Manner
from toneladder_desktop.ladder.content import Content, Parting, Peg, Remark, Side
from toneladder_desktop.ladder.read_out import (
    Picked,
    alike_of,
    foot_of,
    pointer_words,
    read_out,
    rung_read_out,
)
from toneladder_desktop.ladder.words import (
    described,
    key_of,
    letting_all_go,
    name_of,
    range_in_short,
    range_of,
    spoken,
    standing_of,
    title_of,
)

if TYPE_CHECKING:
    from tests.desktop.conftest import MadeLadder

PLAIN = Manner()
LEVELS, TOTALS = [90.0, 70.0, 55.0, 25.0], [0.0, 45.0, 135.0, 840.0]
PARTING, BITE = Peg(Side.PARTING, 2), Peg(Side.BITE, 2)


@pytest.fixture
def ladder(made_ladder: "MadeLadder") -> Content:
    return made_ladder(LEVELS, TOTALS)


def plain(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ")


def test_the_head_counts_tones_and_bites(ladder: Content, made_ladder: "MadeLadder") -> None:
    assert title_of(ladder) == "4 tones, 3 bites"
    assert title_of(made_ladder([90.0, 25.0], [0.0, 60.0])) == "2 tones, 1 bite"


def test_the_standing_tells_what_the_tones_rest_on(made_ladder: "MadeLadder") -> None:
    held = made_ladder(LEVELS, TOTALS, held_partings=(2,), held_bites=(3,))
    assert standing_of(held) == "following the picture · 2 held"
    fewer = replace(held, asked_tones=6)
    assert standing_of(fewer) == "following the picture · 6 asked for · 2 held"
    assert standing_of(made_ladder(LEVELS, TOTALS, untested=True)) == "starting points, untested"


def test_one_or_all_held_pegs_can_be_let_go(made_ladder: "MadeLadder") -> None:
    assert letting_all_go(made_ladder(LEVELS, TOTALS)) == ""
    assert letting_all_go(made_ladder(LEVELS, TOTALS, held_bites=(1,))) == "Let go of 1 peg"
    assert letting_all_go(made_ladder(LEVELS, TOTALS, held_bites=(1, 2))) == "Let all go"


@pytest.mark.parametrize(
    ("short", "long", "said"),
    [
        (76.0, 93.0, "75 – 95 s"),
        (136.0, 163.0, "2¼ – 2¾ min"),
        (12.0, 250.0, "12 s – 4¼ min"),
        (55.0, 700.0, "55 s – 12 min"),
        (4.2, 92.0, "4 – 95 s"),
        (0.3, 20.0, "1 – 20 s"),
        (183.0, inf, "from 3 min"),
        (50.0, inf, "from 50 s"),
        (88.0, inf, "from 1¼ min"),
        (670.0, inf, "from 11 min"),
    ],
)
def test_a_range_has_its_units(ladder: Content, short: float, long: float, said: str) -> None:
    rung = ladder.rungs[2]
    tone = replace(rung.tone, shortest_s=short, longest_s=long)
    assert plain(range_of(replace(rung, tone=tone))) == said
    assert plain(range_in_short(replace(rung, tone=tone))) == said.replace("from", "≥")


def test_white_has_no_range_and_an_untested_bite_has_none_either(ladder: Content) -> None:
    assert range_of(ladder.rungs[0]) == ""
    assert range_of(replace(ladder.rungs[2], remarks=(Remark.UNTESTED,))) == "not tested"


def test_a_peg_is_named_and_described(made_ladder: "MadeLadder") -> None:
    held = made_ladder(LEVELS, TOTALS, held_bites=(2,))
    assert name_of(PARTING) == "Parting of tones 1 and 2"
    assert described(held, PARTING, PLAIN) == "darkness 3.8, follows"
    assert plain(described(held, BITE, PLAIN)) == "2 min 15 s, held"


def test_what_a_move_changed_is_spoken(ladder: Content) -> None:
    moved = replace(
        ladder, partings=(*ladder.partings[:1], Parting(54.0, held=True), ladder.partings[2])
    )
    assert (
        spoken(moved, PARTING, PLAIN)
        == "Parting 1 and 2, darkness 4.6. Tone 1, 25 percent. Step 2, 20 places, 10 minutes."
    )
    assert plain(spoken(ladder, BITE, PLAIN)) == (
        "Tone 2, total bite 2 min 15 s, prints 4.5. Step 2 bites 1 min 30 s."
    )


def test_one_place_is_one_place(ladder: Content) -> None:
    rungs = tuple(replace(rung, places=1) for rung in ladder.rungs)
    told = read_out(replace(ladder, rungs=rungs), PARTING, None, PLAIN)
    assert told.lines[1] == "step 2: 1 place, 10\u00a0min"


def test_while_places_are_counted_none_are_spoken(ladder: Content) -> None:
    rungs = tuple(replace(rung, places=None, minutes=None) for rung in ladder.rungs)
    assert "places" not in spoken(replace(ladder, rungs=rungs), PARTING, PLAIN)
    told = read_out(replace(ladder, rungs=rungs), PARTING, ladder, PLAIN)
    assert told.lines[1] == "step 2: 20 → … places, 10 → …\u00a0min"


def test_a_read_out_shows_before_and_after(ladder: Content) -> None:
    tone = replace(ladder.rungs[1].tone, share=0.23)
    before = replace(
        ladder, rungs=(ladder.rungs[0], replace(ladder.rungs[1], tone=tone), *ladder.rungs[2:])
    )
    assert (
        read_out(ladder, PARTING, before, PLAIN).lines[0] == "tone 1: 23 → 25\u00a0% of the plate"
    )
    assert read_out(ladder, PARTING, None, PLAIN).lines[0] == "tone 1: 25\u00a0% of the plate"


def test_decimal_commas_are_written(ladder: Content) -> None:
    told = read_out(ladder, BITE, None, Manner(decimal=","))
    assert plain(told.lines[1]) == "prints 4,5, perhaps 4,2 – 4,8"


def test_white_is_told_of_as_well(ladder: Content) -> None:
    told = rung_read_out(ladder, 0, PLAIN)
    assert told.title == "Tone 0 · 25\u00a0% of the plate"
    assert told.lines[1] == "step 1 stops it out, and it never bites"


def test_the_foot_tells_of_the_nearest_thing_first(ladder: Content) -> None:
    def title(picked: Picked) -> str:
        return plain(foot_of(ladder, picked, PLAIN).title)

    assert title(Picked(told=2)) == "Tone 2 · 25 % of the plate"
    assert title(Picked(told=2, pointed=BITE)) == "Tone 2 · 2 min 15 s, follows"
    assert title(Picked(told=2, pointed=BITE, pointed_lightness=47.0)) == "picture 5.3 → tone 2"
    assert foot_of(ladder, Picked(), PLAIN).lines == key_of(ladder)
    assert foot_of(ladder, Picked(key_shown=False), PLAIN).lines == ()


def test_a_hint_tells_what_a_hand_or_a_key_does(ladder: Content, made_ladder: "MadeLadder") -> None:
    held = made_ladder(LEVELS, TOTALS, held_bites=(2,))
    assert foot_of(ladder, Picked(pointed=PARTING), PLAIN).lines[-1].startswith("Drag")
    assert foot_of(ladder, Picked(told=PARTING), PLAIN).lines[-1].startswith("Up, Down")
    assert foot_of(held, Picked(told=BITE), PLAIN).lines[-1].endswith("Delete: let it go")


def test_without_a_strip_one_sentence_stands_for_all_signs(made_ladder: "MadeLadder") -> None:
    untested = made_ladder(LEVELS, TOTALS, untested=True)
    assert foot_of(untested, Picked(key_shown=False), PLAIN).lines == (
        "Neighbours may come out alike until a strip is read.",
    )


@pytest.mark.parametrize(("lightness", "tone"), [(95.0, 0), (79.0, 1), (55.0, 2), (10.0, 3)])
def test_the_pointer_tells_which_tone_a_place_becomes(
    ladder: Content, lightness: float, tone: int
) -> None:
    assert pointer_words(ladder, lightness, PLAIN).endswith(f"→ tone {tone}")


def test_a_pair_that_prints_alike_is_told_at_both_its_rungs(made_ladder: "MadeLadder") -> None:
    ladder = made_ladder(LEVELS, TOTALS, alike=(1,))
    assert [alike_of(ladder, tone) for tone in range(4)] == [None, 1, 1, None]
    assert alike_of(ladder, BITE) == 1
    foot = foot_of(ladder, Picked(told=BITE), PLAIN)
    assert foot.lines[-1] == "tones 1 and 2 print alike"


def test_what_is_picked_out_goes_with_its_tone() -> None:
    picked = Picked(told=Peg(Side.BITE, 5), pointed=4, chosen=5)
    assert picked.within(5) == Picked(told=None, pointed=4, chosen=None)
