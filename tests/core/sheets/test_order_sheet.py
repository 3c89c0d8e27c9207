"""The sheet by the tank holds everything, on the paper, readable, in as few pages as it can."""

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from gettext import NullTranslations
from itertools import combinations
from math import radians, tan
from typing import TYPE_CHECKING

import pytest
from PIL import ImageFont

from toneladder.bite.values import Standing
from toneladder.lettering import Face, font_path
from toneladder.quantities import write_bite
from toneladder.sheets.marks import A4, LETTER, Anchor, Mark, Paper, Path, Picture, Sheet, Text
from toneladder.sheets.order_row import COMFORTABLE_MM, LEAST_MM
from toneladder.wording import speak

if TYPE_CHECKING:
    from toneladder.plan.planning import Plan

Ink = tuple[float, float, float, float]
COUNTS = range(2, 13)
UNITS = {"h", "min", "s"}
LONG_TITLE = "The old breakwater and the lighthouse at dusk, seen from the harbour wall in March"
papers = pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
counts = pytest.mark.parametrize("count", COUNTS)


class LongTongue(NullTranslations):
    """A language whose every sentence is 40 % longer."""

    def gettext(self, message: str) -> str:
        extra = max(len(message.split("{", maxsplit=1)[0]) * 2 // 5, 1) if len(message) > 3 else 0
        return message + "o" * extra if message[-1:].isalpha() else message

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self.gettext(msgid1 if n == 1 else msgid2)


@pytest.fixture
def long_words() -> Iterator[None]:
    speak(LongTongue())
    yield
    speak(NullTranslations())


@cache
def letters(face: Face) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(font_path(face), 1000)


@cache
def ink(mark: Mark) -> Ink:
    """Left, top, right, bottom of what is black, texts measured by an independent library."""
    if isinstance(mark, Picture):
        return mark.box.x, mark.box.y, mark.box.right, mark.box.bottom
    if isinstance(mark, Path):
        xs = [x for points in mark.lines for x, _ in points]
        ys = [y for points in mark.lines for _, y in points]
        half = mark.stroke_mm / 2
        left, top, right, foot = min(xs) - half, min(ys) - half, max(xs) + half, max(ys) + half
        if mark.within is None:
            return left, top, right, foot
        low, high = mark.within.corners[0], mark.within.corners[2]
        return max(left, low[0]), max(top, low[1]), min(right, high[0]), min(foot, high[1])
    font = letters(mark.face)
    scale = mark.size_mm / 1000
    start = {Anchor.LEFT: 0.0, Anchor.MIDDLE: 0.5, Anchor.RIGHT: 1.0}[mark.anchor]
    x = mark.x - start * font.getlength(mark.text) * scale
    left, top, right, bottom = font.getbbox(mark.text, anchor="ls")
    return x + left * scale, mark.y + top * scale, x + right * scale, mark.y + bottom * scale


def texts(sheet: Sheet) -> list[Text]:
    return [mark for mark in sheet.marks if isinstance(mark, Text)]


def words_of(*sheets: Sheet) -> str:
    return " ".join(" ".join(text.text for sheet in sheets for text in texts(sheet)).split())


def overlapping(sheet: Sheet) -> list[tuple[str, str]]:
    boxes = [(text, ink(text)) for text in texts(sheet)]
    return [
        (one.text, other.text)
        for (one, a), (other, b) in combinations(boxes, 2)
        if min(a[2], b[2]) - max(a[0], b[0]) > 0.1 and min(a[3], b[3]) - max(a[1], b[1]) > 0.1
    ]


def outside(sheet: Sheet, margin: float = 8.0) -> list[Mark]:
    width, height = sheet.paper.width_mm, sheet.paper.height_mm
    return [
        mark
        for mark in sheet.marks
        for left, top, right, bottom in [ink(mark)]
        if left < margin or top < margin or right > width - margin or bottom > height - margin
    ]


def figures(sheets: tuple[Sheet, ...]) -> list[Text]:
    """The numbers of all bites: the largest digits of each page, right of its pictures."""
    return [
        text
        for sheet in sheets
        for text in texts(sheet)
        if text.text.strip().isdigit() and text.size_mm > 12.0 and text.x > 90.0
    ]


def odd_plates(made: "Plan") -> Iterator[tuple[str, dict[str, object]]]:
    order = made.order
    hour = replace(order.steps[-1], bite_s=4200.0, dips_s=(300.0,) * 14, longest_s=6000.0)
    bare = tuple(replace(tone, share=0.0) for tone in order.tones)
    yield "long title", {"plate": replace(made.plate, title=LONG_TITLE)}
    yield "one long word", {"plate": replace(made.plate, title="Abend" * 16)}
    yield "no title", {"plate": replace(made.plate, title=" \n ")}
    yield "over an hour", {"order": replace(order, steps=(*order.steps[:-1], hour))}
    yield "nothing to stop out", {"order": replace(order, tones=bare)}
    yield (
        "no sentences",
        {"order": replace(order, before=(), within=(), after=(), cautions=(), warnings=())},
    )
    yield (
        "many warnings",
        {"order": replace(order, warnings=("Tones 2 and 3 print alike. " * 5,) * 20)},
    )
    yield "a strip", {"standing": Standing.STRIP}


ODD = [
    "long title",
    "one long word",
    "no title",
    "over an hour",
    "nothing to stop out",
    "no sentences",
    "many warnings",
    "a strip",
]


@papers
@counts
def test_nothing_lies_in_the_margins_and_no_two_texts_overlap(
    usual_sheets: tuple[Sheet, ...],
) -> None:
    for sheet in usual_sheets:
        assert outside(sheet) == []
        assert overlapping(sheet) == []


@pytest.mark.parametrize("odd", ODD)
@papers
def test_odd_plates_keep_to_their_paper_too(
    plan_of: Callable[..., "Plan"],
    sheet_of: Callable[..., tuple[Sheet, ...]],
    paper: Paper,
    odd: str,
) -> None:
    made = plan_of(6)
    for sheet in sheet_of(made, paper=paper, **dict(odd_plates(made))[odd]):
        assert outside(sheet) == []
        assert overlapping(sheet) == []


@pytest.mark.usefixtures("long_words")
@papers
@pytest.mark.parametrize("count", [2, 5, 12])
def test_a_longer_language_keeps_to_its_paper_too(
    plan_of: Callable[..., "Plan"],
    sheet_of: Callable[..., tuple[Sheet, ...]],
    paper: Paper,
    count: int,
) -> None:
    for sheet in sheet_of(plan_of(count), paper=paper, bath_bites={18.0: (4000.0,) * (count - 1)}):
        assert outside(sheet) == []
        assert overlapping(sheet) == []


@pytest.mark.parametrize(("width", "height"), [(60.0, 400.0), (400.0, 60.0), (30.0, 20.0)])
def test_tall_and_wide_plates_are_shown_whole(
    plan_of: Callable[..., "Plan"],
    sheet_of: Callable[..., tuple[Sheet, ...]],
    width: float,
    height: float,
) -> None:
    sheets = sheet_of(plan_of(4, width, height))
    shown = [mark for sheet in sheets for mark in sheet.marks if isinstance(mark, Picture)]
    assert len(shown) == 3
    assert {(mark.box.width, mark.box.height) for mark in shown} == {
        (shown[0].box.width, shown[0].box.height)
    }
    assert shown[0].box.width / shown[0].box.height == pytest.approx(width / height)
    shrunk = width / shown[0].box.width
    stated = words_of(sheets[0]).split("pictures 1 : ")[1].split()[0]
    assert float(stated) == pytest.approx(shrunk, abs=0.51 if shrunk >= 10 else 0.051)


def test_the_heights_asked_for_are_those_of_the_standard() -> None:
    # ISO 9241-303, from memory: characters subtend 16 minutes of arc at least, 22 comfortably
    assert pytest.approx(2000 * tan(radians(16 / 60)), abs=0.05) == LEAST_MM
    assert pytest.approx(2000 * tan(radians(22 / 60)), abs=0.05) == COMFORTABLE_MM


@papers
@counts
def test_every_bite_is_read_from_two_metres(
    plan_of: Callable[..., "Plan"],
    usual_sheets: tuple[Sheet, ...],
    count: int,
) -> None:
    made = plan_of(count)
    digits = figures(usual_sheets)
    spoken = [part for step in made.order.steps for part in write_bite(step.bite_s).split()]
    assert [text.text.strip() for text in digits] == [part for part in spoken if part.isdigit()]
    for text in digits:
        for digit in text.text.strip():
            _, top, _, _ = letters(text.face).getbbox(digit, anchor="ls")
            assert -top / 1000 * text.size_mm >= LEAST_MM


@papers
@pytest.mark.parametrize("count", [2, 3, 4, 5])
def test_bites_are_comfortably_large_where_there_is_room(
    plan_of: Callable[..., "Plan"],
    sheet_of: Callable[..., tuple[Sheet, ...]],
    paper: Paper,
    count: int,
) -> None:
    for text in figures(sheet_of(plan_of(count), paper=paper)):
        _, top, _, _ = letters(text.face).getbbox("4", anchor="ls")
        assert -top / 1000 * text.size_mm >= COMFORTABLE_MM


@papers
@counts
def test_every_bite_stands_with_its_units_on_one_line(
    plan_of: Callable[..., "Plan"],
    usual_sheets: tuple[Sheet, ...],
    count: int,
) -> None:
    made = plan_of(count)
    lines: dict[tuple[int, float], list[Text]] = {}
    for sheet in usual_sheets:
        for text in texts(sheet):
            if text.face is Face.SANS_BOLD and text.size_mm > 7.0 and text.x > 90.0:
                lines.setdefault((sheet.page, text.y), []).append(text)
    bites = [" ".join(text.text for text in line) for line in lines.values()]
    assert bites == [" ".join(write_bite(step.bite_s).split()) for step in made.order.steps]


@papers
@counts
def test_six_steps_at_the_most_stand_on_the_first_page(
    usual_sheets: tuple[Sheet, ...],
    count: int,
) -> None:
    rows = [sum(isinstance(mark, Picture) for mark in sheet.marks) for sheet in usual_sheets]
    assert rows[0] <= 6
    assert sum(rows) == count - 1
    assert len(usual_sheets) <= 3


@papers
@counts
def test_every_page_names_plate_date_page_and_scale(
    usual_sheets: tuple[Sheet, ...],
    paper: Paper,
) -> None:
    for number, sheet in enumerate(usual_sheets, start=1):
        words = words_of(sheet)
        assert "Waves" in words
        assert f"16 March 2026 · page {number} of {len(usual_sheets)} · pictures 1 : " in words
        assert (sheet.page, sheet.pages, sheet.paper) == (number, len(usual_sheets), paper)


@papers
@counts
def test_no_sentence_of_the_order_is_left_out(
    plan_of: Callable[..., "Plan"],
    usual_sheets: tuple[Sheet, ...],
    count: int,
) -> None:
    made = plan_of(count)
    order = made.order
    words = words_of(*usual_sheets)
    said = (*order.before, *order.within, *order.after, *order.cautions, *order.warnings)
    missing = [sentence for sentence in said if " ".join(sentence.split()) not in words]
    assert missing == []
    for step in order.steps:
        assert f"makes tone {step.step}" in words
    # once more among what is done at every step, were it not for its capital
    assert words.count("go over old varnish, edges, pinholes") - 1 == len(order.steps) - 1
    assert words.count("dry bitten") == len(order.steps)
    assert f"Never stopped out: tone {count - 1}." in words


def test_what_stands_on_another_page_is_pointed_to(
    plan_of: Callable[..., "Plan"], sheet_of: Callable[..., tuple[Sheet, ...]]
) -> None:
    first, *others = sheet_of(plan_of(12))
    pages = dict(re.findall(r"page (\d): ([^·]*\w)", words_of(first)))
    assert "steps 7 to 11" in pages["2"]
    for name, begins in (("cautions", "Cautions"), ("warnings", "About this plate")):
        page = next(number for number, it in enumerate(others, 2) if begins in words_of(it))
        assert name in pages[str(page)].split(", ")


def test_untested_times_are_boxed_and_times_from_a_strip_are_not(
    plan_of: Callable[..., "Plan"], sheet_of: Callable[..., tuple[Sheet, ...]]
) -> None:
    made = plan_of(5)
    untested = words_of(*sheet_of(made))
    tested = words_of(*sheet_of(made, standing=Standing.STRIP))
    assert "STARTING POINTS, UNTESTED" in untested
    assert "UNTESTED" not in tested
    assert "From a strip: a strip of the same grain, read dry, bath 20 °C" in tested


def test_bites_in_other_baths_are_called_a_guess(
    plan_of: Callable[..., "Plan"], sheet_of: Callable[..., tuple[Sheet, ...]]
) -> None:
    made = plan_of(3)
    plain = words_of(*sheet_of(made))
    words = words_of(*sheet_of(made, bath_bites={18.0: (130.0, 780.0), 22.0: (110.0, 660.0)}))
    assert "bite at 18 °C 2 min 10 s 13 min" in words
    assert "bite at 22 °C 1 min 50 s 11 min" in words
    assert "a guess until strips show it" in words
    assert "a guess" not in plain


def test_a_long_title_keeps_all_its_words_in_two_lines(
    plan_of: Callable[..., "Plan"], sheet_of: Callable[..., tuple[Sheet, ...]]
) -> None:
    made = plan_of(5)
    first, *_ = sheet_of(made, plate=replace(made.plate, title=LONG_TITLE))
    assert len(LONG_TITLE) >= 80
    title = [text for text in texts(first) if text.face is Face.SERIF_BOLD]
    assert len(title) == 2
    assert " ".join(text.text for text in title) == LONG_TITLE


def test_the_edge_that_goes_up_changes_at_every_step(
    plan_of: Callable[..., "Plan"], sheet_of: Callable[..., tuple[Sheet, ...]]
) -> None:
    pointing_up = []
    for sheet in sheet_of(plan_of(6)):
        tips = [
            mark.lines[0]
            for mark in sheet.marks
            if isinstance(mark, Path) and mark.fill and len(mark.lines[0]) == 3
        ]
        pointing_up += [tip[2][1] < tip[0][1] for tip in tips if tip[0][0] > 70.0]
    assert pointing_up[-5:] == [True, False, True, False, True]


@papers
def test_remedies_of_soft_passages_stand_on_the_sheet_step_by_step(
    plan_of: Callable[..., "Plan"], sheet_of: Callable[..., tuple[Sheet, ...]], paper: Paper
) -> None:
    made = plan_of(5)
    remedy = "Before you stop out: spit bite along passage {n}, mordant brushed on the grain."
    steps = tuple(
        replace(step, remedies=tuple(remedy.format(n=10 * step.step + k) for k in range(4)))
        for step in made.order.steps
    )
    pages = sheet_of(made, order=replace(made.order, steps=steps), paper=paper)
    words = words_of(*pages)
    for step in steps:
        for sentence in step.remedies:
            assert f"Step {step.step}: {sentence}" in words
    for page in pages:
        assert outside(page) == []
        assert overlapping(page) == []
    assert "Soft passages" not in words_of(*sheet_of(made, paper=paper))
