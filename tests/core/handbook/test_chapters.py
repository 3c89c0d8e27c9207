"""The handbook's chapters: there, in order, linked, and as true as the program's own figures."""

import re
from importlib.resources import files

import pytest

from toneladder.bite.curve import PLATE_LIGHTNESS_SCATTER, PLATE_TIME_SCATTER
from toneladder.bite.today import USUAL_Q
from toneladder.bite.use import PRACTICAL_SHARE
from toneladder.bite.values import Varnish
from toneladder.bite.varnish import CREEP_MM, varnish_facts
from toneladder.borders.values import Soft
from toneladder.errors import HandbookError
from toneladder.handbook.chapters import NUMBERS, Chapter, chapter, chapters
from toneladder.handbook.search import unmarked
from toneladder.lines.values import Lines
from toneladder.order.edition import USUAL_DAY_HOURS, USUAL_PULL_MIN, Edition
from toneladder.order.ladder import FIRST_ABOVE_PLATE_TONE
from toneladder.order.line_steps import TIMES_THE_DARKEST
from toneladder.order.rounding import HAND_STEPS_S, LONGEST_DIP_S, LOWERING_MM_PER_S, SHORTEST_S
from toneladder.order.values import Rates
from toneladder.plan.comparing import LEAST_GAIN
from toneladder.proof.places import LEAST_DIFFERENCE
from toneladder.scans.page import BARE_PAPER
from toneladder.strip.planning import USUAL_PATCHES
from toneladder.strip.staleness import MANY_PLATES, MUCH_USED
from toneladder.tank.acts import APART_S
from toneladder.tank.sounds import WARNED_S
from toneladder.tank.values import Facts
from toneladder.tones.parting import TOLD_APART
from toneladder.tones.values import Brush, ToneChoice

BOOK = {one.name: one for one in chapters()}
COUNT_IN = Facts.__dataclass_fields__["count_in_s"].default


def read(name: str) -> str:
    return unmarked(BOOK[name].text)


def test_the_book_begins_with_the_job_and_ends_with_the_keys() -> None:
    names = list(BOOK)
    assert (names[0], names[-1]) == ("the-job", "keys")
    assert all(one.text.startswith(f"# {one.title}\n") for one in BOOK.values())


def test_a_language_without_chapters_reads_the_english_ones() -> None:
    assert [one.title for one in chapters("xx")] == [one.title for one in BOOK.values()]


def test_a_chapter_that_is_not_there_is_refused_in_a_sentence() -> None:
    with pytest.raises(HandbookError, match="has no chapter"):
        chapter("lithography")


@pytest.mark.parametrize("one", BOOK.values(), ids=list(BOOK))
def test_every_link_leads_to_a_chapter(one: Chapter) -> None:
    links = re.findall(r"\]\(([^)]*)\)", one.text)
    assert [link for link in links if link not in BOOK] == []


@pytest.mark.parametrize("one", BOOK.values(), ids=list(BOOK))
def test_a_chapter_is_short_and_plain(one: Chapter) -> None:
    own = one.text.partition("\n## One by one")[0]
    words = len(unmarked(own).split())
    assert words < 700
    assert not re.search(r"[—“”]|\s--\s", own)


def test_sections_hold_the_whole_chapter() -> None:
    one = Chapter("a", "A", "# A\n\nfirst\n\n## B\n\nsecond\n")
    assert [(s.heading, s.text) for s in one.sections] == [("A", "first"), ("B", "second")]


def test_where_numbers_come_from_lists_every_source() -> None:
    listed = files("toneladder").joinpath("sources.md").read_text(encoding="utf-8")
    keys = re.findall(r"^- (\[.+?\])", listed, re.MULTILINE)
    assert keys
    assert [key for key in keys if key not in BOOK[NUMBERS].text] == []


FIGURES = [
    ("picture", f"usually {Brush().mark_mm:g} mm"),
    ("picture", f"usually {Brush().gap_mm:g} mm"),
    ("picture", f"about {CREEP_MM:g} mm"),
    ("picture", f"usually {Lines().widest_mm:g} mm"),
    ("picture", f"by {Lines().contrast / 10:g} of darkness"),
    ("how-many-tones", f"less than {LEAST_GAIN:g} of darkness"),
    ("how-many-tones", f"closer than {ToneChoice().gap_lightness / 10:g} of darkness"),
    ("how-many-tones", f"less than {TOLD_APART / 10:g}"),
    ("how-many-tones", f"{FIRST_ABOVE_PLATE_TONE / 10:g} darker than wiped white"),
    ("notes-and-soft-passages", f"less than {Soft().steepest / 10:g} of darkness"),
    ("notes-and-soft-passages", f"at least {Soft().shortest_mm:g} mm"),
    ("test-strips", f"lightness {BARE_PAPER:g}"),
    ("test-strips", f"{100 * PLATE_TIME_SCATTER:g} % of the bite"),
    ("test-strips", f"{PLATE_LIGHTNESS_SCATTER / 10:g} of darkness"),
    ("order-and-sheets", f"shortest is {SHORTEST_S:g} s"),
    ("order-and-sheets", f"{LOWERING_MM_PER_S:g} mm a second"),
    ("order-and-sheets", f"over {LONGEST_DIP_S / 60:g} min"),
    ("order-and-sheets", f"Painting {Rates().fill_cm2_per_min:g} cm² a minute"),
    ("order-and-sheets", f"{Rates().border_cm_per_min:g} cm of border a minute"),
    ("order-and-sheets", f"{Rates().place_s:g} s a place"),
    ("order-and-sheets", f"{Rates().between_min:g} min to rinse"),
    ("order-and-sheets", f"rest of {Rates().rest_min:g} min"),
    ("order-and-sheets", f"spirit varnish {varnish_facts(Varnish.SPIRIT).drying_min:g} min"),
    ("order-and-sheets", f"acrylic {varnish_facts(Varnish.ACRYLIC).drying_min:g}"),
    ("order-and-sheets", f"asphaltum {varnish_facts(Varnish.ASPHALTUM).drying_min:g}"),
    ("at-the-tank", f"count-in is {COUNT_IN:g} s"),
    ("at-the-tank", f"{USUAL_Q:g} times as fast for 10 °C"),
    ("proofs", f"more than {LEAST_DIFFERENCE / 10:g} of darkness"),
]


@pytest.mark.parametrize(("name", "figure"), FIGURES)
def test_a_figure_in_the_book_is_the_program_s(name: str, figure: str) -> None:
    assert figure in read(name)


def test_figures_that_the_book_writes_as_words_are_the_program_s() -> None:
    assert USUAL_PATCHES == 8
    assert "Eight are usual" in read("test-strips")
    assert (MANY_PLATES, MUCH_USED) == (5, 0.1)
    assert "five plates since" in read("test-strips")
    assert TIMES_THE_DARKEST == 2.0
    assert "twice the longest total bite" in read("picture")
    assert PRACTICAL_SHARE == 0.5
    assert "Half of that" in read("studio-book")
    assert (USUAL_PULL_MIN, USUAL_DAY_HOURS, Edition().spoilt_share) == (15.0, 6.0, 0.1)
    assert "a quarter of an hour a print and six hours a day" in read("studio-book")
    assert "one print in ten spoilt" in read("studio-book")
    assert HAND_STEPS_S[:3] == ((60.0, 5.0), (300.0, 15.0), (600.0, 30.0))
    assert "5 s up to 1 min, 15 s up to 5 min, 30 s up to 10 min" in read("order-and-sheets")
    assert (WARNED_S, APART_S) == ((60.0, 30.0), 1.5)
    assert Rates().rest_every_min == 120.0
    assert "every two hours" in read("order-and-sheets")


def test_cautions_of_the_book_are_those_of_the_sheet() -> None:
    """The sentences about what cannot be undone stand in both in the same words."""
    told = read("cautions")
    for words in (
        "acid into water, never water into acid",
        "Rosin dust explodes: no flame, spark or smoking in the room with the box, ever",
        "harms eyes for good: rinse a splash at once, for 15 minutes",
        "no lid on the bath, no flame, no spark",
        "into a lidded metal can, emptied daily",
        "follow the safety data sheets, your studio's rules and your local law",
    ):
        assert words in told
