"""The order in plain sentences says what the sheet says, without a sign that is read badly."""

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

import pytest

from toneladder.bite.values import Standing
from toneladder.order.values import Order
from toneladder.quantities import read_bite, write_bite
from toneladder.sheets.order_text import order_text, spoken

if TYPE_CHECKING:
    from toneladder.plan.planning import Plan

BADLY_READ = re.compile(r"[×°·–—½¼¾|\t\u00a0…▲☐]")


def told(made: "Plan", order: Order | None = None) -> str:
    return order_text(
        made.plate,
        order or made.order,
        standing=made.curve.standing,
        source=made.curve.source,
        made_on=date(2026, 3, 16),
        bath_bites={18.0: tuple(step.bite_s + 5.0 for step in made.order.steps)},
    )


@pytest.mark.parametrize("count", [2, 5, 12])
def test_every_step_is_one_paragraph_with_its_bite(
    plan_of: Callable[..., "Plan"], count: int
) -> None:
    made = plan_of(count)
    paragraphs = told(made).split("\n\n")
    steps = [text for text in paragraphs if text.startswith("Step ")]
    assert len([text for text in steps if "Bite " in text]) == len(made.order.steps)
    for step, text in zip(made.order.steps, [t for t in steps if "Bite " in t], strict=True):
        assert text.startswith(f"Step {step.step}. Stop out ")
        bite = re.search(r"Bite ([^.]*)\.", text)
        assert bite is not None
        assert read_bite(bite[1]) == step.bite_s
        assert f"This makes tone {step.step}" in text
        assert f"{step.painting.places} place" in text


def test_no_sign_is_left_that_a_reader_reads_badly(plan_of: Callable[..., "Plan"]) -> None:
    text = told(plan_of(12))
    assert BADLY_READ.findall(text) == []
    assert re.findall(r"\d (?:s|min|h|mm)\b", text) == []


@pytest.mark.parametrize("count", [2, 7, 12])
def test_no_sentence_of_the_order_is_left_unsaid(
    plan_of: Callable[..., "Plan"], count: int
) -> None:
    made = plan_of(count)
    order = made.order
    text = told(made)
    said = (*order.before, *order.within, *order.after, *order.cautions, *order.warnings)
    assert [sentence for sentence in said if spoken(sentence) not in text] == []


def test_untested_times_are_said_before_any_bite(plan_of: Callable[..., "Plan"]) -> None:
    text = told(plan_of(4))
    assert text.index("Starting points, untested.") < text.index("Step 1.")


def test_times_from_a_strip_say_so(plan_of: Callable[..., "Plan"]) -> None:
    made = plan_of(4)
    text = order_text(
        made.plate, made.order, standing=Standing.STRIP, source="strip 14", made_on=date(2026, 3, 1)
    )
    assert "From a strip. The times: Strip 14." in text
    assert "untested" not in text.split("Caution")[0].lower().split("about this plate")[0]


def test_other_baths_are_told_with_the_step_and_called_a_guess(
    plan_of: Callable[..., "Plan"],
) -> None:
    made = plan_of(3)
    longer = spoken(write_bite(made.order.steps[0].bite_s + 5.0))
    assert f"a guess: {longer} at 18 degrees Celsius." in told(made)


def test_an_empty_tone_is_said(plan_of: Callable[..., "Plan"]) -> None:
    made = plan_of(3)
    bare = tuple(replace(tone, share=0.0) for tone in made.order.tones)
    text = told(made, replace(made.order, tones=bare))
    assert "Stop out bevel, edges: nothing of the picture to stop out;" in text


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("1 min 1 s", "1 minute 1 second"),
        ("1\u00a0h\u00a010\u00a0min", "1 hour 10 minutes"),
        ("38 °Bé, 68 °F", "38 degrees Baumé, 68 degrees Fahrenheit"),
        ("203.2 × 152 mm", "203.2 by 152 millimetres"),
        ("minus 3 signs", "minus 3 signs"),
        ("from D\u00a00.12, L*\u00a048", "from density 0.12, lightness 48"),
    ],
)
def test_units_are_spoken_as_words(written: str, said: str) -> None:
    assert spoken(written) == said


def test_remedies_of_soft_passages_are_told_at_their_step(plan_of: Callable[..., "Plan"]) -> None:
    made = plan_of(5)
    words = "Before you stop out: spit bite along passage 3."
    steps = tuple(
        replace(step, remedies=(words,)) if step.step == 2 else step for step in made.order.steps
    )
    paragraphs = told(made, replace(made.order, steps=steps)).split("\n\n")
    assert [words in text for text in paragraphs if text.startswith("Step ")].count(True) == 1
    assert words in next(text for text in paragraphs if text.startswith("Step 2."))
