"""Every page of help can be printed, in every language."""

import argparse
from collections.abc import Iterator

import pytest

from toneladder.errors import PlanError
from toneladder.wording import ENGLISH, LANGUAGES, LONGER, speak_language
from toneladder_desktop.command.running import parser


@pytest.fixture(autouse=True)
def _english_again() -> Iterator[None]:
    yield
    speak_language(ENGLISH)


def pages(of: argparse.ArgumentParser) -> Iterator[str]:
    yield of.format_help()
    for action in of._actions:
        if isinstance(action, argparse._SubParsersAction):
            for part in action.choices.values():
                yield from pages(part)


@pytest.mark.parametrize("language", [*LANGUAGES, LONGER])
def test_every_page_of_help_can_be_printed(language: str) -> None:
    speak_language(language)
    assert len(list(pages(parser()))) > 8


def test_german_help_is_german_throughout(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("LC_ALL", "de_DE.UTF-8")
    speak_language("de")
    text = "\n".join(pages(parser()))
    assert "Aufruf: toneladder" in text
    for english in ("usage", "options:", "positional", "show ", " the ", " of "):
        assert english not in text


@pytest.mark.parametrize(
    ("metal", "mordant"),
    [("copper", "Ferric chloride"), ("Kupfer", "EISENCHLORID"), ("kupfer", "ferric  chloride")],
)
def test_answers_are_taken_in_english_and_in_the_language_spoken(metal: str, mordant: str) -> None:
    speak_language("de")
    words = ["plan", "a.png", "--out", "a", "--metal", metal, "--mordant", mordant]
    chosen = parser().parse_args(words)
    assert (chosen.metal, chosen.mordant) == ("copper", "ferric chloride")


def test_a_wrong_answer_is_refused_with_those_that_there_are(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv("LC_ALL", "de_DE.UTF-8")
    speak_language("de")
    with pytest.raises(PlanError) as refused:
        parser().parse_args(["plan", "a.png", "--out", "a", "--metal", "Gold"])
    assert str(refused.value).startswith(
        "--metal: „Gold“ ist nichts davon: Kupfer, Zink, Aluminium, Stahl, anderes."
        " Nichts wurde geändert."
    )
    with pytest.raises(PlanError, match="„fiddle“ ist nichts davon: plan, read, fit"):
        parser().parse_args(["strip", "fiddle"])


def test_a_day_is_read_as_in_the_window() -> None:
    words = ["plan", "a.png", "--out", "a", "--grained-on", "25.11.2026"]
    assert parser().parse_args(words).grained_on == "2026-11-25"
