"""Lines and second grain on the sheet by the tank, and read aloud."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date
from gettext import NullTranslations

import pytest
from tests.core.sheets.test_order_sheet import LongTongue, outside, overlapping, words_of

from toneladder.bite.values import Standing
from toneladder.lines.values import Lines
from toneladder.order.line_steps import with_lines
from toneladder.order.second_grain import with_second_grain
from toneladder.order.values import Order, SecondGrain
from toneladder.plan.planning import Plan
from toneladder.quantities import write_bite
from toneladder.sheets.marks import A4, LETTER, Paper, Sheet, Text
from toneladder.sheets.order_row import LEAST_FIGURE_EM, LEAST_MM
from toneladder.sheets.order_sheet import order_sheet
from toneladder.sheets.order_text import order_text
from toneladder.wording import speak

PlanOf = Callable[..., Plan]

LINES = Lines(depths=4, bites_s=(600.0, 1500.0, 2700.0, 5400.0), stopped_out=True)
GRAIN = SecondGrain(darkest=2, bites_s=(300.0, 900.0))
papers = pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)


@pytest.fixture(params=[False, True], ids=["plain", "long words"])
def _tongue(request: pytest.FixtureRequest) -> Iterator[None]:
    if request.param:
        speak(LongTongue())
    yield
    speak(NullTranslations())


def staged(made: Plan) -> Order:
    conditions, rates = made.plate.conditions, made.plate.rates
    lined = with_lines(made.order, LINES, (60.0, 120.0, 80.0, 40.0), conditions, rates)
    return with_second_grain(lined, GRAIN, conditions, rates)


def sheet_of(made: Plan, order: Order, paper: Paper = A4) -> tuple[Sheet, ...]:
    return order_sheet(
        made.plate,
        order,
        made.tones,
        standing=Standing.UNTESTED,
        source=made.curve.source,
        made_on=date(2026, 3, 16),
        paper=paper,
    )


@papers
@pytest.mark.parametrize("count", [2, 5, 12])
@pytest.mark.usefixtures("_tongue")
def test_nothing_is_lost_outside_or_over_another(plan_of: PlanOf, count: int, paper: Paper) -> None:
    made = plan_of(count)
    order = staged(made)
    sheets = sheet_of(made, order, paper)
    said = words_of(*sheets)
    bites = [step.bite_s for step in order.steps] + [step.bite_s for step in order.line_steps]
    for bite in bites:
        for word in write_bite(bite).split():
            assert word in said
    for sheet in sheets:
        assert not outside(sheet)
        assert not overlapping(sheet)


def test_lines_come_before_the_first_step_and_the_second_grain_after_the_last(
    plan_of: PlanOf,
) -> None:
    made = plan_of(5)
    sheets = sheet_of(made, staged(made))
    said = words_of(*sheets)
    places = [said.index(words) for words in ("Lines first", "all lines open", "heaviest lines")]
    places += [said.index(words) for words in ("grain even and fused", "stop out tone 3")]
    places.append(said.index("Second grain, on a day of its own"))
    assert places == sorted(places)


def test_line_bites_are_read_from_two_metres(plan_of: PlanOf) -> None:
    made = plan_of(5)
    first = sheet_of(made, staged(made))[0]
    large = [m for m in first.marks if isinstance(m, Text) and m.x > 110.0 and m.text.isdigit()]
    for step in staged(made).line_steps:
        number = write_bite(step.bite_s).split()[0]
        sizes = [mark.size_mm for mark in large if mark.text == number]
        assert sizes
        assert max(sizes) * LEAST_FIGURE_EM >= LEAST_MM


def test_a_plate_without_either_keeps_its_sheet(plan_of: PlanOf) -> None:
    made = plan_of(5)
    said = words_of(*sheet_of(made, made.order))
    assert "Lines first" not in said
    assert "Second grain" not in said


def test_read_aloud_every_bite_has_its_paragraph(plan_of: PlanOf) -> None:
    made = plan_of(5)
    text = order_text(
        made.plate,
        staged(made),
        standing=Standing.UNTESTED,
        source=made.curve.source,
        made_on=date(2026, 3, 16),
    )
    for n in range(1, 5):
        assert f"Line bite {n}." in text
    assert "Stop out the finest lines. Paint about 10 minutes, dry 10 minutes." in text
    assert "Second grain, bite 2. Stop out tone 3." in text
    assert "these bites start from nothing" in text.lower()
    assert text.index("Line bite 4.") < text.index("Step 1.") < text.index("Second grain, bite 1.")


def test_an_estimate_says_what_it_is(plan_of: PlanOf) -> None:
    made = plan_of(5)
    done = staged(made)
    assert "by estimate" in words_of(*sheet_of(made, done))
    one = replace(done, second_grain=None)
    assert "by estimate" not in words_of(*sheet_of(made, one))
