"""The record sheet: everything known is on the paper, in black alone, nothing over anything."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest
from tests.core.sheets.conftest import PlanOf
from tests.core.sheets.reading import dots
from tests.core.sheets.test_order_sheet import long_words, outside, overlapping, texts, words_of

from toneladder.bite.values import Metal
from toneladder.book.record import PlateRecord, Stay, StepBite
from toneladder.book.values import (
    KeptPlate,
    KeptProof,
    KeptPull,
    PlateEntry,
    ProofReading,
    Pull,
    PullKind,
)
from toneladder.quantities import Manner, write_bite, write_temperature
from toneladder.sheets.marks import A4, LETTER, Paper, Picture
from toneladder.sheets.record_sheet import Told, dithered, record_sheets
from toneladder.sheets.record_words import bites_tables
from toneladder.tank.values import Stage

__all__ = ["long_words"]

DAY = date(2026, 3, 16)
ENTRY = PlateEntry(
    "pier",
    "Pier at low water",
    "/plates/pier.plate",
    1_773_657_000.0,
    Metal.COPPER,
    6,
    bath="Tall tank",
    paper="warm white",
    ink="sepia",
)
BITES = (StepBite(1, 25.0, 27.0), StepBite(2, 50.0, 50.0, assumed=True), StepBite(3, 135.0))
PROOF = KeptProof(1, best=True, proof=ProofReading("2026-03-16", 2, 4.2, "{}", note="wiped warm"))
PULL = KeptPull(1, Pull("2026-03-17", PullKind.EDITION, 3, 20, "rag 300 g", "sepia", "foot wide"))
LINES = Stay(1_773_500_000.0, (StepBite(1, 900.0, 905.0),), stage=Stage.LINES)
FULL = PlateRecord(KeptPlate(ENTRY, 4.2), (Stay(1_773_657_000.0, BITES),), (PROOF,), (PULL,))
BARE = PlateRecord(KeptPlate(replace(ENTRY, bath="", ink="", paper=""), None))
GREY = np.tile(np.linspace(0, 255, 120).astype(np.uint8), (80, 1))

papers = pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
records = pytest.mark.parametrize("record", [FULL, BARE], ids=["full", "bare"])


@papers
@records
def test_nothing_lies_in_the_margins_and_no_two_texts_overlap(
    paper: Paper, record: PlateRecord
) -> None:
    for sheet in record_sheets(Told(record, grey=GREY), made_on=DAY, paper=paper):
        assert not overlapping(sheet)
        assert not outside(sheet)


@papers
@records
@pytest.mark.usefixtures("long_words")
def test_a_longer_language_keeps_to_its_paper_too(paper: Paper, record: PlateRecord) -> None:
    for sheet in record_sheets(Told(record, grey=GREY), made_on=DAY, paper=paper):
        assert not outside(sheet)
        assert not overlapping(sheet)


@papers
def test_lines_and_a_second_grain_have_tables_of_their_own(paper: Paper) -> None:
    grained = replace(LINES, stage=Stage.SECOND)
    record = replace(FULL, stays=(LINES, *FULL.stays, grained))
    sheets = record_sheets(Told(record, grey=GREY), made_on=DAY, paper=paper)
    told = words_of(*sheets)
    for words in ("Lines, at the tank on", "Second grain, at the tank on", "15 min 5 s"):
        assert words in told
    for sheet in sheets:
        assert not overlapping(sheet)
        assert not outside(sheet)


def test_a_warmer_bath_has_a_column_for_what_its_bites_are_worth() -> None:
    same = tuple(replace(bite, worth_s=bite.given_s) for bite in BITES)
    more = tuple(replace(bite, worth_s=bite.given_s and bite.given_s * 1.1) for bite in BITES)
    at_20 = f"Total, as at {write_temperature(20.0)}"
    for bites, told in ((BITES, False), (same, False), (more, True)):
        stay = Stay(1_773_657_000.0, bites, planned_c=20.0)
        (table,) = bites_tables(replace(FULL, stays=(stay,)), None)
        assert (at_20 in table.heads) is told
        assert {len(row) for row in table.rows} == {len(table.heads)}
    assert [row[-1] for row in table.rows] == [write_bite(30.0), write_bite(85.0), ""]


def test_everything_known_of_the_plate_stands_on_the_sheet() -> None:
    told = words_of(*record_sheets(Told(FULL, grey=GREY), made_on=DAY))
    for words in (
        "Pier at low water",
        "copper",
        "Tall tank",
        "sepia",
        "warm white",
        "25 s",
        "27 s",
        "1 min 17 s*",
        "assumed",
        "0.4",
        "the best so far",
        "wiped warm",
        "edition print 3/20",
        "rag 300 g",
        "foot wide",
        "1 edition print",
        "16 March 2026",
    ):
        assert words in told, words


def test_a_plate_nothing_happened_to_says_so() -> None:
    told = words_of(*record_sheets(Told(BARE), made_on=DAY))
    for words in ("nothing was bitten", "No proof was read yet", "No print is noted yet"):
        assert words in told


def test_the_plan_stands_for_a_plate_that_was_not_at_the_tank(plan_of: PlanOf) -> None:
    made = plan_of(4)
    (sheet,) = record_sheets(Told(BARE, made.plate, made.order), made_on=DAY)
    bites = [text.text for text in texts(sheet) if text.text in {"1", "2", "3"}]
    assert bites == ["1", "2", "3"]
    assert "120 × 90 mm" in words_of(sheet)


def test_a_decimal_comma_is_written_where_somebody_likes_it() -> None:
    told = words_of(*record_sheets(Told(FULL), made_on=DAY, manner=Manner(decimal=",")))
    assert "0,4" in told


def test_two_hundred_prints_fill_pages_and_none_is_lost() -> None:
    pulls = tuple(KeptPull(n, Pull("2026-03-17", PullKind.EDITION, n, 200)) for n in range(1, 201))
    sheets = record_sheets(Told(replace(FULL, pulls=pulls), grey=GREY), made_on=DAY)
    told = words_of(*sheets)
    assert len(sheets) > 3
    assert all(f"edition print {n}/200" in told for n in range(1, 201))
    for sheet in sheets:
        assert not outside(sheet)
        assert not overlapping(sheet)


def test_the_picture_is_black_dots_as_dark_on_the_whole_as_the_print() -> None:
    (sheet,) = record_sheets(Told(FULL, grey=GREY), made_on=DAY)
    (shown,) = [mark for mark in sheet.marks if isinstance(mark, Picture)]
    assert shown.box.width / shown.box.height == pytest.approx(120 / 80, rel=0.01)
    assert dots(shown).mean() == pytest.approx(1.0 - GREY.mean() / 255.0, abs=0.02)


@pytest.mark.parametrize("level", [0, 255])
def test_plain_black_and_white_stay_plain(level: int) -> None:
    flat = np.full((20, 30), level, dtype=np.uint8)
    assert dithered(flat, 60, 40).all() == (level == 0)
    assert dithered(flat, 60, 40).any() == (level == 0)
