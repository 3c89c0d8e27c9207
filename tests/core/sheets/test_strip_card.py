"""The strip card: everything on the paper, nothing over anything, the strip at its true size."""

from datetime import date
from functools import cache

import pytest
from tests.core.sheets.test_order_sheet import ink, long_words, outside, overlapping, words_of

from toneladder.bite.cautions import cautions
from toneladder.bite.values import Conditions, GrainKind, Metal, Mordant
from toneladder.errors import StripError
from toneladder.order.companion import how_to_step
from toneladder.picture.values import PlateSize
from toneladder.quantities import write_bite
from toneladder.sheets.marks import A4, LETTER, Paper, Path, Sheet
from toneladder.sheets.strip_card import LEAST_PATCH_MM, USUAL_SIZE, StripCard, strip_card
from toneladder.strip.planning import MOST_PATCHES, doubling_strip
from toneladder.wording import ENGLISH, speak_language

__all__ = ["long_words"]

COPPER = Conditions(strength="38 °Bé")
ZINC = Conditions(metal=Metal.ZINC, mordant=Mordant.NITRIC_ACID, grain=GrainKind.SPRAY)
STEEL = Conditions(metal=Metal.STEEL)
papers = pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
patches = pytest.mark.parametrize("patches", [3, 4, 8, 12, 16])


@cache
def card(
    patches: int = 8,
    paper: Paper = A4,
    conditions: Conditions = COPPER,
    size: PlateSize = USUAL_SIZE,
    title: str = "",
) -> tuple[Sheet, ...]:
    plan = doubling_strip(conditions, patches)
    return strip_card(
        StripCard(conditions, plan, size, title), made_on=date(2026, 3, 16), paper=paper
    )


@papers
@patches
@pytest.mark.parametrize("conditions", [COPPER, ZINC, STEEL], ids=lambda one: one.metal)
def test_nothing_lies_in_the_margins_and_no_two_texts_overlap(
    patches: int, paper: Paper, conditions: Conditions
) -> None:
    for sheet in card(patches, paper, conditions):
        assert not overlapping(sheet)
        assert not outside(sheet)


@papers
@pytest.mark.parametrize("patches", [3, 8, 16])
@pytest.mark.usefixtures("long_words")
def test_a_longer_language_keeps_to_its_paper_too(patches: int, paper: Paper) -> None:
    plan = doubling_strip(COPPER, patches)
    for sheet in strip_card(StripCard(COPPER, plan), made_on=date(2026, 3, 16), paper=paper):
        assert not outside(sheet)
        assert not overlapping(sheet)


@papers
def test_eight_patches_stand_on_one_page(paper: Paper) -> None:
    assert len(card(8, paper)) == 1


def test_eight_patches_stand_on_one_page_in_german_too() -> None:
    speak_language("de")
    try:
        german = StripCard(COPPER, doubling_strip(COPPER, 8))
        assert len(strip_card(german, made_on=date(2026, 3, 16))) == 1
    finally:
        speak_language(ENGLISH)


@papers
@patches
def test_every_patch_its_stay_and_its_total_bite_are_there(patches: int, paper: Paper) -> None:
    words = words_of(*card(patches, paper)).replace("\u00a0", " ")
    plan = doubling_strip(COPPER, patches)
    for bite in (*plan.bites_s[1:], *plan.stays_s):
        assert write_bite(bite).replace("\u00a0", " ") in words
    assert "never bitten" in words


@papers
@pytest.mark.parametrize("conditions", [COPPER, ZINC, STEEL], ids=lambda one: one.metal)
def test_cautions_stepping_and_remarks_are_told_whole(paper: Paper, conditions: Conditions) -> None:
    words = words_of(*card(8, paper, conditions)).replace("\u00a0", " ")
    every = (*cautions(conditions), *how_to_step(), *doubling_strip(conditions).remarks)
    for sentence in every:
        assert sentence.replace("\u00a0", " ") in words


def test_there_is_room_to_write_what_makes_the_strip_this_strip() -> None:
    words = words_of(*card())
    for name in ("bath", "bath temperature", "strength", "grain laid on", "ink", "paper"):
        assert name in words
    for name in ("wiped by", "bitten on", "read on", "2nd pull", "3rd pull", "a day later"):
        assert name in words


@papers
@pytest.mark.parametrize("size", [PlateSize(120.0, 30.0), PlateSize(96.0, 22.5)], ids=str)
def test_the_strip_is_drawn_at_its_true_size(paper: Paper, size: PlateSize) -> None:
    sheet = card(8, paper, size=size)[0]
    boxes = {
        (round(right - left - mark.stroke_mm, 6), round(bottom - top - mark.stroke_mm, 6))
        for mark in sheet.marks
        if isinstance(mark, Path)
        for left, top, right, bottom in [ink(mark)]
    }
    assert (size.width_mm, size.height_mm) in boxes


def test_every_page_has_the_bar_to_check_with() -> None:
    for sheet in card(MOST_PATCHES, LETTER, ZINC):
        assert "50 mm if printed at 100 %" in words_of(sheet)
        widths = [ink(mark)[2] - ink(mark)[0] for mark in sheet.marks if isinstance(mark, Path)]
        assert any(width == pytest.approx(50.0, abs=1e-6) for width in widths)


def test_the_plate_s_title_stands_at_the_head() -> None:
    assert "Breakwater" in words_of(*card(title="Breakwater"))


@pytest.mark.parametrize(
    "size",
    [
        PlateSize(300.0, 30.0),
        PlateSize(8 * LEAST_PATCH_MM - 1.0, 30.0),
        PlateSize(120.0, 5.0),
        PlateSize(120.0, 200.0),
    ],
    ids=str,
)
def test_a_strip_that_the_card_cannot_hold_is_refused_in_a_sentence(size: PlateSize) -> None:
    with pytest.raises(StripError, match="Name another size"):
        card(8, size=size)
