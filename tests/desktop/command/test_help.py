"""Every page of help can be printed, in every language."""

import argparse
from collections.abc import Iterator

import pytest

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
